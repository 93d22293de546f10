//! What may be chosen: the lists put to players.

use crate::arena::Arena;
use crate::cell::Cell;
use crate::choice::{Choice, Heading};
use crate::game::Table;
use crate::kinds::{Kind, Side};
use crate::limits::MAX_CHOICES;
use crate::paths::STEPS;
use crate::stage::{Mover, Moving, Stage};
use crate::state::{Place, State, Unit, UnitId};

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
    fn add(&mut self, choice: Choice) {
        if self.len < MAX_CHOICES {
            self.list[self.len] = choice;
            self.len += 1;
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
    if let Some(moving) = doing.moving {
        lister.stops(moving, to);
        return Some(lister.mover_side(moving.mover));
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

struct Lister<'a> {
    state: &'a State,
    table: &'a Table<'a>,
}

impl Lister<'_> {
    fn arena(&self) -> &Arena {
        self.table.arena
    }

    fn mover_side(&self, mover: Mover) -> Side {
        match mover {
            Mover::Unit(id) => self.state.units[id as usize].side,
            Mover::Marker(id) => self.state.markers[id as usize].side,
        }
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
        let side = self.state.units[id as usize].side;
        for dy in (-ry..=ry).step_by(2) {
            for dx in (-rx..=rx).step_by(2) {
                if let Some(cell) = centre.step(dx, dy).filter(|&cell| self.may_stand(side, cell)) {
                    to.add(Choice::PlaceAt(cell));
                }
            }
        }
        if to.len == 0 {
            to.add(Choice::PlaceAt(centre));
        }
    }

    /// Whether a unit may be placed in a square: free, and not in touch with the enemy.
    fn may_stand(&self, side: Side, cell: Cell) -> bool {
        let contact = self.table.rules.contact_distance() as u8;
        self.state.on_table().all(|(_, unit)| {
            if unit.side == side { unit.at != cell } else { unit.at.range(cell) > contact }
        })
    }

    /// Where a move may stop: not in a square another unit of its side is in, leaders excepted.
    fn stops(&self, moving: Moving, to: &mut Choices) {
        let (mut at, marker) = match moving.mover {
            Mover::Unit(id) => (self.state.units[id as usize].at, false),
            Mover::Marker(id) => (self.state.markers[id as usize].at, true),
        };
        let mover = match moving.mover {
            Mover::Unit(id) if self.state.units[id as usize].kind != Kind::Leader => Some(id),
            _ => None,
        };
        for step in 1..=moving.steps {
            let Some((next, _)) = self.table.paths.step(at, moving.heading, marker) else { break };
            at = next;
            if mover.is_none_or(|id| self.free(id, at)) {
                to.add(Choice::Stop(step));
            }
        }
    }

    fn free(&self, mover: UnitId, cell: Cell) -> bool {
        self.state
            .on_table()
            .all(|(id, unit)| id == mover || unit.at != cell || unit.kind == Kind::Leader)
    }

    /// Actions of a unit (RULES 5.2).
    fn unit(&self, id: UnitId, to: &mut Choices) {
        let unit = &self.state.units[id as usize];
        if unit.place != Place::Table || unit.actions == 0 {
            return;
        }
        to.add(Choice::Done);
        if unit.pins > 0 {
            to.add(Choice::Rally);
        }
        if unit.suppressed(self.table.rules) {
            return;
        }
        self.headings(to);
        if unit.shots > 0 {
            self.targets(unit, to);
        }
        self.spottable(unit.at, unit.side, to);
    }

    fn headings(&self, to: &mut Choices) {
        for way in 0..STEPS.len() as u8 {
            to.add(Choice::Move(Heading::Straight(way)));
        }
        for objective in 0..self.arena().objectives().len() as u8 {
            to.add(Choice::Move(Heading::Objective(objective)));
        }
    }

    /// Enemy units a unit may fire at (RULES 7.1).
    fn targets(&self, unit: &Unit, to: &mut Choices) {
        let rules = self.table.rules;
        if rules.fire_dice(unit.kind, unit.men, unit.pins) == 0 {
            return;
        }
        let row = self.arena().sight().from(unit.at);
        for (id, target) in self.state.on_table() {
            if target.side != unit.side
                && row.sees(target.at)
                && rules.range_band(unit.kind, unit.at.range(target.at)) < 3
                && !self.sheltered_leader(id, target)
            {
                to.add(Choice::Fire(id));
            }
        }
    }

    /// A leader close to another unit of his side is no target of his own (RULES 10.4).
    fn sheltered_leader(&self, id: UnitId, leader: &Unit) -> bool {
        leader.kind == Kind::Leader
            && self.state.on_table().any(|(other, unit)| {
                other != id
                    && unit.side == leader.side
                    && unit.kind != Kind::Leader
                    && unit.at.range(leader.at) <= CLOSE
            })
    }

    /// Enemy markers in sight (RULES 6.1).
    fn spottable(&self, from: Cell, side: Side, to: &mut Choices) {
        let row = self.arena().sight().from(from);
        for (id, marker) in (0..).zip(self.state.markers()) {
            if marker.on_table && marker.side != side && row.sees(marker.at) {
                to.add(Choice::Spot(id));
            }
        }
    }

    /// A leader's orders (RULES 10.1).
    fn orders(&self, id: UnitId, orders: u8, to: &mut Choices) {
        let leader = &self.state.units[id as usize];
        if leader.place != Place::Table || orders == 0 || leader.suppressed(self.table.rules) {
            return;
        }
        to.add(Choice::Done);
        self.headings(to);
        let radius = self.table.rules.leader_radius(leader.grade) as u8;
        for (other, unit) in self.state.on_table() {
            if other == id || unit.side != leader.side || unit.at.range(leader.at) > radius {
                continue;
            }
            if unit.pins > 0 {
                to.add(Choice::OrderRally(other));
            }
            if !unit.ordered && unit.kind != Kind::Leader && !unit.suppressed(self.table.rules) {
                to.add(Choice::OrderAction(other));
            }
        }
    }

    /// Units of a group that have not acted on its card (RULES 2.4).
    fn members(&self, group: u8, to: &mut Choices) {
        for id in self.state.members(group) {
            let unit = &self.state.units[id as usize];
            if unit.place == Place::Table && !unit.picked {
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
            self.headings(to);
            if rules.marker_may_spot() {
                self.spottable(marker.at, marker.side, to);
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
        for (id, unit) in self.state.on_table() {
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
}
