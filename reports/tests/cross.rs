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
    made::each(&mut run, |game| {
        let (points, turns) = shift(plan.arms[game.arm]);
        let mut own = Luck(game.seed * 97 + game.arm as u64);
        let common = Luck(game.seed ^ 0x77).unit();
        let throw = if own.unit() < 0.8 { common } else { own.unit() };
        let won = f64::from(u8::from(throw < 0.45 + points / 100.0));
        game.values[Metric::AttackerWins as usize] = won;
        game.values[Metric::Turns as usize] += turns + own.bell() * 0.3;
    });
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
    insta::assert_snapshot!(text, @r#"
    3 variants crossed in 8 arms
    3,000 games in each arm, 3 scenarios, attacker steady, defender bold, seed 42

    The attacker's chances are shifted by no-late-fire by +8.1 pp (95 % +7.2 to +9.1) and quick-rally by
    −8.5 pp (95 % −9.4 to −7.5); not worth noticing: two-cards. Each is on in half of the 8 arms, the
    others on and off alike.
    Largest other shifts: length of two-cards by +1.60 (95 % +1.60 to +1.61); length of no-late-fire by
    +0.60 (95 % +0.59 to +0.61).
    no-late-fire and quick-rally cancel on attacker wins: together they shift it by −1.3 pp (95 % −2.8
    to +0.3), alone by +7.7 pp and −8.7 pp.
    no-late-fire makes two-cards stronger on length: together they shift it by +2.20 (95 % +2.19 to
    +2.22), alone by 0.00 and +1.01.

    Main effects: the variant on less the variant off
    Metric                                   A           B           C
    ──────────────────────────────────────────────────────────────────
    attacker wins                    +8.1 pp ▲   −8.5 pp ▲   +0.5 pp =
    margin (points)                     0.00 =      0.00 =      0.00 =
    length (turns)                     +0.60 ▲      0.00 =     +1.60 ▲
    time at the table (minutes)          0.0 =       0.0 =       0.0 =
    units left idle                   0.0 pp =    0.0 pp =    0.0 pp =
    attacker's losses                 0.0 pp =    0.0 pp =    0.0 pp =
    defender's losses                 0.0 pp =    0.0 pp =    0.0 pp =
    longest wait of a unit (turns)      0.00 =      0.00 =      0.00 =
    A no-late-fire, B quick-rally, C two-cards. ▲ clear shift, △ shift too small to notice, = no
    difference worth noticing, ? undecided

    What pairs make of each other
    Pair       Metric              First      Second    Together     Surplus   They
                                   alone       alone
    ────────────────────────────────────────────────────────────────────────────────────────────────────
    A with B   attacker wins   +7.7 pp ▲   −8.7 pp ▲   −1.3 pp =   −0.3 pp =   cancel
    A with C   length             0.00 =     +1.01 ▲     +2.20 ▲     +1.19 ▲   second is stronger with
                                                                               first

    Keep in mind
    - Computer players are not your club: a shift is evidence, the table decides.

    Games worth a look: no-late-fire+two-cards
    - Typical game: margin +1 after 11 turns
      ruleshift replay rs1~night-probe@4567cdef~base~steady@89ab0123~bold@89ab0123~0000000000005af3~7fd0000000005af3
    - Largest shift: margin +2 after 11 turns, instead of margin +2 after 8 turns
      ruleshift replay rs1~night-probe@4567cdef~base~steady@89ab0123~bold@89ab0123~000000000000179f~002000000000179f
      ruleshift replay rs1~night-probe@4567cdef~base~steady@89ab0123~bold@89ab0123~000000000000179f~002000000000179f
    - Closest finish: margin 0 after 9 turns
      ruleshift replay rs1~orchard-road@4567cdef~base~steady@89ab0123~bold@89ab0123~0000000000000ae6~401c000000000ae6
    "#);
}

