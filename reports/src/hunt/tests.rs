//! How often the judgement of a hunt is right, on made games.

use ruleshift_record::{
    GameRow, HuntPlan, HuntSearch, HuntSummary, HuntTrail, HuntVerdict, HuntWeight, Metric, Plan,
    PlayerRef, RunRecord, Seat,
};

use super::{build_hunt, judge, seeming_gain};
use crate::{html, json, markdown, sample, terminal};

/// Hold-outs of each kind, and seeds in each.
const HOLD_OUTS: u64 = 200;
const SEEDS: u32 = 400;

/// Made luck: SplitMix64.
struct Luck(u64);

impl Luck {
    fn draw(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }
}

fn player(name: &str) -> PlayerRef {
    PlayerRef { name: name.into(), digest: "89ab0123".into() }
}

fn hunt(gain: f64) -> HuntPlan {
    let plan = sample::run(&[vec![], vec![]]).plan;
    let pairings = ["cautious", "bold"];
    let seated = [sample::pairing("steady", pairings[0]), sample::pairing(pairings[1], "steady")];
    HuntPlan {
        judged: Plan { pairings: seated.to_vec(), games_per_arm: SEEDS, ..plan },
        seats: vec![Seat::Attacker, Seat::Defender],
        search: HuntSearch { budget: 60, games: 40, finalists: 3, finalist_games: 80, seed: 7 },
        gain,
    }
}

fn trail() -> HuntTrail {
    HuntTrail {
        tried: 60,
        rounds: vec![(-0.1, 0.02), (0.0, 0.06)],
        finalists: vec![(0.06, 0.02), (0.05, 0.03)],
        weights: vec![HuntWeight { name: "advance".into(), usual: 12, found: 0 }],
        found: player("found.ron"),
    }
}

/// Games in which the styles win with these chances, by style, then rules. Half of the time the
/// same luck means the same game; one game in ten is drawn.
fn run(hunt: &HuntPlan, chances: [[f64; 2]; 2], seed: u64) -> RunRecord {
    let mut luck = Luck(seed.wrapping_mul(0x51_7cc1_b727));
    let plan = hunt.with(&[player("found.ron")], SEEDS, 1);
    let mut games = Vec::new();
    for scenario in 0..plan.scenarios.len() {
        for game in 0..plan.games_in_scenario(scenario) {
            let shared = luck.draw();
            for arm in 0..plan.arms.len() {
                let (style, variant) = HuntPlan::style(arm);
                let own = luck.draw();
                let luck = if luck.draw() < 0.5 { shared } else { own };
                // The scenarios are not even, and the seats are not either.
                let chance = chances[style][usize::from(variant)] + 0.1 * scenario as f64 - 0.05;
                let attacks = hunt.seats[plan.pairing(game)] == Seat::Attacker;
                let attacker = if attacks { luck < chance } else { luck >= chance };
                let drawn = luck > 0.45 && luck < 0.55 && own < 0.5;
                let mut values = [0.0; Metric::ALL.len()];
                values[Metric::AttackerWins as usize] = f64::from(u8::from(attacker && !drawn));
                values[Metric::Drawn as usize] = f64::from(u8::from(drawn));
                values[Metric::Margin as usize] = if attacker { 3.0 } else { -3.0 };
                values[Metric::Turns as usize] = 8.0 + own - style as f64;
                games.push(GameRow {
                    arm,
                    scenario,
                    game,
                    seed: game.into(),
                    digest: 1,
                    values,
                    margins: vec![],
                });
            }
        }
    }
    RunRecord { plan, games: games.into(), faults: vec![] }
}

/// How many of the hold-outs accuse a style with these chances.
fn accused(gain: f64, chances: [[f64; 2]; 2]) -> usize {
    let hunt = hunt(gain);
    let accuses = |seed: &u64| {
        let summary = judge(&hunt, &run(&hunt, chances, *seed), &trail()).unwrap();
        summary.verdict == HuntVerdict::Exploit
    };
    (1..=HOLD_OUTS).filter(accuses).count()
}

/// A style that is the usual one under another name: by the level of the two intervals, at most
/// 2.5 % are accused even when any gain at all would do, and none to speak of beyond 5 points.
#[test]
fn the_usual_style_under_another_name_is_not_accused() {
    let null = [[0.5, 0.6], [0.5, 0.6]];
    let any_gain = accused(0.0, null);
    assert!(any_gain <= HOLD_OUTS as usize / 20, "{any_gain}");
    assert_eq!(accused(0.05, null), 0);
}

