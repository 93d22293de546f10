//! Plans: what every command writes can be played again to the byte, and what people write is read
//! with all its faults at once.

use std::fs;
use std::path::Path;

use ruleshift_record::Plan;
use tempfile::tempdir;

use crate::support::{Run, ruleshift};

const INPUT: i32 = 2;

#[track_caller]
fn same_folders(one: &Run, other: &Run) {
    let names = |run: &Run| {
        let entries = fs::read_dir(run.path("")).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    };
    assert_eq!(names(one), names(other));
    for name in names(one) {
        assert!(one.bytes(&name) == other.bytes(&name), "{name} differs");
    }
}

/// The plan that a command wrote, played again.
#[track_caller]
fn again(run: &Run) -> Run {
    let mut again = Run::of("run", [run.path("").to_str().unwrap(), "--quiet"]);
    again.done = again.done.fine();
    again
}

#[test]
fn the_plan_of_a_comparison_plays_it_again_to_the_byte() {
    for args in [
        "no-late-fire two-turn-end-cards:cards=3+quick-feet --games 100 --seed 9",
        "no-late-fire no-late-fire --scenario generated:2,hasty-attack --games 90",
        "quick-feet --players bold,steady:without=rally --games 64 --metric minutes,turns",
        "base --base no-late-fire --restrict attacker=rally --importance=orders --games 80",
    ] {
        let run = Run::fine(args);
        // As the report says.
        assert!(
            run.text("report.md").contains("“ruleshift run FOLDER” plays the same games again")
        );
        same_folders(&run, &again(&run));
    }
}

#[test]
fn the_plan_of_a_ladder_plays_it_again_to_the_byte() {
    let run = Run::of("ladder", ["steady", "bold", "--games", "16", "--quiet"]);
    same_folders(&run, &again(&run));
}

fn played(text: &str) -> Run {
    let folder = tempdir().unwrap();
    let path = folder.path().join("plan.ron");
    fs::write(&path, text).unwrap();
    Run::of("run", [path.to_str().unwrap(), "--quiet"])
}

/// What is not said in a plan is as it is on the command line.
#[test]
fn a_plan_by_hand_is_the_command_with_the_same_words() {
    let by_hand = played(
        r#"Plan(
            arms: ["base", "no-late-fire", "two-turn-end-cards:cards=3"],
            scenarios: ["first-evening", "probe"],
            pairings: [Pairing(attacker: "bold", defender: "steady")],
            games_per_arm: 60,
            seed: 5,
        )"#,
    );
    let typed = Run::fine(
        "no-late-fire two-turn-end-cards:cards=3 --scenario first-evening,probe --attacker bold \
         --games 60 --seed 5",
    );
    same_folders(&by_hand, &typed);
    let mixed = played(r#"(arms: ["base", "quick-feet"], roster: ["mixed"], games_per_arm: 75)"#);
    same_folders(&mixed, &Run::fine("quick-feet --players mixed --games 75"));
}

#[test]
fn all_faults_of_a_plan_are_told_at_once() {
    let wrong = played(
        r#"Plan(
            rules: 1,
            arms: ["base", "no-late-fir"],
            scenarios: ["hasty-attak"],
            pairings: [Pairing(attacker: "stedy", defender: "steady")],
            games_per_arm: 0,
            headline: ["minuts"],
            notice: { "turns": -1.0 },
        )"#,
    );
    let said = [
        "plan.ron cannot be played:",
        "rules version 1",
        "games_per_arm is 0",
        "`minutes`",
        "notice of turns is -1",
        "`no-late-fire`",
        "`hasty-attack`",
        "`steady`",
    ];
    wrong.done.fails(INPUT, &said);
    let form = played("Plan(\n  arms: [\"base\"],\n  sede: 4,\n)");
    form.done.fails(INPUT, &["line 3:", "`seed`"]);
}

/// A script that has changed would play another game: the plan says so, unless it has no digest.
#[test]
fn a_changed_script_is_refused_by_the_plan() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("mine.rhai");
    let script = |actions: u8| {
        let text = format!(
            "fn about() {{ #{{ title: \"Mine\", summary: \"S.\" }} }}\n\
             fn marker_actions(now) {{ {actions} }}\n"
        );
        fs::write(&path, text).unwrap();
    };
    script(3);
    let run = Run::fine(&format!("{} --games 20", path.display()));
    script(2);
    let changed = Run::of("run", [run.path("plan.ron").to_str().unwrap()]);
    changed.done.fails(INPUT, &["variant", "mine.rhai has changed since the plan was written"]);
    let plan = run.plan();
    let digest = plan.arms[1].stack[0].digest.clone();
    let mut loose = played(&plan.to_ron().replace(&digest, ""));
    loose.done = loose.done.fine();
    assert_ne!(loose.plan().arms[1].stack[0].digest, digest);
    assert_ne!(loose.games(), run.games());
}

#[test]
fn a_plan_that_is_not_there_is_told_by_name() {
    let missing = ruleshift(["run", "nowhere.ron"]);
    missing.fails(3, &["nowhere.ron cannot be read"]);
    assert!(!Path::new("runs/nowhere").exists());
    assert!(Plan::from_ron("").is_err());
}
