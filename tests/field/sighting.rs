//! Spotting: who moves is seen, who lies in cover is not.

use ruleshift_game::{Cover, Event, Rules, State};

use super::shipped::seen;
use super::surely_above;
use super::table::Row;
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Tries to spot, by band of the range, whether the marker had moved, and its cover.
#[derive(Default)]
pub(super) struct Sighting {
    tries: [[[Sample; 3]; 2]; 4],
    /// Cover of every square of the scenario being played.
    cover: Vec<Cover>,
    rules: Rules,
}

impl Sighting {
    /// From now on games are of this stage.
    pub(super) fn on(&mut self, stage: &Stage) {
        self.cover = ruleshift_game::Cell::all().map(|cell| stage.arena.cover(cell)).collect();
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

    fn of(&self, band: usize, moved: bool, cover: Cover) -> &Sample {
        &self.tries[band][usize::from(moved)][cover as usize]
    }
}

/// Row 37: a marker that moves is spotted more easily (RAND R-614, S for sign and ratio).
#[test]
fn movement_is_seen() {
    let sighting = &seen().sighting;
    for band in [1, 2] {
        let of = |moved| sighting.of(band, moved, Cover::None);
        surely_above(&format!("moved over still, band {band}"), of(true), of(false));
    }
}

/// Row 38: in a wood or in walls a marker is harder to spot than in the open (Jungle Vision VIII,
/// S for the sign).
#[test]
fn cover_hides() {
    let sighting = &seen().sighting;
    for moved in [false, true] {
        let of = |cover| sighting.of(2, moved, cover);
        surely_above("open over light cover", of(Cover::None), of(Cover::Light));
    }
    let of = |cover| sighting.of(2, false, cover);
    surely_above("open over hard cover", of(Cover::None), of(Cover::Hard));
}

pub(super) fn rows() -> Vec<Row> {
    let ratio = |band| {
        let of = |moved| seen().sighting.of(band, moved, Cover::None).mean();
        of(true) / of(false)
    };
    let row =
        |what, value| Row { number: "37", what, value, range: (2.0, 8.0), source: "RAND R-614, S" };
    vec![
        row("spotted, moved / still, 9 to 16 in", ratio(1)),
        row("spotted, moved / still, 17 to 32 in", ratio(2)),
    ]
}
