//! Units acting and leaders giving orders (RULES 5.1, 10).

use crate::event::Event;
use crate::game::Game;
use crate::happening::Happening;
use crate::kinds::Kind;
use crate::state::{Place, Unit, UnitId};

impl Game<'_> {
    pub(crate) fn grade(&self, leader: UnitId) -> i32 {
        i32::from(self.state.units[leader as usize].grade.clamp(1, 3))
    }

    /// A unit starts its activation (RULES 5.1, 4.9).
    pub(crate) fn begin_unit(&mut self, id: UnitId) {
        let rules = self.table.rules;
        let unit = &self.state.units[id as usize];
        let group = self.state.groups[unit.group as usize];
        let mut actions = rules.unit_actions(unit.kind, unit.quality, unit.strength(), unit.pins);
        if self.out_of_command(id) {
            actions = rules.actions_out_of_command(actions);
        }
        if group.placed_in == self.state.turn {
            actions -= rules.actions_carried(group.used.min(8));
        }
        let unit = &mut self.state.units[id as usize];
        unit.holds_fire = false;
        unit.actions = (actions.max(0) + i32::from(unit.granted)).max(0) as u8;
        unit.shots = rules.shots_allowed(unit.kind) as u8;
        (unit.granted, unit.picked, unit.activated, unit.moved) = (0, true, true, false);
        let (actions, leads) = (unit.actions, unit.kind == Kind::Leader);
        self.state.doing.unit = Some(id);
        self.emit(Event::UnitActivated { unit: id, actions });
        self.happen(Happening::UnitActivated { unit: id });
        if leads {
            self.begin_orders(id, rules.orders_with_group(self.grade(id)));
        }
    }

    /// Whether the leaders of its group who are on the table are all too far away (RULES 17.2).
    fn out_of_command(&self, id: UnitId) -> bool {
        let unit = &self.state.units[id as usize];
        let mut leaders = self
            .state
            .members(unit.group)
            .map(|member| &self.state.units[member as usize])
            .filter(|member| member.kind == Kind::Leader && member.place == Place::Table)
            .peekable();
        let radius = |leader: &Unit| self.table.rules.leader_radius(leader.grade);
        leaders.peek().is_some()
            && leaders.all(|leader| i32::from(leader.at.range(unit.at)) > radius(leader))
    }

    /// A leader may give orders, after anything he does himself.
    pub(crate) fn begin_orders(&mut self, id: UnitId, orders: i32) {
        if orders > 0 && self.state.units[id as usize].place == Place::Table {
            self.state.units[id as usize].activated = true;
            self.state.doing.leader = Some((id, orders as u8));
        }
    }

    /// The leader orders a unit to rally (RULES 10.1).
    pub(crate) fn order_rally(&mut self, id: UnitId) {
        if let Some((leader, orders)) = &mut self.state.doing.leader {
            *orders -= 1;
            let leader = *leader;
            self.take_pins_off(id, Some(leader));
        }
    }

    /// The leader orders a unit to take one more action (RULES 10.1).
    pub(crate) fn order_action(&mut self, id: UnitId) {
        let Some((leader, orders)) = &mut self.state.doing.leader else { return };
        *orders -= 1;
        let leader = *leader;
        let allowed = self.table.rules.shots_allowed(self.state.units[id as usize].kind).min(1);
        let unit = &mut self.state.units[id as usize];
        (unit.actions, unit.shots, unit.ordered, unit.activated) = (1, allowed as u8, true, true);
        self.state.doing.unit = Some(id);
        self.emit(Event::OrderGiven { leader, unit: id });
    }
}
