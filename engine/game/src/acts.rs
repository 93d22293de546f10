//! What a unit or a leader may choose to do (RULES 5.2, 7.1, 10.1, 12.1, 13.9, 14.1).

use crate::cell::{Cell, turns_between};
use crate::choice::{Choice, Heading};
use crate::kinds::{Ground, Kind, Side};
use crate::legal::{CLOSE, Choices, Lister};
use crate::paths::{Gait, STEPS};
use crate::stage::Mover;
use crate::state::{Battery, Place, Unit, UnitId};
use crate::walk::Walker;

/// Distance in inches within which a unit gets into a vehicle.
const ABOARD: u8 = 2;

impl Lister<'_> {
    /// Actions of a unit (RULES 5.2).
    pub(crate) fn unit(&self, id: UnitId, to: &mut Choices) {
        let unit = &self.state.units[id as usize];
        if !unit.here() || unit.actions == 0 {
            return;
        }
        to.add(Choice::Done);
        if unit.place == Place::Carried {
            return self.getting_out(unit, to);
        }
        if unit.pins > 0 {
            to.add(Choice::Rally);
        }
        if unit.suppressed(self.table.rules) {
            return;
        }
        if !unit.immobile {
            self.headings(self.state.mover(Mover::Unit(id)), to);
        }
        if unit.shots > 0 {
            self.targets(unit, to);
            if self.table.rules.may_hold_fire(unit.kind) {
                to.add(Choice::HoldFire);
            }
        }
        self.spottable(unit.at, unit.side, to);
        self.searchable(unit.at, unit.side, to);
        if unit.kind.has_facing() {
            (0..STEPS.len() as u8)
                .filter(|&way| way != unit.facing)
                .for_each(|way| to.add(Choice::Turn(way)));
        } else {
            self.assaults(unit, to);
        }
        if self.may_dig(unit) {
            to.add(Choice::DigIn);
        }
        self.getting_in(unit, to);
        if unit.kind == Kind::Observer {
            self.calls(unit.at, unit.side, to);
        }
        if self.may_leave(unit) {
            to.add(Choice::Leave);
        }
    }

    /// Ways that can be begun: the next square is there, can be entered and does not touch the
    /// enemy, whom only a marker may meet (RULES 5.3, 5.6).
    pub(crate) fn headings(&self, walker: Walker, to: &mut Choices) {
        let Walker { at, side, gait } = walker;
        let contact = self.table.rules.contact_distance() as u8;
        let held_up = gait != Gait::Marker && self.state.enemy_within(side, at, contact + 2);
        let straight = (0..STEPS.len() as u8).map(Heading::Straight);
        let objectives = (0..self.arena().objectives().len() as u8).map(Heading::Objective);
        for heading in straight.chain(objectives) {
            let Some((next, _)) = self.table.paths.step(at, heading, gait) else { continue };
            if !held_up || !self.state.enemy_within(side, next, contact) {
                to.add(Choice::Move(heading));
            }
        }
    }

    /// Enemy units a unit may fire at (RULES 7.1).
    pub(crate) fn targets(&self, unit: &Unit, to: &mut Choices) {
        for (target_id, target) in self.state.on_table() {
            if target.side != unit.side && self.may_fire(unit, target_id, target) {
                to.add(Choice::Fire(target_id));
            }
        }
    }

    /// Whether a unit may fire at that enemy: seen, within range and arc, no sheltered leader, and
    /// one that its weapon can harm (RULES 7.1, 13.2, 13.5).
    pub(crate) fn may_fire(&self, unit: &Unit, target_id: UnitId, target: &Unit) -> bool {
        let rules = self.table.rules;
        let harms = if target.armoured() {
            unit.gun.is_some()
        } else {
            rules.fire_dice(unit.kind, unit.men, unit.pins) > 0
        };
        harms
            && self.state.sees(self.arena(), unit.at, target.at)
            && rules.range_band(unit.kind, unit.at.range(target.at)) < 3
            && self.bears(unit, target.at)
            && !self.sheltered_leader(target_id, target)
    }

    /// Whether a unit's weapon points that way (RULES 13.2).
    fn bears(&self, unit: &Unit, at: Cell) -> bool {
        let arc = self.table.rules.fire_arc(unit.kind) as u8;
        arc >= 4 || turns_between(unit.facing, unit.at.way_to(at)) <= arc
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
    pub(crate) fn spottable(&self, from: Cell, side: Side, to: &mut Choices) {
        for (id, marker) in (0..).zip(self.state.markers()) {
            if marker.shows()
                && marker.side != side
                && self.state.sees(self.arena(), from, marker.at)
            {
                to.add(Choice::Spot(id));
            }
        }
    }

    /// Features of the enemy in sight that may still hide troops (RULES 15.4).
    pub(crate) fn searchable(&self, from: Cell, side: Side, to: &mut Choices) {
        let enemy = side.other();
        for (n, feature) in (0..).zip(&self.arena().setup().sides[enemy].features) {
            if !self.state.searched(enemy, n) && self.state.sees(self.arena(), from, feature.at) {
                to.add(Choice::Search(n));
            }
        }
    }

    /// Enemy units on foot or in vehicles near enough to be assaulted (RULES 12.1).
    fn assaults(&self, unit: &Unit, to: &mut Choices) {
        let rules = self.table.rules;
        if unit.kind != Kind::FlameTeam
            && !unit.kind.is_section()
            && unit.kind != Kind::AntiTankTeam
        {
            return;
        }
        let reach = rules.assault_reach() as u8;
        for (id, target) in self.state.on_table() {
            let near = target.side != unit.side && unit.at.range(target.at) <= reach;
            let able = unit.kind.is_section() || target.armoured();
            if near && able && self.state.sees(self.arena(), unit.at, target.at) {
                to.add(Choice::Assault(id));
            }
        }
    }

    /// Whether a unit can dig where it is (RULES 16.1).
    fn may_dig(&self, unit: &Unit) -> bool {
        let soft = matches!(
            self.arena().ground(unit.at),
            Ground::Open
                | Ground::Crops
                | Ground::Scrub
                | Ground::Wood
                | Ground::Hedge
                | Ground::Hill
        );
        soft && !unit.dug_in && unit.kind != Kind::Leader && !unit.kind.is_vehicle()
    }

    /// Vehicles of its side that can take a unit (RULES 13.9).
    fn getting_in(&self, unit: &Unit, to: &mut Choices) {
        let rules = self.table.rules;
        if unit.kind.is_vehicle() || i32::from(unit.actions) < rules.mounting_actions(unit.kind) {
            return;
        }
        for (id, vehicle) in self.state.on_table() {
            let fits = vehicle.kind.carries()
                && vehicle.side == unit.side
                && vehicle.at.range(unit.at) <= ABOARD
                && i32::from(self.state.load(id) + unit.men) <= rules.capacity(vehicle.kind);
            if fits {
                to.add(Choice::Mount(id));
            }
        }
    }

    /// Free squares around its vehicle (RULES 13.9).
    fn getting_out(&self, unit: &Unit, to: &mut Choices) {
        if i32::from(unit.actions) < self.table.rules.mounting_actions(unit.kind) {
            return;
        }
        for (way, (dx, dy)) in (0u8..).zip(STEPS) {
            if unit.at.step(dx, dy).is_some_and(|cell| self.may_stand(unit.side, cell)) {
                to.add(Choice::Dismount(way));
            }
        }
    }

    /// Fire that someone there may call or correct (RULES 14.1, 14.6).
    pub(crate) fn calls(&self, from: Cell, side: Side, to: &mut Choices) {
        let own = |(_, battery): &(u8, &Battery)| battery.side == side && battery.missions > 0;
        for (id, battery) in (0..).zip(self.state.batteries()).filter(own) {
            match battery.call {
                Some(call) if call.fired => {
                    if call.adjusted < 6 && self.state.sees(self.arena(), from, call.at) {
                        to.add(Choice::Adjust(id));
                    }
                    self.aims(id, from, side, to);
                }
                Some(_) => {}
                None => self.aims(id, from, side, to),
            }
        }
    }

    /// Squares a battery may be aimed at: those of enemies in sight, shown or suspected.
    fn aims(&self, battery: u8, from: Cell, side: Side, to: &mut Choices) {
        let smoke = self.arena().batteries().nth(battery.into()).is_some_and(|(_, b)| b.smoke);
        let enemy = side.other();
        let units = self.state.on_table().filter(|(_, unit)| unit.side == enemy);
        let markers = self.state.markers().iter().filter(|m| m.shows() && m.side == enemy);
        let features = (0u8..).zip(&self.arena().setup().sides[enemy].features);
        let suspected = features.filter(|(n, _)| !self.state.searched(enemy, *n));
        let aims = units.map(|(_, unit)| unit.at).chain(markers.map(|marker| marker.at));
        let aims = aims.chain(suspected.map(|(_, feature)| feature.at));
        for at in aims.filter(|&at| self.state.sees(self.arena(), from, at)) {
            // Two of the enemy may share a square: it is named once.
            to.add_once(Choice::Call { battery, at, smoke: false });
            if smoke {
                to.add_once(Choice::Call { battery, at, smoke: true });
            }
        }
    }

    /// Whether a unit may leave the table where it is (RULES 15.8).
    fn may_leave(&self, unit: &Unit) -> bool {
        let distance = self.table.rules.holding_distance() as u8;
        let objectives = self.arena().objectives();
        !unit.immobile
            && objectives.iter().any(|objective| {
                objective.leaving[unit.side] > 0 && objective.at.range(unit.at) <= distance
            })
    }

    /// A leader's orders (RULES 10.1).
    pub(crate) fn orders(&self, id: UnitId, orders: u8, to: &mut Choices) {
        let leader = &self.state.units[id as usize];
        if leader.place != Place::Table || orders == 0 || leader.suppressed(self.table.rules) {
            return;
        }
        to.add(Choice::Done);
        self.headings(self.state.mover(Mover::Unit(id)), to);
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
        self.calls(leader.at, leader.side, to);
    }
}
