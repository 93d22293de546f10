//! What is said of choices that are to make a scenario fair, in real games.

use ruleshift_batch::{ArmCast, Cast, run};
use ruleshift_game::Rules;
use ruleshift_record::{
    GameRow, HandicapPlan, HandicapStanding, HandicapSummary, Metric, Plan, RunRecord, Seat,
};
use ruleshift_reports::even_out;
use ruleshift_scenarios::{SHIPPED, Scenario, choices};

use super::rate::{Rate, times};
use crate::support::stage::strategy;

const SCENARIO: &str = "first-evening";
/// As it is, about even; then with break points under which the attacker wins about half and about
/// 40 % of games, where it is hardest to say what is fair.
const CHOICES: [&str; 4] = ["", "break-point:32", "break-point:42", "break-point:52"];
/// Games of each choice in a run, and in all runs, times what the environment says.
const GAMES: u32 = 150;
const ALL: u32 = 1_500;

fn scenarios() -> Vec<Scenario> {
    let (_, text) = SHIPPED.iter().find(|(name, _)| *name == SCENARIO).expect("it is shipped");
    let all = choices(SCENARIO, text, "defender", Some("german")).expect("it has choices");
    let wanted = |scenario: &Scenario| {
        CHOICES.iter().any(|choice| match *choice {
            "" => scenario.name == SCENARIO,
            choice => scenario.name.ends_with(choice),
        })
    };
    let found: Vec<Scenario> = all.into_iter().filter(wanted).collect();
    assert_eq!(found.len(), CHOICES.len());
    found
}

/// Every game of every choice, in one run.
fn played() -> RunRecord {
    let scenarios = scenarios();
    let names: Vec<&str> = scenarios.iter().map(|scenario| &*scenario.name).collect();
    let text = format!(
        "Plan(arms: [\"base\"], scenarios: {names:?}, seed: 20261129, games_per_arm: {}, pairings: \
         [(attacker: \"steady\", defender: \"steady\")])",
        ALL * times() * CHOICES.len() as u32
    );
    let player = strategy("steady");
    let cast = Cast {
        arenas: scenarios.iter().map(|scenario| &scenario.arena).collect(),
        arms: vec![ArmCast { rules: Rules::base(), script: None }],
        player: Box::new(|_, arm| player.player(&arm.rules, None)),
    };
    let plan = Plan::from_ron(&text).expect("it is a plan");
    run(&plan, &cast, 1, &()).expect("a thread can be started")
}

/// The answer of each run of so many games of each choice.
fn answers(all: &RunRecord, rows: &[GameRow], games: u32) -> Vec<HandicapSummary> {
    let answer = |block: u32| {
        let of_block = |row: &&GameRow| row.game / games == block;
        let rows: Vec<GameRow> = rows.iter().filter(of_block).cloned().collect();
        let record = RunRecord { plan: all.plan.clone(), games: rows.into(), faults: vec![] };
        even_out(&record, HandicapPlan { side: Seat::Defender })
    };
    (0..ALL * times() / games).map(answer).collect()
}

fn share(rows: &[GameRow], scenario: usize) -> f64 {
    let wins: Vec<f64> = rows
        .iter()
        .filter(|row| row.scenario == scenario)
        .map(|row| row.get(Metric::AttackerWins))
        .collect();
    wins.iter().sum::<f64>() / wins.len() as f64
}

/// Which share is nearest to a half.
fn nearest(shares: &[f64]) -> Option<usize> {
    let away = |place: &usize| (shares[*place] - 0.5).abs();
    (0..shares.len()).min_by(|one, other| away(one).total_cmp(&away(other)))
}

#[test]
fn what_is_said_of_choices_is_wrong_in_at_most_5_of_100_runs() {
    let all = played();
    assert_eq!(all.faults, []);
    let rows = all.games.rows();
    let shares: Vec<f64> = (0..CHOICES.len()).map(|choice| share(&rows, choice)).collect();
    println!("the attacker wins {shares:.3?}");
    let answers = answers(&all, &rows, GAMES);
    let of = |hit: &dyn Fn(&HandicapSummary) -> bool| answers.iter().map(hit).collect::<Rate>();
    let missed = of(&|answer| {
        let mut each = answer.choices.iter().zip(&shares);
        each.any(|(choice, share)| *share < choice.low || choice.high < *share)
    });
    let wrong = of(&|answer| {
        answer.choices.iter().zip(&shares).any(|(choice, share)| match choice.standing {
            HandicapStanding::Fair => !(answer.least..=answer.most).contains(share),
            HandicapStanding::TooSeldom => *share >= answer.least,
            HandicapStanding::TooOften => *share <= answer.most,
            HandicapStanding::Open => false,
        })
    });
    missed.told("handicap: an interval misses its share").at_most(0.05);
    wrong.told("handicap: a choice is put in the wrong place").at_most(0.05);
    // Not promised: so many games need not tell which of two that are close is the nearer.
    let unnamed = of(&|answer| answer.nearest != nearest(&shares));
    let told = unnamed.told("handicap: the nearest is not the one that came nearest");
    let silent = of(&|answer| {
        let sure = answer.headline[1].starts_with("Nearest to a half comes")
            || answer.headline[1].starts_with("No choice brings");
        sure && answer.nearest != nearest(&shares)
    });
    silent.told("handicap: and nobody is told that others may be nearer").at_most(0.05);
    assert!(told.hits > silent.hits, "words that are never needed");
}
