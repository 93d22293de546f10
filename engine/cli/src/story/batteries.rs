//! Fire from off the table.

use ruleshift_game::{BatteryId, Cell, Event, State, UnitId};

use super::Story;
use super::words::{counted, square, way};

impl Story<'_> {
    pub(super) fn battery_called(&self, event: &Event) -> String {
        let Event::BatteryCalled { battery, by, at, smoke, wait } = *event else {
            return String::new();
        };
        let what = if smoke { "smoke" } else { "fire" };
        let ready = match wait {
            0 => "ready now".to_owned(),
            _ => format!("ready after {}", counted(wait, "turn end")),
        };
        let (by, battery, at) = (self.unit(by), self.battery(battery), square(at));
        format!("      {by} calls {what} of {battery} on {at}: {ready}")
    }

    pub(super) fn adjusted(&self, battery: BatteryId, by: UnitId, adjusted: u8) -> String {
        let (by, battery) = (self.unit(by), self.battery(battery));
        format!("      {by} corrects the fire of {battery}: {}", counted(adjusted, "correction"))
    }

    pub(super) fn battery_fired(&self, event: &Event) -> String {
        let Event::BatteryFired { battery, aim, way, inches, at, smoke } = *event else {
            return String::new();
        };
        let what = if smoke { "fires smoke at" } else { "fires at" };
        let (battery, aim) = (self.battery(battery), square(aim));
        format!("    {battery} {what} {aim}: {}", fall(way, inches, at))
    }

    pub(super) fn shelled(&self, event: &Event, state: &State) -> String {
        let Event::Shelled { target, dice, needed, hits, .. } = *event else {
            return String::new();
        };
        let (target, hits) = (self.units(target, state), counted(hits, "hit"));
        format!("      Shells on {target}: {dice} dice, {needed} or more, {hits}")
    }
}

/// Where the shells fell.
fn fall(to: Option<u8>, inches: u8, at: Option<Cell>) -> String {
    match (to, at) {
        (None, _) => "on target".to_owned(),
        (Some(to), Some(at)) => format!("{inches} in {}, at {}", way(to), square(at)),
        (Some(to), None) => format!("{inches} in {}, off the table", way(to)),
    }
}
