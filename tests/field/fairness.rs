//! Even chances where they are due.

use std::sync::OnceLock;

use ruleshift_game::{BySide, Ground, Kind, Outcome, Rules, Setup, Side};

use super::table::{Row, exact, row};
use crate::support::stage::{Stage, cell, fill, group, objective, plain, side};
use crate::support::stats::Sample;

/// Games from each edge.
const GAMES: u64 = 1_500;

/// A field that looks the same from both short edges, with like forces.
fn mirror(swapped: bool) -> Setup {
    let mut setup = plain(10);
    for (x, y) in [(18, 8), (22, 30), (30, 16)] {
        for x in [x, 71 - x - 5] {
            fill(&mut setup, Ground::Scrub, (x, y), (x + 5, y + 5));
        }
    }
    fill(&mut setup, Ground::Building, (35, 23), (36, 24));
    let force = || {
        let section = |leader: bool| {
            let mut units = if leader { vec![(Kind::Leader, 2)] } else { vec![] };
            units.extend([(Kind::Section, 9); 3]);
            group(&units)
        };
        vec![section(true), section(true), group(&[(Kind::TripodGun, 4)])]
    };
    let spots = |x: i32| [(x, 10), (x, 20), (x, 28), (x, 38)];
    let mut sides = [side(&spots(14), force()), side(&spots(57), force())];
    for side in &mut sides {
        (side.dummies, side.break_point) = (1, 40);
    }
    if swapped {
        sides.swap(0, 1);
    }
    setup.sides = BySide(sides);
    setup.objectives = vec![objective(cell(35, 16), 3), objective(cell(36, 31), 3)];
    setup
}

/// The attacker's wins, a draw for half.
fn score(outcome: &Outcome) -> f64 {
    match outcome.winner {
        Some(Side::Attacker) => 1.0,
        Some(Side::Defender) => 0.0,
        None => 0.5,
    }
}

/// The attacker's scores from either edge.
fn seats() -> &'static [Sample; 2] {
    static SEATS: OnceLock<[Sample; 2]> = OnceLock::new();
    SEATS.get_or_init(|| {
        [false, true].map(|swapped| {
            let stage = Stage::new(mirror(swapped), Rules::base());
            let score = |seed| score(&stage.doctrines(seed, ["steady", "steady"], &mut ()));
            // Seeds of their own: the same luck would tie the two together.
            let first = if swapped { GAMES } else { 0 };
            (first..first + GAMES).map(score).collect()
        })
    })
}

/// Both together.
fn both() -> Sample {
    let [mut left, right] = *seats();
    left.merge(&right);
    left
}

/// Row 7: like forces on like ground, seats swapped, win alike (Jaffe and others, AIIDE 2012, for
/// the idea; exact within 3 standard errors).
#[test]
fn mirrored_sides_win_alike() {
    let scores = both();
    let errors = (scores.mean() - 0.5) / scores.error();
    assert!(errors.abs() < 3.0, "the attacker scores {:.4}, {errors:.1} errors off", scores.mean());
}

pub(super) fn rows() -> Vec<Row> {
    let [left, right] = seats();
    vec![
        exact(7, "like sides, attacker from either edge", &both(), 0.5),
        row(7, "like sides, attacker from the left", left.mean(), (0.45, 0.55), "C"),
        row(7, "like sides, attacker from the right", right.mean(), (0.45, 0.55), "C"),
    ]
}
