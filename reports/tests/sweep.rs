//! What the report of a sweep looks like, and what no data may do to it.

use crate::made::{self, BASE, Luck, Made};
use proptest::prelude::*;
use ruleshift_record::{
    ArmFault, Metric, RunRecord, SweepPlan, SweepReading, SweepShape, SweepSummary, SweepTarget,
    Verdict,
};
use ruleshift_reports::{build_sweep, html, json, markdown, sweep, terminal};

const NAMES: [&str; 6] = [
    "end-cards:cards=1",
    "end-cards:cards=2",
    "end-cards:cards=3",
    "end-cards:cards=4",
    "end-cards:cards=5",
    "end-cards:cards=6",
];
const TITLES: [&str; 6] =
    ["End cards 1", "End cards 2", "End cards 3", "End cards 4", "End cards 5", "End cards 6"];

fn plan(values: &[i64]) -> SweepPlan {
    SweepPlan {
        option: "end-cards:cards".into(),
        values: values.to_vec(),
        second: None,
        metrics: vec!["dice".into()],
        targets: vec![],
    }
}

/// A made run whose arms, from the second on, win at those rates and last ever longer.
fn made(rates: &[f64], games: u32) -> RunRecord {
    let arm = |n: usize| Made {
        name: NAMES[n],
        title: TITLES[n],
        summary: "More cards end a turn.",
        margin: 0.3 * n as f64,
        turns: 0.4 * n as f64 - 0.4,
        stir: 0.3,
    };
    let mut arms = vec![BASE];
    arms.extend((0..rates.len()).map(arm));
    let mut run = made::run(&arms, games);
    for game in &mut run.games {
        let rate = if game.arm == 0 { 0.45 } else { rates[game.arm - 1] };
        let mut own = Luck(game.seed * 97 + game.arm as u64);
        let common = Luck(game.seed ^ 0x77).unit();
        let throw = if own.unit() < 0.7 { common } else { own.unit() };
        game.values[Metric::AttackerWins as usize] = f64::from(u8::from(throw < rate));
    }
    run
}

fn rising(games: u32) -> SweepSummary {
    sweep(&plan(&[1, 2, 3, 4, 5]), &made(&[0.36, 0.43, 0.5, 0.57, 0.64], games))
}

fn curve<'a>(summary: &'a SweepSummary, metric: Metric) -> &'a ruleshift_record::SweepCurve {
    summary.curves.iter().find(|c| c.metric == metric.spec().name).unwrap()
}

#[test]
fn the_terminal_shows_one_screen() {
    let text = terminal(&build_sweep(&rising(1500)), 100, false);
    println!("SNAP1\n{text}\nEND");
}

#[test]
fn markdown_has_every_table() {
    let text = markdown(&build_sweep(&rising(600)));
    let front = text.split("## Games worth a look").next().unwrap_or_default();
    let trends = text.split("## Trends").nth(1).unwrap_or_default();
    let trends = trends.split("margin (points)\n").next().unwrap_or_default();
    println!("SNAP2\n{front}\nEND\nSNAP6\n{trends}\nEND");
}

#[test]
fn a_grid_shows_one_screen() {
    let text = terminal(&build_sweep(&grid(900)), 100, false);
    println!("SNAP3\n{}\nEND", text);
}

/// Two options with two and three values.
fn grid(games: u32) -> SweepSummary {
    let second = Some(("late-fire:range".to_owned(), vec![5, 10, 20]));
    let plan = SweepPlan { second, ..plan(&[1, 2]) };
    sweep(&plan, &made(&[0.30, 0.34, 0.38, 0.42, 0.52, 0.62], games))
}

#[test]
fn a_planted_curve_is_found() {
    let summary = rising(1200);
    let wins = curve(&summary, Metric::AttackerWins);
    assert_eq!((wins.shape, wins.trend.verdict), (SweepShape::Rises, Verdict::ClearShift));
    let crossing = &wins.crossings[0];
    assert_eq!((crossing.by, crossing.target), (SweepReading::Fit, 0.5));
    let [possible] = crossing.possible[..] else { panic!("{crossing:?}") };
    assert!(possible.low < 3.0 && 3.0 < possible.high && possible.high - possible.low < 1.0);
    assert!((crossing.at[0] - 3.0).abs() < 0.5);
    assert_eq!(curve(&summary, Metric::Turns).shape, SweepShape::Rises);
    assert_eq!(curve(&summary, Metric::IdleUnits).shape, SweepShape::Falls);
    assert!(summary.curves.iter().any(|c| c.metric == "dice"), "asked for");
    // The same in every arm but for the last digit of a sum.
    let wait = curve(&summary, Metric::LongestWait);
    assert_eq!((wait.trend.value, wait.shape), (0.0, SweepShape::Open));
    for c in &summary.curves {
        for (m, before) in c.means.iter().zip(&c.values) {
            assert!(m.band_low <= m.low && m.low <= m.mean, "{} at {before}", c.metric);
            assert!(m.mean <= m.high && m.high <= m.band_high, "{} at {before}", c.metric);
        }
    }
}

#[test]
fn a_curve_that_turns_is_read_off_the_band() {
    let run = made(&[0.3, 0.55, 0.7, 0.55, 0.3], 3000);
    let summary = sweep(&plan(&[1, 2, 3, 4, 5]), &run);
    let wins = curve(&summary, Metric::AttackerWins);
    assert_eq!((wins.shape, wins.monotone.clone()), (SweepShape::Turns, None));
    assert_eq!((wins.crossings[0].by, wins.crossings[0].at.len()), (SweepReading::Band, 2));
    assert!(summary.headline[0].contains("go up and down: the least is"), "{:?}", summary.headline);
    let told = summary.caveats.iter().any(|c| c.contains("no logistic curve along"));
    assert!(told, "{:?}", summary.caveats);
}

