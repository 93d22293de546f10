//! The will to fight: breaking, rallying, recovery, tests (RULES 9).

use crate::event::{BreakCause, Event};
use crate::game::Game;
use crate::kinds::{BySide, Kind, Quality, Side};
use crate::luck::Purpose;
use crate::state::{GroupId, Place, Unit, UnitId, Who};

impl Game<'_> {
    /// A unit breaks and leaves the table (RULES 9.4).
    pub(crate) fn break_unit(&mut self, id: UnitId, cause: BreakCause) {
        let unit = &mut self.state.units[id as usize];
        unit.place = Place::Fled;
        let (men, group) = (unit.men, unit.group);
        self.state.groups[group as usize].lost_men = true;
        self.emit(Event::UnitBroke { unit: id, men, cause });
        if cause != BreakCause::KnockedOut {
            self.empty_wreck(id, 0);
        }
        self.note_group_gone(group);
    }

    /// A group whose last unit is gone gives points to the enemy (RULES 11.4).
    pub(crate) fn note_group_gone(&mut self, id: GroupId) {
        let group = self.state.groups[id as usize];
        let stays = |u: UnitId| {
            let unit = &self.state.units[u as usize];
            unit.here() || matches!(unit.place, Place::Hidden | Place::Left)
        };
        if group.gone || self.state.members(id).any(stays) {
            return;
        }
        self.state.groups[id as usize].gone = true;
        let points = self.table.rules.group_broken_points(group.units.clamp(1, 24));
        self.state.points[group.side.other()] += points as i16;
        self.emit(Event::GroupGone { group: id, points: points as u8 });
    }

    /// The unit that acts takes pins off itself (RULES 9.7).
    pub(crate) fn rally_itself(&mut self) {
        if let Some(id) = self.state.doing.unit {
            self.spend_action(id);
            self.take_pins_off(id, None);
        }
    }

    /// Takes pins off a unit, on its own or by a leader's order.
    pub(crate) fn take_pins_off(&mut self, id: UnitId, leader: Option<UnitId>) {
        let grade = leader.map_or(0, |leader| self.grade(leader));
        let unit = &mut self.state.units[id as usize];
        let pins = self.table.rules.rally_amount(grade, unit.quality).min(unit.pins.into()) as u8;
        unit.pins -= pins;
        self.emit(Event::Rallied { unit: id, leader, pins });
    }

    /// Whether a leader of its side who can act is near a unit (RULES 10.3).
    pub(crate) fn led(&self, unit: &Unit) -> bool {
        let rules = self.table.rules;
        self.state.on_table().any(|(_, leader)| {
            leader.kind == Kind::Leader
                && leader.side == unit.side
                && i32::from(leader.at.range(unit.at)) <= rules.leader_radius(leader.grade)
                && !leader.suppressed(rules)
        })
    }

    /// Every unit on the table may lose pins (RULES 9.5, 9.6).
    pub(crate) fn recover(&mut self) {
        let rules = self.table.rules;
        // Leaders help as they were before anyone recovered.
        let mut led = 0u128;
        for (id, unit) in self.state.on_table().filter(|(_, unit)| unit.pins > 0) {
            led |= u128::from(self.led(unit)) << id;
        }
        for id in 0..self.state.unit_count {
            let unit = self.state.units[id as usize];
            let led = led >> id & 1 != 0;
            if unit.place != Place::Table || unit.pins == 0 {
                continue;
            }
            if unit.under_fire && !rules.recovery_under_fire(unit.quality, led) {
                continue;
            }
            let cover = self.state.cover(self.table.arena, &unit);
            let pins = rules
                .pins_recovered(unit.pins, unit.quality, cover, led)
                .min(unit.pins.into()) as u8;
            if pins > 0 {
                self.state.units[id as usize].pins -= pins;
                self.emit(Event::Recovered { unit: id, pins });
            }
        }
    }

    /// Battered groups that lost men this turn are tested (RULES 9.8, 9.9).
    pub(crate) fn test_groups(&mut self) {
        for id in 0..self.state.group_count {
            let group = self.state.groups[id as usize];
            let lost = self.group_losses(id);
            let on_table = |u: UnitId| self.state.units[u as usize].place == Place::Table;
            let left = self.state.members(id).any(on_table);
            if group.lost_men && left && self.table.rules.group_battered(lost) {
                self.test_group(id, lost);
            }
        }
    }

    /// Men lost or fled of a group, in percent of its first strength.
    fn group_losses(&self, id: GroupId) -> i32 {
        let here = |unit: &Unit| unit.here() || matches!(unit.place, Place::Hidden | Place::Left);
        let units = self.state.members(id).map(|u| &self.state.units[u as usize]);
        let left: i32 = units.filter(|unit| here(unit)).map(|unit| i32::from(unit.men)).sum();
        100 - left * 100 / i32::from(self.state.groups[id as usize].first_men)
    }

    fn test_group(&mut self, id: GroupId, lost: i32) {
        let on_table = |&u: &UnitId| self.state.units[u as usize].place == Place::Table;
        let members = || self.state.members(id).filter(on_table);
        let led = members().any(|u| self.state.units[u as usize].kind == Kind::Leader);
        let quality =
            members().map(|u| self.state.units[u as usize].quality).max().unwrap_or(Quality::Green);
        let needed = self.table.rules.group_test_number(lost, quality, led) as u8;
        let rolled = self.state.roll(Purpose::GroupTest, Who::Group(id), 2).dice(2) as u8;
        self.emit(Event::GroupTested { group: id, rolled, needed });
        if rolled >= needed {
            return;
        }
        let weakest =
            self.state.members(id).filter(|&u| self.state.units[u as usize].place == Place::Table);
        // The most pinned breaks; of equals the first.
        if let Some(unit) =
            weakest.min_by_key(|&u| std::cmp::Reverse(self.state.units[u as usize].pins))
        {
            self.break_unit(unit, BreakCause::GroupTest);
        }
    }

    /// Sides past their break point are tested (RULES 9.10, 9.11): who has broken.
    pub(crate) fn test_sides(&mut self) -> BySide<bool> {
        let mut broken = BySide([false; 2]);
        for &side in Side::ALL {
            let (lost, first) = self.state.losses(side);
            let lost = (lost * 100 / first.max(1)) as i32;
            let point = self
                .table
                .rules
                .break_point(side, self.table.arena.setup().sides[side].break_point);
            if lost < point {
                continue;
            }
            let needed = self.table.rules.side_test_number(lost - point) as u8;
            let rolled = self.state.roll(Purpose::SideTest, Who::Side(side), 2).dice(2) as u8;
            self.emit(Event::SideTested { side, rolled, needed });
            broken[side] = rolled < needed;
        }
        broken
    }
}
