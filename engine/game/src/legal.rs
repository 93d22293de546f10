//! What may be chosen: the lists put to players.

use crate::arena::Arena;
use crate::cell::Cell;
use crate::choice::Choice;
use crate::game::Table;
use crate::kinds::{Kind, Side};
use crate::limits::MAX_CHOICES;
use crate::paths::Gait;
use crate::stage::{Mover, Moving, Reaction, Stage};
use crate::state::{Place, State, Unit, UnitId};
use crate::walk::Walker;

/// Half the marker's area, 6 by 4 in, along the long and the short edge.
const AREA: (i32, i32) = (3, 2);
/// Distance in inches within which a leader is close to a unit.
pub(crate) const CLOSE: u8 = 2;

/// A list of choices in fixed room.
pub(crate) struct Choices {
    list: [Choice; MAX_CHOICES],
    len: usize,
}

impl Default for Choices {
    fn default() -> Self {
        Choices { list: [Choice::Done; MAX_CHOICES], len: 0 }
    }
}

impl Choices {
    pub(crate) fn clear(&mut self) {
        self.len = 0;
    }

    pub(crate) fn as_slice(&self) -> &[Choice] {
        &self.list[..self.len]
    }

    /// Adds a choice; a full list, far beyond what rules allow, takes no more.
    pub(crate) fn add(&mut self, choice: Choice) {
        if self.len < MAX_CHOICES {
            self.list[self.len] = choice;
            self.len += 1;
        }
    }

    /// Adds a choice unless it is there.
    pub(crate) fn add_once(&mut self, choice: Choice) {
        if !self.as_slice().contains(&choice) {
            self.add(choice);
        }
    }
}

/// Lists the choices of whoever is asked next; nothing when nobody is.
pub(crate) fn list(state: &State, table: &Table<'_>, to: &mut Choices) -> Option<Side> {
    let lister = Lister { state, table };
    let doing = &state.doing;
    if doing.placing != 0 {
        let group = doing.placing.trailing_zeros() as u8;
        lister.places(group, to);
        return Some(state.groups[group as usize].side);
    }
    if let Some(asked) = doing.asked {
        lister.answers(asked, to);
        return Some(asked.side);
    }
    if let Some(moving) = doing.moving {
        lister.stops(moving, to);
        return Some(state.mover(moving.mover).side);
    }
    if let Some(reaction) = doing.reaction {
        lister.reaction(reaction, to);
        return Some(state.units[reaction.unit as usize].side);
    }
    if let Some(battery) = doing.battery {
        to.add(Choice::Done);
        to.add(Choice::FireBattery);
        return Some(state.batteries[battery as usize].side);
    }
    if let Some(id) = doing.unit {
        lister.unit(id, to);
        return Some(state.units[id as usize].side);
    }
    if let Some((id, orders)) = doing.leader {
        lister.orders(id, orders, to);
        return Some(state.units[id as usize].side);
    }
    if let Some(group) = doing.group {
        lister.members(group, to);
        return Some(state.groups[group as usize].side);
    }
    if let Some(marker) = doing.marker {
        lister.marker(marker, to);
        return Some(state.markers[marker as usize].side);
    }
    if let Some(side) = doing.marker_card {
        lister.marker_card(side, to);
        return Some(side);
    }
    match doing.stage {
        Stage::LateFire { unit, .. } if unit < state.unit_count => {
            lister.late_fire(unit, to);
            Some(state.units[unit as usize].side)
        }
        _ => None,
    }
}

pub(crate) struct Lister<'a> {
    pub(crate) state: &'a State,
    pub(crate) table: &'a Table<'a>,
}