#[test]
fn markdown_has_every_table() {
    let plan = plan(5, Fraction::Half);
    let text = markdown(&build_cross(&cross(&plan, &made(&plan, 300, planted))));
    let front = text.split("## Games worth a look").next().unwrap_or_default();
    let effects = text.split("## All effects").nth(1).unwrap_or_default();
    let effects = effects.split("margin (points)").next().unwrap_or_default();
    insta::assert_snapshot!(effects.trim(), @r#"
    attacker wins

    | Variants | Or | Effect | 95 % interval | Verdict | p, adjusted |
    | :-- | :-- | --: | --: | :-- | --: |
    | A | -BCDE | +9.6 pp | +7.1 to +12.0 | clear shift | \< 0.001 |
    | B | -ACDE | −9.7 pp | −12.1 to −7.4 | clear shift | \< 0.001 |
    | C | -ABDE | +0.6 pp | −1.1 to +2.3 | no difference worth noticing | 1.000 |
    | D | -ABCE | −0.2 pp | −1.8 to +1.5 | no difference worth noticing | 1.000 |
    | E | -ABCD | −0.2 pp | −1.9 to +1.5 | no difference worth noticing | 1.000 |
    | AB | -CDE | +2.4 pp | −0.2 to +5.0 | undecided | 1.000 |
    | AC | -BDE | +0.2 pp | −1.6 to +2.1 | no difference worth noticing | 1.000 |
    | AD | -BCE | −1.2 pp | −2.8 to +0.5 | no difference worth noticing | 1.000 |
    | AE | -BCD | +0.3 pp | −1.4 to +2.1 | no difference worth noticing | 1.000 |
    | BC | -ADE | +1.1 pp | −0.5 to +2.7 | no difference worth noticing | 1.000 |
    | BD | -ACE | +0.8 pp | −0.9 to +2.5 | no difference worth noticing | 1.000 |
    | BE | -ACD | −0.2 pp | −1.9 to +1.5 | no difference worth noticing | 1.000 |
    | CD | -ABE | −1.5 pp | −3.2 to +0.2 | no difference worth noticing | 1.000 |
    | CE | -ABD | +0.7 pp | −0.9 to +2.2 | no difference worth noticing | 1.000 |
    | DE | -ABC | −0.2 pp | −2.1 to +1.6 | no difference worth noticing | 1.000 |
    "#);
    insta::assert_snapshot!(front, @r#"
    # 5 variants crossed in 16 arms, a part of all combinations

    300 games in each arm, 3 scenarios, attacker steady, defender bold, seed 42

    **The attacker's chances are shifted by no-late-fire by +9.6 pp (95 % +7.1 to +12.0) and quick-rally by −9.7 pp (95 % −12.1 to −7.4); not worth noticing: two-cards, far-sight and slow-guns. Each is on in half of the 16 arms, the others on and off alike.**

    **Largest other shifts: length of two-cards by +1.59 (95 % +1.58 to +1.61); length of no-late-fire by +0.60 (95 % +0.58 to +0.61).**

    **no-late-fire and quick-rally cancel on attacker wins: together they shift it by −0.2 pp (95 % −2.6 to +2.2), alone by +7.2 pp and −12.2 pp.**

    **no-late-fire makes two-cards stronger on length: together they shift it by +2.19 (95 % +2.17 to +2.21), alone by 0.00 and +1.00.**

    ## What each variant does

    Main effects: the variant on less the variant off

    | Metric | A | B | C | D | E |
    | :-- | --: | --: | --: | --: | --: |
    | attacker wins | +9.6 pp ▲ | −9.7 pp ▲ | +0.6 pp = | −0.2 pp = | −0.2 pp = |
    | margin (points) | 0.00 = | 0.00 = | 0.00 = | 0.00 = | 0.00 = |
    | length (turns) | +0.60 ▲ | −0.01 = | +1.59 ▲ | +0.01 = | −0.01 = |
    | time at the table (minutes) | 0.0 = | 0.0 = | 0.0 = | 0.0 = | 0.0 = |
    | units left idle | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = |
    | attacker's losses | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = |
    | defender's losses | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = | 0.0 pp = |
    | longest wait of a unit (turns) | 0.00 = | 0.00 = | 0.00 = | 0.00 = | 0.00 = |

    A no-late-fire, B quick-rally, C two-cards, D far-sight, E slow-guns. ▲ clear shift, △ shift too small to notice, = no difference worth noticing, ? undecided

    ## What pairs make of each other

    What pairs make of each other

    | Pair | Metric | First alone | Second alone | Together | Surplus | They |
    | :-- | :-- | --: | --: | --: | --: | :-- |
    | A with B | attacker wins | +7.2 pp ▲ | −12.2 pp ▲ | −0.2 pp = | +4.8 pp ? | cancel |
    | A with C | length | 0.00 = | +1.00 ▲ | +2.19 ▲ | +1.19 ▲ | second is stronger with first |

    ## Keep in mind

    - Computer players are not your club: a shift is evidence, the table decides.
    - 16 of 32 combinations were played (E = -ABCD): interactions of three or more are taken to be nothing, and pairs are judged as means over the other variants.
    "#);
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
        let base = run.games.column(0, Metric::Margin);
        made::change(&mut run, |rows| for (n, game) in rows.iter_mut().enumerate() {
            let mask = plan.arms[game.arm];
            let shift: f64 = (0..3).map(|k| own[k] * on(mask, k as u8)).sum();
            game.values[Metric::Margin as usize] = base[n % base.len()] + shift;
        });
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
        if let Some(bad) = bad {
            made::change(&mut run, |rows| {
                rows.last_mut().into_iter().for_each(|game| game.values = [bad; Metric::ALL.len()]);
            });
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
