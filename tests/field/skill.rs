//! Skill where it is due: doctrines against chance and against each other.

use std::sync::OnceLock;
use std::thread;

use ruleshift_game::Side;
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::SURE;
use super::shipped::DOCTRINES;
use super::table::{Row, row};
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Games of each scenario against chance, and between two doctrines.
const AGAINST_CHANCE: u64 = 150;
const AGAINST_EACH_OTHER: u64 = 80;

/// Wins of one side, with `players` at attacker and defender; draws are not won.
fn won(scenario: &str, players: [&str; 2], winner: Side, games: u64) -> Sample {
    let stage = Stage::shipped(scenario);
    let win = |seed| stage.doctrines(seed, players, &mut ()).winner == Some(winner);
    (0..games).map(|seed| f64::from(u8::from(win(seed)))).collect()
}

/// Steady against chance by scenario: attacking, defending.
fn against_chance() -> &'static [[Sample; 2]] {
    static WON: OnceLock<Vec<[Sample; 2]>> = OnceLock::new();
    WON.get_or_init(|| {
        let both = |scenario| {
            [
                won(scenario, ["steady", "chance"], Side::Attacker, AGAINST_CHANCE),
                won(scenario, ["chance", "steady"], Side::Defender, AGAINST_CHANCE),
            ]
        };
        thread::scope(|scope| {
            let start = |&(scenario, _)| scope.spawn(move || both(scenario));
            let running: Vec<_> = SCENARIOS.iter().map(start).collect();
            running.into_iter().map(|game| game.join().expect("games end")).collect()
        })
    })
}

/// Row 45: a player who weighs things beats chance (Zook, Harrison and Riedl 2019, S), on both sides
/// of every scenario by 3 standard errors.
#[test]
fn steady_beats_chance_on_both_sides() {
    for ((scenario, _), won) in SCENARIOS.iter().zip(against_chance()) {
        for (won, what) in won.iter().zip(["attacking", "defending"]) {
            let errors = (won.mean() - 0.5) / won.error();
            assert!(errors > SURE, "{scenario}: steady wins {:.3} {what}", won.mean());
        }
    }
}

/// How the first doctrine scores against the second, from both sides of all scenarios.
fn score(first: &str, second: &str) -> f64 {
    let games = SCENARIOS.iter().flat_map(|(scenario, _)| {
        let attacking = won(scenario, [first, second], Side::Attacker, AGAINST_EACH_OTHER);
        let defending = won(scenario, [second, first], Side::Defender, AGAINST_EACH_OTHER);
        [attacking.mean(), defending.mean()]
    });
    games.collect::<Sample>().mean()
}

pub(super) fn rows() -> Vec<Row> {
    let chance = |n: usize| against_chance().iter().map(|won| won[n].mean()).collect::<Sample>();
    let zook = "Zook and others 2019, S sign";
    let mut rows = vec![
        row(45, "steady beats chance, attacking", chance(0).mean(), (0.6, 1.0), zook),
        row(45, "steady beats chance, defending", chance(1).mean(), (0.6, 1.0), zook),
    ];
    let lowest = |n: usize| {
        let named =
            SCENARIOS.iter().zip(against_chance()).map(|((name, _), w)| (w[n].mean(), name));
        named.min_by(|one, other| one.0.total_cmp(&other.0)).expect("there are scenarios")
    };
    for (n, what) in ["attacking", "defending"].into_iter().enumerate() {
        let (share, scenario) = lowest(n);
        rows.push(row(
            45,
            format!("the same, lowest, {what}: {scenario}"),
            share,
            (0.6, 1.0),
            zook,
        ));
    }
    let [steady, cautious, bold] = DOCTRINES.map(|(name, _)| name);
    let pairs = [(steady, cautious), (steady, bold), (bold, cautious)];
    let scores = pairs.map(|(first, second)| (score(first, second), first, second));
    // Who wins less than half has lost: turn the pair round, so that the stronger comes first.
    let better =
        scores.map(
            |(score, first, second)| {
                if score < 0.5 { (1.0 - score, second, first) } else { (score, first, second) }
            },
        );
    for (score, first, second) in better {
        rows.push(row(46, format!("{first} beats {second}, both sides"), score, (0.5, 0.9), "P"));
    }
    let widest = better.iter().map(|(score, ..)| *score).fold(0.0, f64::max);
    rows.push(row(46, "widest gap between two doctrines", widest, (0.65, 0.9), "P"));
    rows
}
