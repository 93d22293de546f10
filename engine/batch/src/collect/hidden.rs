//! What is hidden, and how it is found out.

use ruleshift_game::{Event, MarkerId, RevealCause, State};
use ruleshift_record::Metric;

use super::sheet::Sheet;

/// Markers and features.
///
/// - Revealed by spotting, contact, own fire: over all markers revealed; shares, 0 to 1, which add up
///   to 1, or to 0 when none was.
/// - Ambushes: markers that opened fire out of the feature that hid them; a count from 0.
/// - Features searched: searches after which it is known what a feature hides; a count from 0.
///
/// Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Hidden {
    revealed: [u32; 4],
    /// Markers still hidden in a feature, one bit each.
    in_features: u64,
    ambushes: u32,
    searched: u32,
}

impl Hidden {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::TurnStarted { turn: 1, .. } => self.note(state),
            Event::MarkerMoved { marker, .. } => self.moved(marker, state),
            Event::MarkerRevealed { marker, cause, .. } => {
                self.revealed[cause as usize] += 1;
                let hidden = self.in_features >> marker & 1 != 0;
                self.ambushes += u32::from(hidden && cause == RevealCause::OpenedFire);
            }
            Event::Searched { rolled, needed, .. } => self.searched += u32::from(rolled >= needed),
            _ => {}
        }
    }

    /// Once revealed, a marker does not say any more where it hid.
    fn note(&mut self, state: &State) {
        for (id, marker) in state.markers().iter().enumerate() {
            self.in_features |= u64::from(marker.feature.is_some()) << id;
        }
    }

    /// A marker that has rolled too little to leave its feature is still hidden there.
    fn moved(&mut self, marker: MarkerId, state: &State) {
        if state.markers()[marker as usize].feature.is_none() {
            self.in_features &= !(1 << marker);
        }
    }

    pub(super) fn report(&self, to: &mut Sheet) {
        let all = self.revealed.iter().sum();
        let of = |cause| self.revealed[cause as usize];
        let spotted = of(RevealCause::Spotted) + of(RevealCause::PlainSight);
        to.ratio(Metric::RevealedBySpotting, spotted, all);
        to.ratio(Metric::RevealedByContact, of(RevealCause::Contact), all);
        to.ratio(Metric::RevealedByFire, of(RevealCause::OpenedFire), all);
        to.count(Metric::Ambushes, self.ambushes);
        to.count(Metric::FeaturesSearched, self.searched);
    }
}
