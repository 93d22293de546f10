//! Close assaults: how many, and who wins them.

use ruleshift_game::{Event, State, UnitId};
use ruleshift_record::Metric;

use super::Collector;

/// A close assault that nobody has won yet.
#[derive(Clone, Copy)]
pub(super) struct Assault {
    unit: UnitId,
    target: UnitId,
    /// Whether the last round leaves nobody of the unit that assaults, told after what it did.
    doomed: bool,
}

impl Collector<'_> {
    pub(super) fn assaults(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Charged { unit, target, reached, .. } => {
                self.add(Metric::Assaults, reached.into());
                self.assault = reached.then_some(Assault { unit, target, doomed: false });
            }
            Event::AssaultFought { unit, enemy_hits, .. } => {
                let doomed = enemy_hits >= state.units()[unit as usize].men;
                self.assault = self.assault.map(|assault| Assault { doomed, ..assault });
            }
            Event::UnitLost { unit }
            | Event::UnitBroke { unit, .. }
            | Event::Captured { unit, .. }
            | Event::FellBack { unit, .. } => self.decide(unit),
            _ => {}
        }
    }

    /// The first of the two that is gone, taken or thrown back has not won.
    fn decide(&mut self, unit: UnitId) {
        let Some(assault) = self.assault else { return };
        if unit == assault.target {
            self.add(Metric::AssaultsWon, (!assault.doomed).into());
        }
        if unit == assault.target || unit == assault.unit {
            self.assault = None;
        }
    }
}