#[test]
fn a_target_out_of_reach_is_not_crossed() {
    let targets = vec![SweepTarget { metric: "attacker_wins".into(), value: 0.9 }];
    let plan = SweepPlan { targets, ..plan(&[1, 2, 3]) };
    let summary = sweep(&plan, &made(&[0.4, 0.5, 0.6], 1500));
    let crossing = &curve(&summary, Metric::AttackerWins).crossings[0];
    assert!(crossing.at.is_empty() && crossing.possible.is_empty() && !crossing.above);
    assert!(
        summary.headline[0].contains("the attacker wins less than 90.0 % throughout"),
        "{:?}",
        summary.headline
    );
}

#[test]
fn values_may_be_typed_in_any_order() {
    let run = made(&[0.36, 0.5, 0.64], 900);
    let mut turned = run.clone();
    // The first and the last value change places, and their arms with them.
    turned.plan.arms.swap(1, 3);
    for game in &mut turned.games {
        game.arm = [0, 3, 2, 1][game.arm];
    }
    let (one, other) = (sweep(&plan(&[1, 2, 3]), &run), sweep(&plan(&[3, 2, 1]), &turned));
    assert_eq!(one.curves, other.curves);
}

#[test]
fn an_arm_that_stopped_early_takes_no_other_with_it() {
    let mut run = made(&[0.36, 0.5, 0.64, 0.7], 900);
    run.games.retain(|game| game.arm != 2 || game.game < 20);
    let fault = ArmFault { arm: 2, message: "a value out of range".into(), ticket: "rs1~x".into() };
    run.faults = vec![fault];
    let summary = sweep(&plan(&[1, 2, 3, 4]), &run);
    assert_eq!(summary.left_out, ["end-cards:cards=2"]);
    let wins = curve(&summary, Metric::AttackerWins);
    assert_eq!((wins.values.as_slice(), wins.games), ([1, 3, 4].as_slice(), 900));
    let text = terminal(&build_sweep(&summary), 100, false);
    assert!(text.contains("End cards 2 stopped early, after 60 games of 900"), "{text}");
    assert!(text.contains("No part of any curve"), "{text}");
}

#[test]
fn a_grid_finds_that_one_option_needs_the_other() {
    let summary = grid(3000);
    assert_eq!(summary.grids.len(), summary.curves.len() / 2);
    let wins = &summary.grids[0];
    assert_eq!((wins.means.len(), wins.means[0].len()), (2, 3));
    let interaction = wins.interaction.unwrap();
    // From 30 to 42 % at range 5, from 38 to 62 % at range 20: twelve points more.
    assert!(interaction.low < 0.12 && 0.12 < interaction.high, "{interaction:?}");
    assert_eq!(interaction.verdict, Verdict::ClearShift);
    assert!(summary.headline[2].contains("Where late-fire:range is 20 instead of 5, the trend"));
}

#[test]
fn a_sweep_that_changes_nothing_shifts_nothing() {
    let mut run = made(&[0.45, 0.45, 0.45], 600);
    let base: Vec<_> = run.games.iter().filter(|g| g.arm == 0).cloned().collect();
    for game in &mut run.games {
        let values = base.iter().find(|b| (b.scenario, b.game) == (game.scenario, game.game));
        game.values = values.unwrap().values;
    }
    let summary = sweep(&plan(&[1, 2, 3]), &run);
    for c in &summary.curves {
        assert_eq!((c.trend.value, c.trend.low, c.trend.p), (0.0, 0.0, 1.0), "{}", c.metric);
        assert_eq!((c.trend.verdict, c.shape), (Verdict::NoDifference, SweepShape::Open));
    }
    assert!(
        summary
            .caveats
            .iter()
            .any(|c| c.starts_with("End cards 1, End cards 2 and End cards 3: no game differs"))
    );
}

#[test]
fn json_reads_back_as_the_same_sweep() {
    let summary = rising(300);
    let back: SweepSummary = serde_json::from_str(&json(&summary)).unwrap();
    assert_eq!((back.headline, back.caveats), (summary.headline, summary.caveats));
    assert_eq!(back.curves.len(), summary.curves.len());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn no_games_make_a_sweep_panic(
        values in prop::collection::vec(-3..40_i64, 0..5),
        second in prop::option::of(prop::collection::vec(0..9_i64, 0..3)),
        arms in 0..6_usize,
        games in 0..8_u32,
        bad in prop::option::of(prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300)]),
        target in prop_oneof![Just(0.0), Just(1.0), -2.0..2.0_f64],
        width in 0..200_usize,
    ) {
        let mut run = made(&[0.0, 0.5, 1.0, 0.4, 0.6][..arms.min(5)], games);
        if let (Some(game), Some(bad)) = (run.games.last_mut(), bad) {
            game.values = [bad; Metric::ALL.len()];
        }
        let targets = ["attacker_wins", "margin", "nonsense"]
            .map(|metric| SweepTarget { metric: metric.into(), value: target })
            .to_vec();
        let second = second.map(|values| ("b:c".to_owned(), values));
        let plan = SweepPlan { second, targets, ..plan(&values) };
        let summary = sweep(&plan, &run);
        let report = build_sweep(&summary);
        for block in report.front.iter().chain(&report.body).flat_map(|s| &s.blocks) {
            if let ruleshift_reports::Block::Table(table) = block {
                prop_assert!(table.rows.iter().all(|r| r.len() == table.columns.len()), "{table:?}");
            }
        }
        terminal(&report, width, true);
        markdown(&report);
        html(&report);
        json(&summary);
    }
}
