//! Digging in, leaving the table, holding fire (RULES 15.8, 16.1, 17.1).

use crate::event::Event;
use crate::game::Game;
use crate::stage::Reaction;
use crate::state::{Place, UnitId};

impl Game<'_> {
    /// The unit that acts digs (RULES 16.1).
    pub(crate) fn dig(&mut self) {
        let Some(id) = self.state.doing.unit else { return };
        self.spend_action(id);
        let unit = &mut self.state.units[id as usize];
        unit.dug = unit.dug.saturating_add(1);
        let done = i32::from(unit.dug) >= self.table.rules.dig_actions(unit.quality);
        unit.dug_in = done;
        self.emit(Event::Dug { unit: id, done });
    }

    /// The unit that acts leaves the table, and whoever it carries with it (RULES 15.8).
    pub(crate) fn leave_table(&mut self) {
        let Some(id) = self.state.doing.unit else { return };
        let side = self.state.units[id as usize].side;
        let distance = self.table.rules.holding_distance() as u8;
        let at = self.state.units[id as usize].at;
        let near = self.table.arena.objectives().iter().filter(|o| o.at.range(at) <= distance);
        let listed = near.map(|objective| objective.leaving[side]).max().unwrap_or(0).min(20);
        let points = self.table.rules.leaving_points(side, listed) as u8;
        for other in 0..self.state.unit_count {
            let unit = &mut self.state.units[other as usize];
            let aboard = unit.place == Place::Carried && unit.carrier == Some(id);
            if other == id || aboard {
                unit.place = Place::Left;
                let group = unit.group;
                self.state.points[side] += i16::from(points);
                self.emit(Event::UnitLeft { unit: other, points });
                self.note_group_gone(group);
            }
        }
    }

    /// The unit that acts holds its fire, which ends its activation (RULES 17.1).
    pub(crate) fn hold_fire(&mut self) {
        let Some(id) = self.state.doing.unit else { return };
        let unit = &mut self.state.units[id as usize];
        (unit.holds_fire, unit.actions) = (true, 0);
        self.emit(Event::FireHeld { unit: id });
    }

    /// A unit has moved: enemies that hold their fire may use it now.
    pub(crate) fn let_react(&mut self, target: UnitId) {
        let side = self.state.units[target as usize].side;
        if self.state.on_table().any(|(_, unit)| unit.side != side && unit.holds_fire) {
            self.state.doing.reaction = Some(Reaction { target, unit: 0 });
        }
    }

    /// Asks the next unit that holds its fire.
    pub(crate) fn next_reaction(&mut self) {
        if let Some(reaction) = &mut self.state.doing.reaction {
            reaction.unit += 1;
            if reaction.unit >= self.state.unit_count {
                self.state.doing.reaction = None;
            }
        }
    }
}
