//! All data of one game at one moment: a flat value that can be copied.

use crate::deck::Deck;
use crate::kinds::{BySide, Side};
use crate::limits::{
    MAX_BATTERIES, MAX_COUNTERS, MAX_GROUPS, MAX_MARKERS, MAX_OBJECTIVES, MAX_SCREENS, MAX_UNITS,
};
use crate::luck::{Purpose, Stream, finalise};
use crate::stage::Doing;

pub use crate::pieces::{
    Battery, BatteryId, Call, Group, GroupId, Marker, MarkerId, Origin, Place, Screen, Unit, UnitId,
};

/// Counts of what people at the table would have had to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Dice rolled.
    pub dice: u32,
    /// Throws: dice rolled together count once.
    pub throws: u32,
    /// Choices put to players.
    pub decisions: u32,
    /// Calls of event hooks.
    pub script_calls: u32,
}

/// The first units' rolls take the lower numbers, markers' the next, then groups, sides, scripts,
/// batteries.
const WHO: usize = MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 3 + MAX_BATTERIES;

/// Sets luck that is only imagined apart from the game's.
const OTHER_LUCK: u64 = 0x6f74_6865_726c_7563;

/// Who makes a roll.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    /// A unit.
    Unit(UnitId),
    /// A marker.
    Marker(MarkerId),
    /// A group.
    Group(GroupId),
    /// A side.
    Side(Side),
    /// An event hook.
    Script,
    /// A battery.
    Battery(BatteryId),
}

impl Who {
    /// The unit or the marker that it is, for events that name both.
    pub(crate) const fn unit_or_marker(self) -> (Option<UnitId>, Option<MarkerId>) {
        match self {
            Who::Unit(id) => (Some(id), None),
            Who::Marker(id) => (None, Some(id)),
            _ => (None, None),
        }
    }

    const fn number(self) -> usize {
        match self {
            Who::Unit(id) => id as usize,
            Who::Marker(id) => MAX_UNITS + id as usize,
            Who::Group(id) => MAX_UNITS + MAX_MARKERS + id as usize,
            Who::Side(side) => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + side as usize,
            Who::Script => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 2,
            Who::Battery(id) => MAX_UNITS + MAX_MARKERS + MAX_GROUPS + 3 + id as usize,
        }
    }
}

/// All data of one game at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct State {
    pub(crate) seed: u64,
    pub(crate) turn: u16,
    pub(crate) units: [Unit; MAX_UNITS],
    pub(crate) unit_count: u8,
    pub(crate) groups: [Group; MAX_GROUPS],
    pub(crate) group_count: u8,
    pub(crate) markers: [Marker; MAX_MARKERS],
    pub(crate) marker_count: u8,
    pub(crate) holders: [Option<Side>; MAX_OBJECTIVES],
    pub(crate) points: BySide<i16>,
    pub(crate) deck: Deck,
    pub(crate) doing: Doing,
    pub(crate) tally: Tally,
    pub(crate) batteries: [Battery; MAX_BATTERIES],
    pub(crate) battery_count: u8,
    pub(crate) screens: [Screen; MAX_SCREENS],
    pub(crate) screen_count: u8,
    /// Radius of the screens in inches.
    pub(crate) screen_radius: u8,
    /// Farthest that anything is seen this turn, in inches.
    pub(crate) sight_limit: u8,
    /// Features found empty or shown, one bit each, by the side they belong to.
    pub(crate) searched: BySide<u16>,
    /// The last turn in which a side is short of ammunition.
    pub(crate) short_until: BySide<u16>,
    /// What house rules count, by number over the whole rule stack.
    pub(crate) counters: [i16; MAX_COUNTERS],
    /// Cards that house rules have added to the deck of this turn.
    pub(crate) added_cards: u8,
    /// Whether a house rule has ended the drawing of cards this turn.
    pub(crate) turn_cut: bool,
    /// Rolls made this turn, by purpose and who: the last part of each key.
    rolls: [[u8; WHO]; Purpose::COUNT],
}

impl State {
    pub(crate) fn empty(seed: u64) -> State {
        State {
            seed,
            turn: 0,
            units: [Unit::EMPTY; MAX_UNITS],
            unit_count: 0,
            groups: [Group::EMPTY; MAX_GROUPS],
            group_count: 0,
            markers: [Marker::EMPTY; MAX_MARKERS],
            marker_count: 0,
            holders: [None; MAX_OBJECTIVES],
            points: BySide([0; 2]),
            deck: Deck::default(),
            doing: Doing::default(),
            tally: Tally::default(),
            batteries: [Battery::EMPTY; MAX_BATTERIES],
            battery_count: 0,
            screens: [Screen::EMPTY; MAX_SCREENS],
            screen_count: 0,
            screen_radius: 0,
            sight_limit: u8::MAX,
            searched: BySide([0; 2]),
            short_until: BySide([0; 2]),
            counters: [0; MAX_COUNTERS],
            added_cards: 0,
            turn_cut: false,
            rolls: [[0; WHO]; Purpose::COUNT],
        }
    }

