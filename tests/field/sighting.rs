//! Spotting: who moves is seen, who lies in cover is not.

use ruleshift_game::{Cover, Event, Rules, State};

use super::shipped::seen;
use super::surely_above;
use super::table::{Row, row};
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Tries to spot, by band of the range, whether the marker had moved, and its cover.
#[derive(Default)]
pub(super) struct Sighting {
    tries: [[[Sample; 4]; 2]; 4],
    /// Cover of every square of the scenario being played.
    cover: Vec<Cover>,
    rules: Rules,
}

impl Sighting {
    /// For games of this stage.
    pub(super) fn new(stage: &Stage) -> Sighting {
        let cover = ruleshift_game::Cell::all().map(|cell| stage.arena.cover(cell)).collect();
        Sighting { cover, ..Sighting::default() }
    }

    pub(super) fn see(&mut self, event: &Event, state: &State) {
        let Event::SpotTried { unit, by, marker, rolled, needed } = *event else { return };
        let from = match (unit, by) {
            (Some(unit), _) => state.units()[unit as usize].at,
            (None, Some(by)) => state.markers()[by as usize].at,
            (None, None) => return,
        };
        let seen = &state.markers()[marker as usize];
        let band = self.rules.spot_band(from.range(seen.at)) as usize;
        let cover = self.cover[seen.at.index()] as usize;
        let found = f64::from(u8::from(rolled >= needed));
        self.tries[band][usize::from(seen.moved)][cover].add(found);
    }
}

/// Tries of all scenarios at one band, by movement and cover.
fn of(band: usize, moved: bool, cover: Cover) -> Sample {
    let mut all = Sample::default();
    for seen in seen() {
        all.merge(&seen.sighting.tries[band][usize::from(moved)][cover as usize]);
    }
    all
}

/// Row 37: a marker that moves is spotted more easily (RAND R-614, S for sign and ratio).
#[test]
fn movement_is_seen() {
    for band in [1, 2] {
        let of = |moved| of(band, moved, Cover::None);
        surely_above(&format!("moved over still, band {band}"), &of(true), &of(false));
    }
}

/// Row 38: in a wood or in walls a marker is harder to spot than in the open (Jungle Vision VIII,
/// S for the sign).
#[test]
fn cover_hides() {
    for moved in [false, true] {
        let of = |cover| of(2, moved, cover);
        surely_above("open over light cover", &of(Cover::None), &of(Cover::Light));
    }
    let of = |cover| of(2, false, cover);
    surely_above("open over hard cover", &of(Cover::None), &of(Cover::Hard));
}

pub(super) fn rows() -> Vec<Row> {
    let moved = |band| of(band, true, Cover::None).mean() / of(band, false, Cover::None).mean();
    let hidden = |cover| of(2, false, cover).mean() / of(2, false, Cover::None).mean();
    let jungle = "Jungle Vision VIII, S sign";
    vec![
        row(37, "spotted, moved / still, 9 to 16 in", moved(1), (2.0, 8.0), "RAND R-614, S"),
        row(37, "spotted, moved / still, 17 to 32 in", moved(2), (2.0, 8.0), "RAND R-614, S"),
        row(
            38,
            "spotted at 17 to 32 in, light cover / open",
            hidden(Cover::Light),
            (0.0, 0.99),
            jungle,
        ),
        row(
            38,
            "spotted at 17 to 32 in, hard cover / open",
            hidden(Cover::Hard),
            (0.0, 0.99),
            jungle,
        ),
    ]
}
