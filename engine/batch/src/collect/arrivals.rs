//! When things begin: first contact, reserves; and who leaves.

use ruleshift_game::{Event, State};
use ruleshift_record::Metric;

use super::sheet::{End, Sheet};

/// Contact, reserves and units led off.
///
/// - First contact: turn of the first shot, shell or close assault; 1 to turns played, plus one
///   without any.
/// - Reserves: mean turn at whose end they came; turns played plus one for each that did not, 0
///   without reserves.
/// - Units led off the table: a count from 0.
///
/// Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Arrivals {
    contact: Option<u16>,
    reserves: u32,
    /// Turns in which reserves came, summed.
    turns: u32,
    left: u32,
}

impl Arrivals {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Fired { .. }
            | Event::GunFired { .. }
            | Event::Shelled { .. }
            | Event::AssaultFought { .. } => {
                self.contact.get_or_insert(state.turn());
            }
            Event::ReserveTested { rolled, needed, .. } if rolled >= needed => self.reserve(state),
            Event::ReserveCalled { .. } => self.reserve(state),
            Event::UnitLeft { .. } => self.left += 1,
            _ => {}
        }
    }

    fn reserve(&mut self, state: &State) {
        self.reserves += 1;
        self.turns += u32::from(state.turn());
    }

    pub(super) fn report(&self, end: &End, state: &State, to: &mut Sheet) {
        to.count(Metric::FirstContact, self.contact.unwrap_or(end.turns + 1).into());
        let waiting = state.groups().iter().filter(|group| group.due > 0).count() as u32;
        let turns = self.turns + waiting * u32::from(end.turns + 1);
        to.ratio(Metric::ReservesArrived, turns, self.reserves + waiting);
        to.count(Metric::UnitsLeft, self.left);
    }
}