    /// Turn being played, from 1; 0 before the first.
    pub fn turn(&self) -> u16 {
        self.turn
    }

    /// All units, by number.
    pub fn units(&self) -> &[Unit] {
        &self.units[..self.unit_count as usize]
    }

    /// All groups, by number.
    pub fn groups(&self) -> &[Group] {
        &self.groups[..self.group_count as usize]
    }

    /// All markers, by number.
    pub fn markers(&self) -> &[Marker] {
        &self.markers[..self.marker_count as usize]
    }

    /// All batteries, by number.
    pub fn batteries(&self) -> &[Battery] {
        &self.batteries[..self.battery_count as usize]
    }

    /// The smoke screens on the table.
    pub fn screens(&self) -> &[Screen] {
        &self.screens[..self.screen_count as usize]
    }

    /// Whether a feature of `side` has been searched or has shown what it hid.
    pub fn searched(&self, side: Side, feature: u8) -> bool {
        self.searched[side] >> feature & 1 != 0
    }

    /// Who holds each objective; entries beyond the scenario's objectives are none.
    pub fn holders(&self) -> &[Option<Side>; MAX_OBJECTIVES] {
        &self.holders
    }

    /// Points of each side.
    pub fn points(&self) -> BySide<i16> {
        self.points
    }

    /// What the players have had to do.
    pub fn tally(&self) -> Tally {
        self.tally
    }

    /// Units on the table with their numbers, of both sides.
    pub fn on_table(&self) -> impl Iterator<Item = (UnitId, &Unit)> {
        (0..).zip(self.units()).filter(|(_, unit)| unit.place == Place::Table)
    }

    /// The numbers of a group's units.
    pub(crate) fn members(&self, group: GroupId) -> std::ops::Range<UnitId> {
        let group = &self.groups[group as usize];
        group.first_unit..group.first_unit + group.units
    }

    /// Men lost or fled, and men at the start, of a side.
    pub fn losses(&self, side: Side) -> (u32, u32) {
        let of_side = self.units().iter().filter(|unit| unit.side == side);
        of_side.fold((0, 0), |(lost, first), unit| {
            let gone = matches!(unit.place, Place::Fled | Place::Captured);
            let left = if gone { 0 } else { unit.men };
            (lost + u32::from(unit.first_men - left), first + u32::from(unit.first_men))
        })
    }

    /// The stream of the next roll of `who` for `purpose` this turn. Counts one throw of `dice`.
    pub(crate) fn roll(&mut self, purpose: Purpose, who: Who, dice: u8) -> Stream {
        self.tally.throws += u32::from(dice > 0);
        self.tally.dice += u32::from(dice);
        let key = self.key(who);
        let nth = &mut self.rolls[purpose as usize][who.number()];
        let stream = Stream::keyed(self.seed, purpose, self.turn, key, (*nth).into());
        *nth = nth.saturating_add(1);
        stream
    }

    /// The `who` of a roll's key. A marker's is its spot: numbers of markers depend on how many
    /// there are, and a rule that adds a dummy must leave the dice of the others alone.
    fn key(&self, who: Who) -> u16 {
        match who {
            Who::Marker(id) => {
                let marker = &self.markers[id as usize];
                0x4000 | (marker.side as u16) << 8 | u16::from(marker.spot)
            }
            _ => who.number() as u16,
        }
    }

    /// Takes over the rolls made in a copy of this state.
    pub(crate) fn take_rolls(&mut self, copy: &State) {
        self.rolls = copy.rolls;
        self.tally.dice = copy.tally.dice;
        self.tally.throws = copy.tally.throws;
    }

    /// The same moment with other luck from here on, which tells nothing of what will be rolled.
    pub(crate) fn with_other_luck(mut self, nth: u64) -> State {
        self.seed = finalise(self.seed ^ finalise(OTHER_LUCK.wrapping_add(nth)));
        self
    }

    /// Starts the counts of rolls anew, as each turn does.
    pub(crate) fn forget_rolls(&mut self) {
        self.rolls = [[0; WHO]; Purpose::COUNT];
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Nobody's rolls take the numbers of another's.
    #[test]
    fn whoever_rolls_has_a_place_of_his_own() {
        let units = (0..MAX_UNITS as u8).map(Who::Unit);
        let markers = (0..MAX_MARKERS as u8).map(Who::Marker);
        let groups = (0..MAX_GROUPS as u8).map(Who::Group);
        let sides = Side::ALL.iter().map(|&side| Who::Side(side));
        let batteries = (0..MAX_BATTERIES as u8).map(Who::Battery);
        let all =
            units.chain(markers).chain(groups).chain(sides).chain([Who::Script]).chain(batteries);
        assert!(all.map(Who::number).eq(0..WHO));
    }
}
