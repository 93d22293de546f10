//! Fire and what it does.

use ruleshift_game::{Event, Side, State, UnitId};

use super::Story;
use super::words::{counted, men};

impl Story<'_> {
    pub(super) fn late_fire(&self, first: Side) -> String {
        format!("  Late fire, {first} first")
    }

    pub(super) fn fired(&self, event: &Event, state: &State) -> String {
        let Event::Fired { unit, target, dice, needed, hits, late, held, blast } = *event else {
            return String::new();
        };
        let how = match (blast, late, held) {
            (true, _, _) => "also strikes",
            (_, true, _) => "fires late at",
            (_, _, true) => "has held its fire and fires at",
            _ => "fires at",
        };
        let (unit, target, hits) =
            (self.unit(unit), self.units(target, state), counted(hits, "hit"));
        format!("      {unit} {how} {target}: {dice} dice, {needed} or more, {hits}")
    }

    pub(super) fn men_lost(&self, unit: UnitId, lost: u8, left: u8) -> String {
        format!("        {} loses {}, {left} left", self.unit(unit), men(lost))
    }

    pub(super) fn pins_added(&self, unit: UnitId, pins: u8, now: u8) -> String {
        format!("        {} takes {}: {now} now", self.unit(unit), counted(pins, "pin"))
    }

    pub(super) fn suppressed(&self, unit: UnitId) -> String {
        format!("        {} is suppressed", self.unit(unit))
    }

    pub(super) fn unit_lost(&self, unit: UnitId, state: &State) -> String {
        format!("        {} has no man left", self.units(unit, state))
    }

    pub(super) fn leader_tested(&self, unit: UnitId, rolled: u8, needed: u8) -> String {
        let fate = if rolled >= needed { "hit" } else { "unhurt" };
        format!("        {} in the fire: {rolled}, hit from {needed}, {fate}", self.unit(unit))
    }
}
