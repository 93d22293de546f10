//! Off-table fire: calls, corrections, where the shells fall, smoke (RULES 14).

use crate::cell::Cell;
use crate::event::Event;
use crate::game::Game;
use crate::kinds::Kind;
use crate::limits::MAX_SCREENS;
use crate::luck::Purpose;
use crate::paths::STEPS;
use crate::state::{BatteryId, Call, GroupId, Marker, Place, Screen, State, UnitId, Who};

/// Inches within which a square counts as laid on before the game.
const LAID: u8 = 3;

impl Game<'_> {
    /// The observer or leader who acts calls a battery (RULES 14.2, 14.3).
    pub(crate) fn call_battery(&mut self, id: BatteryId, at: Cell, smoke: bool) {
        let Some(by) = self.caller() else { return };
        let Some((_, setup)) = self.table.arena.batteries().nth(id.into()) else { return };
        let registered = setup.registered.iter().any(|laid| laid.range(at) <= LAID);
        let wait = self.table.rules.response_turns(setup.response.min(6), registered) as u8;
        let adjusted = u8::from(registered);
        self.state.batteries[id as usize].call =
            Some(Call { at, by, wait, adjusted, smoke, fired: false });
        self.emit(Event::BatteryCalled { battery: id, by, at, smoke, wait });
    }

    /// The observer or leader who acts corrects a battery's fire (RULES 14.6).
    pub(crate) fn adjust_battery(&mut self, id: BatteryId) {
        let Some(by) = self.caller() else { return };
        if let Some(call) = &mut self.state.batteries[id as usize].call {
            call.adjusted = (call.adjusted + 1).min(6);
            let adjusted = call.adjusted;
            self.emit(Event::BatteryAdjusted { battery: id, by, adjusted });
        }
    }

    /// Who calls, be it from under a marker; an action or an order of his is spent.
    fn caller(&mut self) -> Option<UnitId> {
        let doing = &self.state.doing;
        if let Some(by) = doing.unit.or(doing.leader.map(|(leader, _)| leader)) {
            self.spend_action(by);
            return Some(by);
        }
        let marker = &mut self.state.markers[doing.marker? as usize];
        marker.spend();
        let marker = *marker;
        self.state.hidden_observer(&marker)
    }

    /// The card of a battery: it may fire if it has a call and is ready (RULES 14.4).
    pub(crate) fn begin_battery(&mut self, id: BatteryId) {
        let battery = &self.state.batteries[id as usize];
        if battery.missions > 0 && battery.call.is_some_and(|call| call.wait == 0) {
            self.state.doing.battery = Some(id);
        }
    }

    /// The battery whose card was drawn fires (RULES 14.5, 14.6).
    pub(crate) fn fire_battery(&mut self) {
        let Some(id) = self.state.doing.battery.take() else { return };
        let Some(call) = self.state.batteries[id as usize].call else { return };
        let mut luck = self.state.roll(Purpose::Scatter, Who::Battery(id), 3);
        let direction = luck.die();
        let rolled = luck.dice(2);
        let on_target = direction > 4;
        let astray = self.table.rules.scatter_inches(i32::from(rolled), call.adjusted) as u8;
        let inches = if on_target { 0 } else { astray };
        // Right, up, left, down.
        let way = 2 * (direction - 1);
        let (dx, dy) = STEPS[way as usize % STEPS.len()];
        let at = call.at.step(dx * i32::from(inches), dy * i32::from(inches));
        let battery = &mut self.state.batteries[id as usize];
        battery.missions -= 1;
        battery.call = Some(Call { fired: true, ..call });
        let (way, smoke) = ((!on_target).then_some(way), call.smoke);
        self.emit(Event::BatteryFired { battery: id, aim: call.at, way, inches, at, smoke });
        match at {
            Some(at) if smoke => self.lay_smoke(at),
            Some(at) => self.bombard(id, at),
            None => {}
        }
    }

    /// Everyone in the pattern is under the shells, whichever side he fights for.
    fn bombard(&mut self, id: BatteryId, at: Cell) {
        let radius = self.table.rules.blast_radius(Kind::Battery) as u8;
        for unit in 0..self.state.unit_count {
            let struck = &self.state.units[unit as usize];
            if struck.place == Place::Table && struck.at.range(at) <= radius {
                self.shell(id, unit);
            }
        }
        for marker in 0..self.state.marker_count {
            let Marker { on_table, at: place, group, .. } = self.state.markers[marker as usize];
            if let Some(group) = group.filter(|_| on_table && place.range(at) <= radius) {
                self.shell_hidden(id, group, place);
            }
        }
    }

    /// Troops under a marker are shelled in its square, unseen by the enemy (RULES 14.7).
    fn shell_hidden(&mut self, id: BatteryId, group: GroupId, place: Cell) {
        for unit in self.state.members(group) {
            let hidden = &mut self.state.units[unit as usize];
            if hidden.place == Place::Hidden {
                hidden.at = place;
                self.shell(id, unit);
            }
        }
    }

    /// A screen too many takes the place of the oldest.
    fn lay_smoke(&mut self, at: Cell) {
        let screen = Screen { at, turns: self.table.rules.smoke_turns() as u8 };
        self.state.screen_radius = self.table.rules.smoke_radius() as u8;
        let count = self.state.screen_count as usize;
        if count == MAX_SCREENS {
            self.state.screens.rotate_left(1);
            self.state.screens[count - 1] = screen;
        } else {
            self.state.screens[count] = screen;
            self.state.screen_count += 1;
        }
    }

    /// At turn end calls come nearer and smoke thins (RULES 14.4, 14.8).
    pub(crate) fn bring_batteries_nearer(&mut self) {
        for battery in &mut self.state.batteries {
            if let Some(call) = &mut battery.call {
                call.wait = call.wait.saturating_sub(1);
            }
        }
        let mut left = 0;
        for n in 0..self.state.screen_count as usize {
            let screen = self.state.screens[n];
            if screen.turns > 1 {
                self.state.screens[left] = Screen { turns: screen.turns - 1, ..screen };
                left += 1;
            }
        }
        self.state.screen_count = left as u8;
    }
}

impl State {
    /// The observer whom a marker hides.
    pub(crate) fn hidden_observer(&self, marker: &Marker) -> Option<UnitId> {
        let mut members = self.members(marker.group?);
        // Shells may have killed him under it.
        members.find(|&id| {
            let unit = &self.units[id as usize];
            unit.kind == Kind::Observer && unit.place == Place::Hidden
        })
    }
}
