//! Units that act: moving, turning, riding, digging, waiting, leaving.

use ruleshift_game::{Cell, Event, Kind, State, UnitId};

use super::Story;
use super::words::{counted, square, way};

impl Story<'_> {
    pub(super) fn activated(&self, unit: UnitId, actions: u8, state: &State) -> String {
        format!("    {} acts: {}", self.units(unit, state), counted(actions, "action"))
    }

    pub(super) fn order_given(&self, leader: UnitId, unit: UnitId) -> String {
        format!("      {} orders {} to act", self.unit(leader), self.unit(unit))
    }

    pub(super) fn unit_moved(&self, event: &Event) -> String {
        let Event::UnitMoved { unit, heading, inches, to } = *event else { return String::new() };
        let (unit, way, to) = (self.unit(unit), self.heading(heading), square(to));
        format!("      {unit} moves up to {inches} in {way}, to {to}")
    }

    pub(super) fn turned(&self, unit: UnitId, to: u8) -> String {
        format!("      {} turns to face {}", self.unit(unit), way(to))
    }

    pub(super) fn mounted(&self, unit: UnitId, carrier: UnitId, state: &State) -> String {
        let how = if is_gun(unit, state) { "is hooked to" } else { "gets into" };
        format!("      {} {how} {}", self.unit(unit), self.unit(carrier))
    }

    pub(super) fn dismounted(&self, unit: UnitId, at: Cell, state: &State) -> String {
        let how = if is_gun(unit, state) { "is unhooked" } else { "gets out" };
        format!("      {} {how} at {}", self.unit(unit), square(at))
    }

    pub(super) fn dug(&self, unit: UnitId, done: bool) -> String {
        let how = if done { "is dug in" } else { "digs" };
        format!("      {} {how}", self.unit(unit))
    }

    pub(super) fn fire_held(&self, unit: UnitId) -> String {
        format!("      {} holds its fire", self.unit(unit))
    }

    pub(super) fn unit_left(&self, unit: UnitId, points: u8, state: &State) -> String {
        let (unit, points) = (self.units(unit, state), counted(points, "point"));
        format!("      {unit} leaves the table: {points} to its side")
    }
}

fn is_gun(unit: UnitId, state: &State) -> bool {
    state.units()[unit as usize].kind == Kind::AntiTankGun
}
