//! What makes a scenario fair: support that a scenario's name adds, as any command takes it.

use ruleshift_record::{HandicapSummary, Seat};

use crate::support::ruleshift;
use crate::support::run::Run;

const INPUT: i32 = 2;
const SUPPORTED: &str = "first-evening+defender:german-machine-gun-section";

/// A name with support is a scenario like any other: in a run, its plan, its tickets.
#[test]
fn a_scenario_with_support_is_one_of_its_own_in_a_run_a_plan_and_a_ticket() {
    let run = Run::fine(&format!("no-late-fire --scenario first-evening {SUPPORTED} --games 8"));
    let scenarios = run.plan().scenarios;
    assert_eq!(
        scenarios.iter().map(|s| &*s.name).collect::<Vec<_>>(),
        ["first-evening", SUPPORTED]
    );
    assert_ne!(scenarios[0].digest, scenarios[1].digest);
    assert!(scenarios[1].title.ends_with("; defender with machine gun section"), "{scenarios:?}");

    let tickets = run.tickets();
    let ticket = tickets.iter().find(|ticket| ticket.contains("german")).expect("it was played");
    assert!(ticket.contains("first-evening%2Bdefender:german-machine-gun-section@"), "{ticket}");
    ruleshift(["replay", ticket, "--verify"]).fine();
    let told = ruleshift(["replay", ticket]).fine().out;
    assert!(told.contains("; defender with machine gun section"), "{told}");

    let plan = run.path("plan.ron");
    let again = Run::of("run", [plan.to_str().unwrap(), "--quiet"]);
    assert_eq!((again.done.code, again.done.err.as_str()), (0, ""));
    assert!(again.bytes("games.parquet") == run.bytes("games.parquet"));
}

/// 2 x 300 games on fixed seeds: a support section takes far more than the 5 points asked for, while the
/// standard error of the difference is 4; how far more was not measured.
#[test]
fn support_for_the_defender_takes_wins_from_the_attacker() {
    let wins = |scenario: &str| {
        let run = Run::fine(&format!("no-late-fire --scenario {scenario} --games 300"));
        crate::support::run::mean(&run.arm(0), ruleshift_record::Metric::AttackerWins)
    };
    let (plain, with) = (wins("first-evening"), wins(SUPPORTED));
    assert!(with < plain - 0.05, "{plain} and {with}");
}

#[test]
fn support_may_follow_a_path_all_and_drawn_scenarios() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.ron");
    let path = path.to_str().unwrap();
    ruleshift(["new", "scenario", "--seed", "7", "--out", path]).fine();
    let names = format!(
        "{path}+attacker:us-rifle-squad generated:2+attacker:us-rifle-squad+defender:us-mortar-section"
    );
    let run = Run::fine(&format!("no-late-fire --games 3 --scenario {names}"));
    let names: Vec<String> = run.plan().scenarios.into_iter().map(|s| s.name).collect();
    let added = "+attacker:us-rifle-squad";
    assert_eq!(
        names,
        [
            format!("{path}{added}"),
            format!("sketch-1{added}+defender:us-mortar-section"),
            format!("sketch-2{added}+defender:us-mortar-section"),
        ]
    );
    for ticket in run.tickets() {
        ruleshift(["replay", &ticket, "--verify"]).fine();
    }
    let all = Run::fine("no-late-fire --games 8 --scenario all+attacker:us-rifle-squad");
    assert!(all.plan().scenarios.iter().all(|s| s.name.ends_with(added)));
}

