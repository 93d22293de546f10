//! Even chances where they are due, and skill where it is due.

use ruleshift_game::{BySide, Ground, Kind, Outcome, Rules, Setup, Side};
use ruleshift_record::Metric;
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::shipped::seen;
use super::table::Row;
use crate::support::stage::{Stage, cell, fill, group, objective, plain, side};
use crate::support::stats::Sample;

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

/// The attacker's scores from one edge.
fn seats(swapped: bool) -> Vec<f64> {
    let stage = Stage::new(mirror(swapped), Rules::base());
    let score = |seed| score(&stage.doctrines(seed, ["steady", "steady"], &mut ()));
    (0..2_000).map(score).collect()
}

/// Row 7: like forces on like ground, seats swapped, win alike (Jaffe and others, AIIDE 2012, for
/// the idea; exact within 3 standard errors).
#[test]
fn mirrored_sides_win_alike() {
    let scores: Sample = [false, true].into_iter().flat_map(seats).collect();
    let errors = (scores.mean() - 0.5) / scores.error();
    assert!(errors.abs() < 3.0, "the attacker scores {:.4}, {errors:.1} errors off", scores.mean());
}

/// Share of games a side wins, with `players` at attacker and defender; draws are not won.
fn won(scenario: &str, players: [&str; 2], winner: Side, games: u64) -> f64 {
    let stage = Stage::shipped(scenario);
    let win = |seed| stage.doctrines(seed, players, &mut ()).winner == Some(winner);
    (0..games).filter(|&seed| win(seed)).count() as f64 / games as f64
}

/// Row 45: a player who weighs things beats chance (Zook, Harrison and Riedl 2019, S), here nine
/// times in ten at least, on both sides of every scenario. Of 400 games; the standard error is
/// below 1.5 points.
#[test]
fn steady_beats_chance_on_both_sides() {
    for (scenario, _) in SCENARIOS {
        let attacking = won(scenario, ["steady", "chance"], Side::Attacker, 400);
        let defending = won(scenario, ["chance", "steady"], Side::Defender, 400);
        assert!(attacking >= 0.9, "{scenario}: steady wins {attacking} attacking");
        assert!(defending >= 0.9, "{scenario}: steady wins {defending} defending");
    }
}

/// Shipped scenarios are fair: 40 to 60 % for the attacker, and the 95 % interval within 38 to 62
/// (a club's tolerance, P; the width is that of 3,000 games).
#[test]
fn shipped_scenarios_are_fair() {
    for ((scenario, _), games) in SCENARIOS.iter().zip(&seen().values) {
        let wins: Sample =
            games.iter().map(|values| values[Metric::AttackerWins as usize]).collect();
        let (share, half) = (wins.mean(), 1.96 * wins.error());
        assert!((0.40..=0.60).contains(&share), "{scenario}: the attacker wins {share:.3}");
        assert!(
            share - half >= 0.38 && share + half <= 0.62,
            "{scenario}: {share:.3} +- {half:.3}"
        );
    }
}

pub(super) fn rows() -> Vec<Row> {
    let row = |number, what, value, range, source| Row { number, what, value, range, source };
    let share = |n: usize| {
        let games = &seen().values[n];
        games.iter().map(|v| v[Metric::AttackerWins as usize]).collect::<Sample>().mean()
    };
    let chance = |players, winner| {
        let shares = SCENARIOS.iter().map(|(scenario, _)| won(scenario, players, winner, 200));
        shares.collect::<Sample>().mean()
    };
    let seat = |swapped| seats(swapped).into_iter().collect::<Sample>().mean();
    vec![
        row("7", "like sides, attacker from the left", seat(false), (0.46, 0.54), "C"),
        row("7", "like sides, attacker from the right", seat(true), (0.46, 0.54), "C"),
        row("7", "attacker wins hasty-attack", share(0), (0.4, 0.6), "P"),
        row("7", "attacker wins meeting-engagement", share(1), (0.4, 0.6), "P"),
        row(
            "46",
            "steady beats chance, attacking",
            chance(["steady", "chance"], Side::Attacker),
            (0.65, 0.9),
            "P",
        ),
        row(
            "46",
            "steady beats chance, defending",
            chance(["chance", "steady"], Side::Defender),
            (0.65, 0.9),
            "P",
        ),
        row(
            "46",
            "bold beats cautious, attacking",
            chance(["bold", "cautious"], Side::Attacker),
            (0.3, 0.9),
            "P",
        ),
    ]
}
