//! What the report of crossed variants looks like, and what no data may do to it.

use crate::made::{self, BASE, Luck, Made};
use proptest::prelude::*;
use ruleshift_record::{
    CrossPlan, CrossSummary, CrossWord, Fraction, Metric, RunRecord, Verdict, cross_design,
    cross_generators,
};
use ruleshift_reports::{build_cross, cross, html, json, markdown, terminal};

const FACTORS: [&str; 6] =
    ["no-late-fire", "quick-rally", "two-cards", "far-sight", "slow-guns", "dug-in"];

fn plan(count: usize, fraction: Fraction) -> CrossPlan {
    CrossPlan {
        factors: FACTORS[..count].iter().map(|&name| name.to_owned()).collect(),
        arms: cross_design(count, fraction).unwrap(),
        generators: cross_generators(count, fraction).unwrap(),
    }
}

/// A made run in which an arm wins and lasts as `shift` says of its mask: wins in percentage points on
/// top of 45, and turns.
fn made(plan: &CrossPlan, games: u32, shift: impl Fn(u8) -> (f64, f64)) -> RunRecord {
    let arms: Vec<Made> = plan.arms.iter().map(|_| Made { stir: 0.3, ..BASE }).collect();
    let mut run = made::run(&arms, games);
    for (arm, &mask) in run.plan.arms.iter_mut().zip(&plan.arms).skip(1) {
        let on = FACTORS.iter().enumerate().filter(|(n, _)| mask >> n & 1 == 1);
        arm.name = on.map(|(_, name)| *name).collect::<Vec<_>>().join("+");
        arm.title = arm.name.clone();
        arm.summary = "Changes something.".into();
    }
    for game in &mut run.games {
        let (points, turns) = shift(plan.arms[game.arm]);
        let mut own = Luck(game.seed * 97 + game.arm as u64);
        let common = Luck(game.seed ^ 0x77).unit();
        let throw = if own.unit() < 0.8 { common } else { own.unit() };
        let won = f64::from(u8::from(throw < 0.45 + points / 100.0));
        game.values[Metric::AttackerWins as usize] = won;
        game.values[Metric::Turns as usize] += turns + own.bell() * 0.3;
    }
    run
}

fn on(mask: u8, n: u8) -> f64 {
    f64::from(mask >> n & 1)
}

/// The first two cancel on wins; on turns the first makes the third stronger.
fn planted(mask: u8) -> (f64, f64) {
    let wins = 9.0 * on(mask, 0) - 9.0 * on(mask, 1);
    (wins, 1.0 * on(mask, 2) + 1.2 * on(mask, 0) * on(mask, 2))
}

fn three(games: u32) -> CrossSummary {
    let plan = plan(3, Fraction::Full);
    cross(&plan, &made(&plan, games, planted))
}

#[test]
fn the_terminal_shows_one_screen() {
    let text = terminal(&build_cross(&three(3000)), 100, false);
    println!("SNAP4\n{text}\nEND");
}

#[test]
fn markdown_has_every_table() {
    let plan = plan(5, Fraction::Half);
    let text = markdown(&build_cross(&cross(&plan, &made(&plan, 300, planted))));
    let front = text.split("## Games worth a look").next().unwrap_or_default();
    let effects = text.split("## All effects").nth(1).unwrap_or_default();
    let effects = effects.split("margin (points)").next().unwrap_or_default();
    println!("SNAP7\n{effects}\nEND");
    println!("SNAP5\n{front}\nEND");
}

#[test]
fn planted_effects_and_words_are_found() {
    let summary = three(6000);
    let effect = |letters: &str, metric: Metric| {
        let own = |e: &&ruleshift_record::CrossEffect| {
            e.letters == letters && e.metric == metric.spec().name
        };
        summary.effects.iter().find(own).unwrap().effect
    };
    let wins = effect("A", Metric::AttackerWins);
    assert!(wins.low < 0.09 && 0.09 < wins.high && wins.verdict == Verdict::ClearShift);
    // An interaction in the sense of effects is half of the surplus.
    let turns = effect("AC", Metric::Turns);
    assert!(turns.low < 0.6 && 0.6 < turns.high, "{turns:?}");
    assert_eq!(effect("BC", Metric::Turns).verdict, Verdict::NoDifference);
    let word = |a, b, metric: Metric| {
        let own = |p: &&ruleshift_record::CrossPair| {
            p.variants == (a, b) && p.metric == metric.spec().name
        };
        summary.pairs.iter().find(own).unwrap().word
    };
    assert_eq!(word(0, 1, Metric::AttackerWins), CrossWord::Cancel);
    assert_eq!(word(0, 2, Metric::Turns), CrossWord::SecondStronger);
    assert_eq!(word(1, 2, Metric::Turns), CrossWord::Apart);
}

