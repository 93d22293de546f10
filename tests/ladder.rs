//! `ruleshift ladder`: whether stronger players are stronger, and that a run is a run.
//!
//! Small ladders on fixed seeds; the full one, with its command, is in the README. Their players
//! stand so far apart that a ladder of other seeds would fail less than once in ten thousand.

use ruleshift_record::LadderSummary;

use crate::support::ruleshift;
use crate::support::run::Run;

const INPUT: i32 = 2;

fn ladder(args: &str) -> (Run, LadderSummary) {
    let run = Run::of("ladder", format!("{args} --quiet").split_whitespace());
    assert_eq!((run.done.code, run.done.err.as_str()), (0, ""));
    let summary = serde_json::from_str(&run.text("summary.json")).expect("the summary is JSON");
    (run, summary)
}

/// Share of its games with `other` that `player` has won, over both sides.
fn share(summary: &LadderSummary, player: &str, other: &str) -> f64 {
    let met = |attacker: &str, defender: &str| {
        let pairing = summary.pairings.iter();
        let found = pairing.clone().find(|p| p.attacker == attacker && p.defender == defender);
        found.expect("they met").share.share
    };
    (met(player, other) + 1.0 - met(other, player)) / 2.0
}

/// 2 x 160 games: of a true share of 0.97 a ladder shows less than 0.93 once in 10,000.
#[test]
fn steady_beats_chance_everywhere() {
    let (run, summary) = ladder("chance steady --games 160");
    assert!(share(&summary, "steady", "chance") >= 0.93, "{:?}", summary.pairings);
    assert_eq!(summary.players[0].name, "steady");
    assert_eq!(summary.scenarios.len(), 8);
    let games = run.games();
    assert_eq!(games.len(), 320);
    assert!(games.iter().all(|game| run.plan().roster.len() == 2 && game.arm == 0));
}

/// 2 x 200 games, standard error 0.024: of a true share of 0.65 less than 0.56 once in 10,000.
#[test]
fn a_planner_beats_the_doctrine_it_plays_out() {
    let scenarios = "--scenario first-evening first-tanks";
    let (_, summary) = ladder(&format!("steady planner {scenarios} --games 200 --seed 5"));
    let won = share(&summary, "planner", "steady");
    assert!(won >= 0.56, "{won}");
}

/// 2 x 120 games, standard error 0.032, of budgets far apart, for a test that is short: of a true
/// share of 0.62 less than a half once in 10,000.
#[test]
fn a_larger_budget_beats_a_smaller_one() {
    let players = "planner:playouts=4 planner:playouts=64";
    let (_, summary) = ladder(&format!("{players} --scenario first-tanks --games 120 --seed 6"));
    let won = share(&summary, "planner:playouts=64", "planner:playouts=4");
    assert!(won > 0.5, "{won}");
}

#[test]
fn threads_do_not_show_in_a_ladder() {
    let args = "steady rash planner:playouts=4 --scenario first-evening --games 12";
    let (one, _) = ladder(&format!("{args} --threads 1"));
    let (three, _) = ladder(&format!("{args} --threads 3"));
    for name in ["plan.ron", "games.parquet", "summary.json", "report.md", "report.html"] {
        assert!(one.bytes(name) == three.bytes(name), "{name}");
    }
}

#[test]
fn a_ladder_under_a_house_rule_names_it() {
    let (run, summary) = ladder("bold rash --rules no-late-fire --scenario probe --games 4");
    assert_eq!(summary.arm, "no-late-fire");
    assert!(run.tickets()[0].contains("no-late-fire@"), "{:?}", run.tickets());
}

#[test]
fn what_is_typed_wrongly_is_told_at_once() {
    let parts = ["`stedy`", "mean `steady`?", "`no-lat-fire`", "`prob`"];
    let typed = ["ladder", "stedy", "bold", "--rules", "no-lat-fire", "--scenario", "prob"];
    ruleshift(typed).fails(INPUT, &parts);
    ruleshift(["ladder", "bold"]).fails(INPUT, &["two players or more"]);
    ruleshift(["ladder", "bold", "plannr"]).fails(INPUT, &["mean `planner`?"]);
    ruleshift(["ladder", "bold", "bold"]).fails(INPUT, &["`bold` is named twice"]);
}
