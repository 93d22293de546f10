//! Everything that is printed for readers fits eighty columns where there is no terminal to ask; only
//! a line with a ticket may be longer, for it is copied whole.

use tempfile::TempDir;

use crate::support::{Done, Run, ruleshift};

const COLUMNS: usize = 80;

/// Asserts that no line of either stream is too long.
#[track_caller]
fn fits(what: &str, done: &Done) {
    for line in done.out.lines().chain(done.err.lines()) {
        let ticket = line.split_whitespace().any(|word| word.starts_with("rs3~"));
        let columns = line.chars().count();
        assert!(columns <= COLUMNS || ticket, "{what}: {columns} columns:\n{line}");
    }
}

/// Runs a command and asserts that it says something that fits.
#[track_caller]
fn said(args: &str) {
    let done = ruleshift(args.split_whitespace());
    assert!(!(done.out.is_empty() && done.err.is_empty()), "{args}");
    fits(args, &done);
}

/// A run into a folder of a short name, told in full.
fn run(folder: &TempDir, n: usize, args: &str) {
    let out = folder.path().join(n.to_string());
    let out = out.to_str().unwrap();
    let done = ruleshift(args.split_whitespace().chain(["--out", out]));
    assert_eq!(done.code, 0, "{args}: {}", done.err);
    assert!(done.out.lines().count() > 10, "{args}:\n{}", done.out);
    fits(args, &done);
}

#[test]
fn reports_fit_eighty_columns() {
    let folder = tempfile::tempdir().unwrap();
    let six = "no-late-fire two-turn-end-cards kinder-pin-recovery quick-feet steady-nerves \
               attacker-has-the-initiative";
    let variants: Vec<&str> = six.split_whitespace().collect();
    let compared = [1, 2, 3, 6].map(|n| format!("compare {} --games 16", variants[..n].join(" ")));
    let stacks = "attacker-has-the-initiative+tougher-sides+no-late-fire \
                  ammunition-shortage+points-for-taking+command-post";
    let others = [
        format!("compare {stacks} --players steady bold --importance=orders,rally --games 16"),
        "compare no-late-fire --until clear --games 16".to_owned(),
        "sweep two-turn-end-cards:cards=1..4 --games 16".to_owned(),
        "sweep two-turn-end-cards:cards=1..3 tougher-sides:more=0..20/10 --target minutes=150 \
         --games 16"
            .to_owned(),
        format!("cross {} --fraction half --games 16", variants[..5].join(" ")),
        "tune tougher-sides:more=-20..40/10 --target attacker_wins=50% --games 16".to_owned(),
        "ladder steady bold chance --scenario first-evening --games 8".to_owned(),
        "handicap prepared-position --games 4 --side defender".to_owned(),
        "hunt attacker-has-the-initiative --games 8 --budget 4 --judge 8".to_owned(),
    ];
    for (n, args) in compared.iter().chain(&others).enumerate() {
        run(&folder, n, args);
    }
}

#[test]
fn help_and_lists_fit_eighty_columns() {
    said("--help");
    let commands = "compare handicap hunt ladder sweep cross tune run resume replay check explain list \
                    odds new";
    for command in commands.split_whitespace() {
        said(&format!("{command} --help"));
    }
    for what in ["script", "scenario", "timing", "completions", "manual"] {
        said(&format!("new {what} --help"));
    }
    for what in ["", "variants", "scenarios", "players", "hooks", "metrics", "forces", "missions"] {
        said(&format!("list {what}"));
    }
    said("explain");
    let listed = ruleshift(["explain"]).fine().out;
    let ids =
        listed.lines().skip(1).filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let ids: Vec<&str> = ids.filter_map(|line| line.split_whitespace().next()).collect();
    assert!(ids.len() > 20, "{ids:?}");
    ids.iter().for_each(|id| said(&format!("explain {id}")));
}

#[test]
fn findings_chances_and_games_fit_eighty_columns() {
    said("check two-turn-end-cards:cards=3 attacker-has-the-initiative+steady-nerves runner");
    said("check variants/kinder-pin-recovery/rules.rhai");
    said("odds two-turn-end-cards --cards 6 10 20");
    said("odds sharp-eyes --topic spotting fire --cover light hard");
    said(
        "odds no-late-fire attacker-has-the-initiative --topic deck spotting fire movement assault",
    );
    let run = Run::fine("morning-mist+runner --games 8");
    for ticket in run.tickets() {
        said(&format!("replay {ticket}"));
        said(&format!("replay {ticket} --brief"));
        said(&format!("replay {ticket} --no-board --why"));
    }
}

/// Pictures of scripts keep the lines of the script, and are left out.
#[test]
fn what_is_said_of_slips_fits_eighty_columns() {
    for args in [
        "",
        "compare",
        "compare two-turn-end-card no-late-fires",
        "compare base:cards=3 --attacker boldd --scenario nowhere --metric wins --notice minutes=x",
        "compare two-turn-end-cards:card=3 attacker-has-the-initiative:more=900",
        "compare no-late-fire --scenario generated:none+defender:german-machine-gun-sections",
        "compare no-late-fire --restrict defender=orderz --players boldest",
        "sweep two-turn-end-cards:cards=9..1",
        "tune tougher-sides:more=-20..40/10 --target attacker_wins",
        "hunt no-such-rule --side both",
        "odds no-late-fire --topic fires",
        "explain unknown-hooks",
        "run no-such-plan.ron",
        "resume no-such-folder",
        "replay no-ticket",
        "replay no-ticket --brief --why",
        "new scenario --mission parade",
        "list everything",
    ] {
        let done = ruleshift(args.split_whitespace());
        assert_ne!(done.code, 0, "{args}");
        fits(args, &done);
    }
}

/// A short run says nothing on standard error where there is no terminal, and no control codes come
/// into a pipe.
#[test]
fn pipes_get_neither_codes_nor_progress_of_a_short_run() {
    let run = Run::start("no-late-fire --games 40 --scenario first-evening");
    assert_eq!(run.done.err, "");
    assert!(!run.done.out.contains('\u{1b}'));
    let story = ruleshift(["replay", &run.tickets()[0]]).fine().out;
    assert!(!story.contains('\u{1b}') && story.contains("    +----"));
    assert_eq!(story.matches("Objectives: *").count(), 1, "the legend is printed once");
}
