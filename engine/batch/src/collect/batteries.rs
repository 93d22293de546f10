//! Fire from off the table.

use ruleshift_game::Event;
use ruleshift_record::Metric;

use super::sheet::Sheet;

/// What batteries fire: missions of shells, on the table or beside it, and smoke screens on the
/// table. Counts from 0; Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Batteries {
    missions: u32,
    screens: u32,
}

impl Batteries {
    pub(super) fn event(&mut self, event: &Event) {
        match *event {
            Event::BatteryFired { smoke: false, .. } => self.missions += 1,
            Event::BatteryFired { at: Some(_), .. } => self.screens += 1,
            _ => {}
        }
    }

    pub(super) fn report(&self, to: &mut Sheet) {
        to.count(Metric::Missions, self.missions);
        to.count(Metric::Screens, self.screens);
    }
}