/// Of 32 combinations 16 tell all pairs, of 64 a quarter tells none.
#[test]
fn a_fraction_tells_what_it_can() {
    let half = plan(5, Fraction::Half);
    let summary = cross(&half, &made(&half, 3000, planted));
    assert_eq!((summary.relation.clone(), summary.games), (vec!["-ABCDE".to_owned()], 3000));
    let of = |s: &CrossSummary, letters: &str, metric: Metric| {
        let own = |e: &&ruleshift_record::CrossEffect| {
            e.letters == letters && e.metric == metric.spec().name
        };
        s.effects.iter().find(own).map(|e| (e.effect, e.aliases.clone()))
    };
    let (e, aliases) = of(&summary, "E", Metric::AttackerWins).unwrap();
    assert_eq!((e.verdict, aliases), (Verdict::NoDifference, vec!["-ABCD".to_owned()]));
    let (ac, _) = of(&summary, "AC", Metric::Turns).unwrap();
    // Its standard error is 0.0028: four of them.
    assert!((ac.value - 0.6).abs() < 0.0112 && ac.verdict == Verdict::ClearShift, "{ac:?}");
    let cancel = summary.pairs.iter().find(|p| p.variants == (0, 1)).unwrap();
    assert_eq!((cancel.word, cancel.metric.as_str()), (CrossWord::Cancel, "attacker_wins"));
    let quarter = plan(6, Fraction::Quarter);
    let summary = cross(&quarter, &made(&quarter, 600, planted));
    assert!(summary.pairs.is_empty() && summary.effects.len() == 15 * 8);
    assert!(summary.caveats.iter().any(|c| c.contains("look like each other")));
    // A follows E through E = ABC, with a plus: in the arms B, C and E tell of it as BCE.
    let (a, aliases) = of(&summary, "A", Metric::AttackerWins).unwrap();
    assert!(a.low < 0.09 && 0.09 < a.high && aliases.contains(&"BCE".to_owned()), "{aliases:?}");
}

#[test]
fn arms_that_are_no_design_have_no_effects() {
    let mut odd = plan(3, Fraction::Full);
    let run = made(&odd, 60, planted);
    odd.arms.swap(1, 2);
    let summary = cross(&odd, &run);
    assert!(summary.effects.is_empty() && summary.pairs.is_empty());
    assert!(summary.headline[0].contains("too few games"), "{:?}", summary.headline);
}

#[test]
fn json_reads_back_as_the_same_cross() {
    let summary = three(300);
    let back: CrossSummary = serde_json::from_str(&json(&summary)).unwrap();
    assert_eq!((back.headline, back.caveats), (summary.headline, summary.caveats));
    assert_eq!((back.effects.len(), back.pairs.len()), (7 * 8, 3 * 8));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Arms that add up game by game have no surplus and no interaction at all.
    #[test]
    fn arms_that_add_up_have_no_interaction(own in prop::collection::vec(-3.0..3.0_f64, 3)) {
        let plan = plan(3, Fraction::Full);
        let mut run = made(&plan, 30, |_| (0.0, 0.0));
        let base: Vec<f64> =
            run.games.iter().filter(|g| g.arm == 0).map(|g| g.get(Metric::Margin)).collect();
        let count = base.len();
        for (n, game) in run.games.iter_mut().enumerate() {
            let mask = plan.arms[game.arm];
            let shift: f64 = (0..3).map(|k| own[k] * on(mask, k as u8)).sum();
            game.values[Metric::Margin as usize] = base[n % count] + shift;
        }
        let summary = cross(&plan, &run);
        let margin = Metric::Margin.spec().name;
        for e in summary.effects.iter().filter(|e| e.metric == margin) {
            let expected = match e.mask.count_ones() {
                1 => own[e.mask.trailing_zeros() as usize],
                _ => 0.0,
            };
            prop_assert!((e.effect.value - expected).abs() < 1e-9, "{}", e.letters);
        }
        for p in summary.pairs.iter().filter(|p| p.metric == margin) {
            prop_assert!(p.surplus.value.abs() < 1e-9);
        }
    }

    #[test]
    fn no_games_make_a_cross_panic(
        count in 0..7_usize,
        masks in prop::collection::vec(any::<u8>(), 0..9),
        designed in any::<bool>(),
        games in 0..7_u32,
        bad in prop::option::of(prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300)]),
        width in 0..200_usize,
    ) {
        let factors = FACTORS[..count].iter().map(|&name| name.to_owned()).collect();
        let designed = if designed { cross_design(count.min(4), Fraction::Full) } else { None };
        let plan = CrossPlan { factors, arms: designed.unwrap_or(masks), generators: vec![] };
        let mut run = made(&plan, games, planted);
        if let (Some(game), Some(bad)) = (run.games.last_mut(), bad) {
            game.values = [bad; Metric::ALL.len()];
        }
        let summary = cross(&plan, &run);
        let report = build_cross(&summary);
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
