//! Close assaults: how many, and who wins them.

use ruleshift_game::{Event, State, UnitId};
use ruleshift_record::Metric;

use super::sheet::Sheet;

/// A close assault that nobody has won yet.
#[derive(Clone, Copy)]
struct Open {
    unit: UnitId,
    target: UnitId,
    /// Whether the last round leaves nobody of the unit that assaults, told after what it did.
    doomed: bool,
}

/// Close assaults.
///
/// - Assaults: rushes that came to grips; a count from 0.
/// - Won: those after which the enemy is gone, taken or thrown back and the unit that rushed stands,
///   over all; a share, 0 to 1, and 0 without any.
///
/// Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Assaults {
    open: Option<Open>,
    fought: u32,
    won: u32,
}

impl Assaults {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Charged { unit, target, reached, .. } => {
                self.fought += u32::from(reached);
                self.open = reached.then_some(Open { unit, target, doomed: false });
            }
            Event::AssaultFought { unit, enemy_hits, .. } => {
                let doomed = enemy_hits >= state.units()[unit as usize].men;
                self.open = self.open.map(|open| Open { doomed, ..open });
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
        let Some(open) = self.open else { return };
        if unit == open.target {
            self.won += u32::from(!open.doomed);
        }
        if unit == open.target || unit == open.unit {
            self.open = None;
        }
    }

    pub(super) fn report(&self, to: &mut Sheet) {
        to.count(Metric::Assaults, self.fought);
        to.ratio(Metric::AssaultsWon, self.won, self.fought);
    }
}
