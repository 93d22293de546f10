//! What units and markers do: actions, shots.

use ruleshift_game::{Event, UnitId};
use ruleshift_record::Metric;

use super::Collector;

impl Collector<'_> {
    pub(super) fn acts(&mut self, event: &Event) {
        match *event {
            Event::UnitActivated { unit, .. } | Event::OrderGiven { unit, .. } => {
                self.acting = Some(unit);
            }
            Event::CardDrawn { .. } => self.acting = None,
            Event::LateFireBegan { .. } => (self.acting, self.late) = (None, true),
            Event::MarkerMoved { .. }
            | Event::UnitMoved { .. }
            | Event::SpotTried { .. }
            | Event::Searched { .. }
            | Event::UnitTurned { .. }
            | Event::BogTried { .. }
            | Event::Charged { .. }
            | Event::Dug { .. }
            | Event::Mounted { .. }
            | Event::BatteryCalled { .. }
            | Event::BatteryAdjusted { .. }
            | Event::BatteryFired { .. }
            | Event::Rallied { leader: None, .. } => self.add(Metric::Actions, 1),
            Event::Dismounted { unit, .. } | Event::UnitLeft { unit, .. } => self.own_act(unit),
            Event::Fired { late, blast: false, .. } => self.shot(late),
            Event::GunFired { .. } => self.shot(self.late),
            _ => {}
        }
    }

    /// An action only when the unit itself acts: one goes with its vehicle, or is thrown out of it,
    /// without doing anything.
    fn own_act(&mut self, unit: UnitId) {
        self.add(Metric::Actions, (self.acting == Some(unit)).into());
    }

    /// Fire that was held counts when it is fired, not when it is held.
    fn shot(&mut self, late: bool) {
        self.add(if late { Metric::LateShots } else { Metric::ShotsTaken }, 1);
        self.add(Metric::Actions, (!late).into());
    }
}
