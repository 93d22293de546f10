//! Names of the things in a game, and the small words around them.

use ruleshift_game::{BatteryId, Cell, GroupId, Heading, MarkerId, Side, State, UnitId};

use super::Story;

const WAYS: [&str; 8] = [
    "right",
    "up and right",
    "up",
    "up and left",
    "left",
    "down and left",
    "down",
    "down and right",
];

/// A way by eighths of a turn, as it is on the board.
pub(crate) fn way(way: u8) -> &'static str {
    WAYS[way as usize % WAYS.len()]
}

impl Story<'_> {
    /// A unit's name.
    pub(crate) fn unit(&self, id: UnitId) -> String {
        self.arena.unit_name(id).map_or_else(|| format!("unit {id}"), |(unit, _)| unit.to_owned())
    }

    /// A unit's name with its side's: "Defender's First section".
    pub(crate) fn units(&self, id: UnitId, state: &State) -> String {
        format!("{}'s {}", capital(state.units()[id as usize].side), self.unit(id))
    }

    pub(crate) fn group(&self, id: GroupId) -> String {
        self.arena.group_name(id).map_or_else(|| format!("group {id}"), str::to_owned)
    }

    pub(crate) fn battery(&self, id: BatteryId) -> String {
        let battery = self.arena.batteries().nth(id.into());
        battery.map_or_else(|| format!("battery {id}"), |(_, battery)| battery.name.clone())
    }

    pub(crate) fn feature(&self, side: Side, id: u8) -> String {
        let feature = self.arena.setup().sides[side].features.get(id as usize);
        feature.map_or_else(|| format!("feature {id}"), |feature| feature.name.clone())
    }

    pub(crate) fn objective(&self, id: u8) -> String {
        let objective = self.arena.objectives().get(id as usize);
        objective.map_or_else(|| format!("objective {id}"), |objective| objective.name.clone())
    }

    /// Where a move goes.
    pub(crate) fn heading(&self, heading: Heading) -> String {
        match heading {
            Heading::Straight(to) => way(to).to_owned(),
            Heading::Objective(id) => format!("towards {}", self.objective(id)),
        }
    }

    /// The unit or marker that looks for something.
    pub(crate) fn looker(
        &self,
        unit: Option<UnitId>,
        by: Option<MarkerId>,
        state: &State,
    ) -> String {
        let unit = unit.map(|unit| self.units(unit, state));
        let looker = unit.or_else(|| by.map(|by| capital(marker(by, state))));
        looker.unwrap_or_else(|| "Nobody".to_owned())
    }
}

/// A marker by its side and its letter on the board.
pub(crate) fn marker(id: MarkerId, state: &State) -> String {
    format!("{} marker {}", state.markers()[id as usize].side, letter(id))
}

/// The letter of a marker on the board: the attacker's and the defender's share one alphabet.
pub(crate) fn letter(id: MarkerId) -> char {
    match id % 52 {
        small @ 0..26 => char::from(b'a' + small),
        large => char::from(b'A' + large - 26),
    }
}

/// A square by its place from the left and the near edge.
pub(crate) fn square(cell: Cell) -> String {
    format!("{},{}", cell.x, cell.y)
}

/// A count with its noun: "1 pin", "3 pins".
pub(crate) fn counted(count: u8, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}

/// A number of men: "1 man", "3 men".
pub(crate) fn men(count: u8) -> String {
    if count == 1 { "1 man".to_owned() } else { format!("{count} men") }
}

pub(crate) fn capital(text: impl ToString) -> String {
    let text = text.to_string();
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
