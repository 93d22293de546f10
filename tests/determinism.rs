//! The same run, whatever it is played on; and any game of it again from its ticket.

use crate::support::{Run, ruleshift};

/// An arm for each kind of rule: values, options, event hooks, a stack.
const ARMS: &str = "three-marker-actions two-turn-end-cards:cards=3 steady-nerves forced-march+kinder-pin-recovery";

/// What a run of those arms writes.
const FILES: [&str; 9] = [
    "plan.ron",
    "games.parquet",
    "summary.json",
    "report.md",
    "report.html",
    "vote-three-marker-actions.html",
    "vote-two-turn-end-cards-cards=3.html",
    "vote-steady-nerves.html",
    "vote-forced-march+kinder-pin-recovery.html",
];

#[test]
fn threads_do_not_change_a_byte() {
    let run = |threads: &str| Run::fine(&format!("{ARMS} --games 300 --threads {threads}"));
    let one = run("1");
    for threads in ["2", "8"] {
        let other = run(threads);
        for name in FILES {
            assert!(one.bytes(name) == other.bytes(name), "{name} differs on {threads} threads");
        }
    }
}

#[test]
fn a_run_played_twice_is_the_same_run() {
    let run = || Run::fine(&format!("{ARMS} --games 60 --attacker bold --seed 99"));
    let (one, two) = (run(), run());
    for name in FILES {
        assert!(one.bytes(name) == two.bytes(name), "{name} differs");
    }
}

/// Games do not depend on how many are played after them.
#[test]
fn a_longer_run_begins_with_the_shorter_one() {
    let games = |n: u32| Run::fine(&format!("steady-nerves --games {n} --scenario hasty-attack"));
    let (short, long) = (games(10), games(150));
    for arm in [0, 1] {
        assert_eq!(short.arm(arm), long.arm(arm)[..10]);
    }
}

#[test]
fn every_ticket_comes_back() {
    let run = Run::fine(&format!("{ARMS} --games 4"));
    let tickets = run.tickets();
    assert_eq!(tickets.len(), 5 * 4, "every arm in both scenarios");
    for ticket in tickets {
        let done = ruleshift(["replay", &ticket, "--verify"]).fine();
        let digest = ticket.rsplit('~').next().unwrap();
        assert_eq!(done.out, format!("The game is the one of the ticket: digest {digest}.\n"));
    }
}

#[test]
fn tickets_of_the_screen_and_of_the_reports_come_back() {
    let run = Run::start("two-turn-end-cards --games 40");
    let here = format!("rs{}~", ruleshift_game::RULES_VERSION);
    let named = |text: &str| {
        let words = text.split(|c: char| c.is_whitespace() || "`\"<>&()|".contains(c));
        words.filter(|word| word.starts_with(&here)).map(str::to_owned).collect::<Vec<_>>()
    };
    for text in [run.done.out.clone(), run.text("report.md"), run.text("report.html")] {
        let tickets = named(&text);
        assert!(!tickets.is_empty());
        for ticket in tickets {
            ruleshift(["replay", &ticket, "--verify"]).fine();
        }
    }
}

/// A script and a scenario of the user's own are found again by their paths.
#[test]
fn tickets_of_files_come_back() {
    let scenario = "engine/scenarios/files/hasty-attack.ron";
    let run =
        Run::fine(&format!("variants/steady-nerves/rules.rhai --games 3 --scenario {scenario}"));
    for ticket in run.tickets() {
        ruleshift(["replay", &ticket, "--verify"]).fine();
    }
}

#[test]
fn a_story_is_told_the_same_way_each_time() {
    let run = Run::fine("steady-nerves --games 2 --scenario hasty-attack");
    let ticket = &run.tickets()[2];
    let story = ruleshift(["replay", ticket]).fine().out;
    for part in ["Hasty attack", "Turn 1:", "Card:", "margin", "Objectives: *"] {
        assert!(story.contains(part), "{part}");
    }
    assert_eq!(story, ruleshift(["replay", ticket]).fine().out);
    let short = ruleshift(["replay", ticket, "--no-board"]).fine().out;
    assert!(short.len() < story.len() && !short.contains("Objectives: *"));
}