/// The level is held where it is hardest to hold: at a gain of just the size worth noticing.
#[test]
fn a_gain_of_just_the_size_worth_noticing_is_seldom_accused() {
    let border = accused(0.05, [[0.5, 0.5], [0.5, 0.55]]);
    assert!(border <= HOLD_OUTS as usize / 20, "{border}");
}

#[test]
fn neither_a_better_style_nor_a_less_bad_one_is_an_exploit() {
    assert_eq!(accused(0.05, [[0.5, 0.5], [0.7, 0.7]]), 0, "better in both games");
    assert_eq!(accused(0.05, [[0.5, 0.5], [0.2, 0.4]]), 0, "less bad under the variant");
}

/// Without this the tests above could pass because nothing is ever accused. By the spread of a
/// seed, about 0.9 for the surplus, 400 seeds leave a standard error of 4.5 points.
#[test]
fn a_large_gain_from_the_variant_is_nearly_always_accused() {
    let caught = accused(0.05, [[0.5, 0.5], [0.5, 0.8]]);
    assert!(caught >= HOLD_OUTS as usize * 95 / 100, "{caught}");
}

fn answer(gain: f64, chances: [[f64; 2]; 2]) -> (HuntPlan, HuntSummary) {
    let hunt = hunt(gain);
    let summary = judge(&hunt, &run(&hunt, chances, 3), &trail()).unwrap();
    (hunt, summary)
}

#[test]
fn games_that_never_differ_leave_a_rare_gain_possible() {
    let hunt = hunt(0.05);
    let mut run = run(&hunt, [[0.5; 2]; 2], 1);
    run.games = run.games.changed(|rows| {
        rows.iter_mut().for_each(|game| game.values = [0.0; Metric::ALL.len()]);
    });
    let summary = judge(&hunt, &run, &trail()).unwrap();
    assert_eq!((summary.whole.surplus.low, summary.whole.surplus.high), (0.0, 0.0));
    assert!(summary.at_most > 0.01 && summary.at_most < 0.02, "{}", summary.at_most);
    assert_eq!((summary.verdict, summary.tickets.len()), (HuntVerdict::NotFound, 0));
}

#[test]
fn too_few_games_are_no_answer_and_a_seed_counts_only_when_played_four_times() {
    let hunt = hunt(0.05);
    let mut run = run(&hunt, [[0.5; 2]; 2], 1);
    run.games = run.games.changed(|rows| rows.retain(|game| game.arm != 3 || game.game < 5));
    assert_eq!(judge(&hunt, &run, &trail()).unwrap().whole.seeds, 10);
    run.games = run.games.changed(|rows| rows.retain(|game| game.arm != 2));
    assert_eq!(judge(&hunt, &run, &trail()), None);
    assert_eq!(seeming_gain(&hunt, &run, 1), 0.0);
}

#[test]
fn what_the_search_makes_large_is_the_lesser_of_edge_and_surplus() {
    let hunt = hunt(0.05);
    let worth = |chances| seeming_gain(&hunt, &run(&hunt, chances, 5), 1);
    let near = |is: f64, expected: f64| assert!((is - expected).abs() < 0.09, "{is}");
    near(worth([[0.5, 0.5], [0.5, 0.8]]), 0.3);
    near(worth([[0.5, 0.5], [0.7, 0.7]]), 0.0);
    near(worth([[0.5, 0.5], [0.2, 0.4]]), -0.1);
}

#[test]
fn an_exploit_is_told_with_its_size_its_habits_and_a_game() {
    let (hunt, summary) = answer(0.05, [[0.5, 0.5], [0.5, 0.85]]);
    let sentence = &summary.headline[0];
    assert!(sentence.starts_with("Arm 1 opens an exploit: the style found wins "), "{sentence}");
    assert_eq!(summary.habits.len(), 2, "length, as either side: {:?}", summary.habits);
    assert!(summary.habits.iter().all(|h| h.metric == "turns" && h.shift.high < -0.9));
    let [found, usual] = &summary.tickets[..] else { panic!("{:?}", summary.tickets) };
    assert!(found.ticket.contains("found.ron@") && !usual.ticket.contains("found.ron@"));
    let report = build_hunt(&hunt, &summary);
    for text in [terminal(&report, 100, false), markdown(&report), html(&report), json(&summary)] {
        for part in ["opens an exploit", "found.ron", "rs1~"] {
            assert!(text.contains(part), "{part} in {text}");
        }
    }
}

#[test]
fn not_finding_is_said_to_be_no_proof() {
    let (_, summary) = answer(0.05, [[0.5; 2]; 2]);
    let told = summary.headline.join(" ");
    for part in ["no exploit found within budget", "could still gain up to ", "is no proof"] {
        assert!(told.contains(part), "{part}: {told}");
    }
}