impl Lister<'_> {
    pub(crate) fn arena(&self) -> &Arena {
        self.table.arena
    }

    /// Squares where the next hidden unit of a group may be placed (RULES 4.8).
    fn places(&self, group: u8, to: &mut Choices) {
        let Some(id) = self
            .state
            .members(group)
            .find(|&u| self.state.units[u as usize].place == Place::Hidden)
        else {
            return;
        };
        let centre = self.state.groups[group as usize].placed_at;
        let margin = self.table.rules.deploy_distance();
        let (rx, ry) = (AREA.0 + margin, AREA.1 + margin);
        let Unit { side, kind, .. } = self.state.units[id as usize];
        let fits = |cell: &Cell| {
            self.table.paths.open(*cell, Gait::of(kind)) && self.may_stand(side, *cell)
        };
        for dy in (-ry..=ry).step_by(2) {
            for dx in (-rx..=rx).step_by(2) {
                if let Some(cell) = centre.step(dx, dy).filter(fits) {
                    to.add(Choice::PlaceAt(cell));
                }
            }
        }
        if to.len == 0 {
            to.add(Choice::PlaceAt(centre));
        }
    }

    /// Whether a unit may be placed in a square: free, and not in touch with the enemy.
    pub(crate) fn may_stand(&self, side: Side, cell: Cell) -> bool {
        let contact = self.table.rules.contact_distance() as u8;
        self.state.on_table().all(|(_, unit)| {
            if unit.side == side { unit.at != cell } else { unit.at.range(cell) > contact }
        })
    }

    /// Where a move may stop: not in a square another unit of its side is in, leaders excepted.
    fn stops(&self, moving: Moving, to: &mut Choices) {
        let Walker { mut at, gait, .. } = self.state.mover(moving.mover);
        let mover = match moving.mover {
            Mover::Unit(id) if self.state.units[id as usize].kind != Kind::Leader => Some(id),
            _ => None,
        };
        for step in 1..=moving.steps {
            let Some((next, _)) = self.table.paths.step(at, moving.heading, gait) else { break };
            at = next;
            if mover.is_none_or(|id| self.state.free(id, at)) {
                to.add(Choice::Stop(step));
            }
        }
    }

    /// Units of a group that have not acted on its card (RULES 2.4).
    fn members(&self, group: u8, to: &mut Choices) {
        for id in self.state.members(group) {
            let unit = &self.state.units[id as usize];
            if unit.here() && !unit.picked {
                to.add(Choice::PickUnit(id));
            }
        }
    }

    /// Actions of a marker (RULES 4.2).
    fn marker(&self, id: u8, to: &mut Choices) {
        let marker = &self.state.markers[id as usize];
        let rules = self.table.rules;
        if !marker.on_table {
            return;
        }
        let left = marker.left > 0;
        let fire = marker.group.is_some() && rules.may_open_fire(marker.used.min(8));
        if left || fire {
            to.add(Choice::Done);
        }
        if left {
            self.headings(self.state.mover(Mover::Marker(id)), to);
            if rules.marker_may_spot() {
                self.spottable(marker.at, marker.side, to);
                self.searchable(marker.at, marker.side, to);
            }
            if self.state.hidden_observer(marker).is_some() {
                self.calls(marker.at, marker.side, to);
            }
        }
        if fire {
            to.add(Choice::OpenFire);
        }
    }

    /// What a marker card lets a side act with (RULES 4.2, 4.8).
    fn marker_card(&self, side: Side, to: &mut Choices) {
        for (id, marker) in (0..).zip(self.state.markers()) {
            if marker.on_table && marker.side == side && !marker.picked {
                to.add(Choice::PickMarker(id));
            }
        }
        for (id, unit) in (0..).zip(self.state.units()).filter(|(_, unit)| unit.here()) {
            let group = &self.state.groups[unit.group as usize];
            if unit.side == side && !group.carded && !unit.activated {
                to.add(Choice::PickUnit(id));
            }
        }
    }

    /// Late fire of a unit (RULES 8.1).
    fn late_fire(&self, id: UnitId, to: &mut Choices) {
        let unit = &self.state.units[id as usize];
        let used = self.state.groups[unit.group as usize].used;
        if unit.place == Place::Table
            && !unit.activated
            && used == 0
            && unit.kind != Kind::Leader
            && !unit.suppressed(self.table.rules)
            && self.table.rules.late_fire_allowed(unit.kind, unit.quality)
        {
            self.targets(unit, to);
            if to.len > 0 {
                to.add(Choice::Done);
            }
        }
    }

    /// Fire that was held, at the enemy who has moved (RULES 17.1).
    fn reaction(&self, reaction: Reaction, to: &mut Choices) {
        let unit = &self.state.units[reaction.unit as usize];
        let target = &self.state.units[reaction.target as usize];
        if unit.side == target.side || !self.may_react(unit) {
            return;
        }
        if target.place == Place::Table && self.may_fire(unit, reaction.target, target) {
            to.add(Choice::Fire(reaction.target));
            to.add(Choice::Done);
        }
    }

    fn may_react(&self, unit: &Unit) -> bool {
        unit.holds_fire && unit.place == Place::Table && !unit.suppressed(self.table.rules)
    }
}
