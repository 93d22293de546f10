//! Which events a side learns of when they happen.

use crate::event::Event;
use crate::kinds::Side;
use crate::state::{MarkerId, State, UnitId};

impl Event {
    /// Whether `side` learns of the event when it happens, in the state just after it: everything on
    /// the table shows, but what happens to troops that it has never seen, and what a battery of the
    /// enemy is told, does not.
    pub fn told(&self, side: Side, state: &State) -> bool {
        let seen = |unit: UnitId| state.seen(side, unit);
        match *self {
            Event::PinsAdded { unit, .. }
            | Event::MenLost { unit, .. }
            | Event::Suppressed { unit }
            | Event::UnitLost { unit }
            | Event::UnitBroke { unit, .. }
            | Event::LeaderTested { unit, .. }
            | Event::ScriptActed { unit, .. } => seen(unit),
            Event::BatteryCalled { battery, .. } | Event::BatteryAdjusted { battery, .. } => {
                state.batteries()[battery as usize].side == side
            }
            Event::MarkerMoved { marker, .. } => state.shown(side, marker),
            Event::SpotTried { by: Some(marker), .. }
            | Event::Searched { by: Some(marker), .. } => state.shown(side, marker),
            _ => true,
        }
    }
}

impl State {
    /// Whether a unit is of `side` or has shown itself to it.
    fn seen(&self, side: Side, unit: UnitId) -> bool {
        let unit = &self.units()[unit as usize];
        unit.side == side || self.groups()[unit.group as usize].placed_in > 0
    }

    /// Whether a marker is of `side` or hides in no feature.
    fn shown(&self, side: Side, marker: MarkerId) -> bool {
        let marker = &self.markers()[marker as usize];
        marker.side == side || marker.feature.is_none()
    }
}