#[test]
fn what_is_wrong_with_a_name_and_its_support_is_told_at_once() {
    let typed =
        "prob+defendr:german-machin-gun-section+attacker,first-tanks+attacker:us-rifle-company";
    let parts = [
        "no scenario called `prob`: did you mean `probe`?",
        "did you mean `defender`?",
        "did you mean `german-machine-gun-section`?",
        "write `+SIDE:LIST`",
        "it is several groups; add one of each of: us-company-headquarters, us-rifle-platoon",
    ];
    ruleshift(["compare", "no-late-fire", "--scenario", typed]).fails(INPUT, &parts);
    let house = "village-fight+defender:german-panther-platoon:2";
    let parts = [
        "scenario village-fight+defender:german-panther-platoon:2 cannot be played",
        "is in a building",
    ];
    ruleshift(["compare", "no-late-fire", "--scenario", house]).fails(INPUT, &parts);
}

/// A short run: every choice is played, a plan plays it again, and an answer is given.
#[test]
fn a_handicap_is_a_run_with_an_answer() {
    let run = Run::of(
        "handicap",
        "first-tanks --side defender --nation german --games 6 --quiet".split(' '),
    );
    assert_eq!((run.done.code, run.done.err.as_str()), (0, ""));
    let summary: HandicapSummary = serde_json::from_str(&run.text("summary.json")).unwrap();
    assert_eq!((summary.choices[0].adds.as_str(), summary.side), ("", Seat::Defender));
    assert!(summary.choices.iter().all(|choice| choice.games == 6), "{:?}", summary.choices);
    let has = |part: &str| summary.choices.iter().any(|choice| choice.adds.contains(part));
    assert!(has("defender:break-point:") && has("-anti-tank-") && !has("attacker:"));
    let plan = run.path("plan.ron");
    let again = Run::of("run", [plan.to_str().unwrap(), "--quiet"]);
    assert_eq!((again.done.code, again.done.err.as_str()), (0, ""));
    for file in ["games.parquet", "summary.json", "report.md"] {
        assert!(again.bytes(file) == run.bytes(file), "{file}");
    }
    let verified = &run.tickets()[run.tickets().len() - 1];
    ruleshift(["replay", verified, "--verify"]).fine();
}

/// 400 games each on fixed seeds: the standard error of a difference is 3.5 points at most, and 10
/// points are asked for.
#[test]
fn a_higher_break_point_helps_its_side() {
    let run = Run::of(
        "handicap",
        "first-evening --side defender --nation german --games 400 --quiet".split(' '),
    );
    assert_eq!((run.done.code, run.done.err.as_str()), (0, ""));
    let summary: HandicapSummary = serde_json::from_str(&run.text("summary.json")).unwrap();
    let share =
        |adds: &str| summary.choices.iter().find(|c| c.adds == adds).and_then(|c| c.share).unwrap();
    let (plain, more) = (share(""), share("defender:break-point:62"));
    assert!(more < plain - 0.1, "{plain} and {more}");
    assert!(share("defender:german-panther-platoon") < plain - 0.1);
}

#[test]
fn forces_that_tell_no_nation_get_break_points_alone() {
    let typed = ["first-evening", "--side", "defender", "--games", "1"];
    let run = Run::of("handicap", typed);
    assert_eq!(run.done.code, 0, "{}", run.done.err);
    assert!(run.done.err.contains("`--nation german`"), "{}", run.done.err);
    let summary: HandicapSummary = serde_json::from_str(&run.text("summary.json")).unwrap();
    let points = |c: &&ruleshift_record::HandicapChoice| c.adds.contains("break-point:");
    assert!(summary.choices.len() > 5);
    assert_eq!(summary.choices.iter().filter(points).count() + 1, summary.choices.len());
}

#[test]
fn what_is_typed_wrongly_for_a_handicap_is_told_at_once() {
    let parts = ["`prob`: did you mean `probe`?", "`stedy`", "`no-lat-fire`"];
    let typed =
        ["handicap", "prob", "--side", "defender", "--attacker", "stedy", "--rules", "no-lat-fire"];
    ruleshift(typed).fails(INPUT, &parts);
    let typed = ["handicap", "first-evening", "--side", "defender", "--nation", "germn"];
    ruleshift(typed).fails(INPUT, &["no nation called `germn`; did you mean `german`?"]);
}
