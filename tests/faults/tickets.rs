//! Tickets that are damaged, or of something that has changed since.

use std::path::Path;

use super::{CHECK, FILE, INPUT, script};
use crate::support::{Run, ruleshift};

fn ticket(args: &str, game: usize) -> String {
    Run::fine(&format!("{args} --scenario hasty-attack")).tickets().swap_remove(game)
}

fn verify(ticket: &str) -> crate::support::Done {
    ruleshift(["replay", ticket, "--verify"])
}

/// The ticket with its n-th part replaced.
fn with_part(ticket: &str, n: usize, part: &str) -> String {
    let mut parts: Vec<&str> = ticket.split('~').collect();
    parts[n] = part;
    parts.join("~")
}

#[test]
fn a_text_that_is_no_ticket_is_told_why() {
    let ticket = ticket("base --games 1", 0);
    verify("nonsense").fails(INPUT, &["this is no ticket", "7 parts", "has 1"]);
    verify(&ticket[..ticket.len() - 1]).fails(INPUT, &["digest of the events", "16 hexadecimal"]);
    verify(&with_part(&ticket, 0, "xx1")).fails(INPUT, &["starts with `rs`"]);
    verify(&with_part(&ticket, 1, "hasty-attack")).fails(INPUT, &["lacks its `@`"]);
    verify(&with_part(&ticket, 1, "hasty-atack@00000000")).fails(INPUT, &["`hasty-attack`?"]);
    verify(&with_part(&ticket, 2, "no-late-fir@00000000")).fails(INPUT, &["`no-late-fire`?"]);
    verify(&with_part(&ticket, 3, "steddy")).fails(INPUT, &["`steady`?"]);
    verify(&with_part(&ticket, 1, "gone.ron@00000000")).fails(FILE, &["gone.ron"]);
}

#[test]
fn an_altered_digest_or_seed_is_told_with_both_digests() {
    let ticket = ticket("base --games 1", 0);
    let digest = ticket.rsplit('~').next().unwrap().to_owned();
    let altered = with_part(&ticket, 6, "0123456789abcdef");
    let parts = ["0123456789abcdef", digest.as_str(), "the ticket is damaged"];
    verify(&altered).fails(CHECK, &parts);
    let told = ruleshift(["replay", &altered, "--no-board"]).fails(CHECK, &parts);
    assert!(told.out.contains("Turn 1:"), "the story is told all the same");
    verify(&with_part(&ticket, 5, "0000000000000007")).fails(CHECK, &[&digest]);
}

#[test]
fn another_version_of_the_rules_is_told() {
    let ticket = ticket("base --games 1", 0);
    let old = with_part(&with_part(&ticket, 0, "rs9999"), 6, "0123456789abcdef");
    verify(&old).fails(CHECK, &["the ticket is of rules version 9999", "this program has"]);
}

#[test]
fn a_changed_script_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = script(folder.path(), "mine.rhai", "fn marker_actions(now) { 3 }");
    let run = Run::fine(&format!("{path} --games 1 --scenario hasty-attack"));
    let ticket = run.tickets().swap_remove(1);
    verify(&ticket).fine();
    script(folder.path(), "mine.rhai", "fn marker_actions(now) { 2 }");
    verify(&ticket).fails(CHECK, &["mine.rhai` has changed since"]);
    let told = ruleshift(["replay", &ticket, "--no-board"]).fails(CHECK, &["this is not the game"]);
    assert!(told.err.starts_with("warning: the variant `"), "{}", told.err);
    std::fs::remove_file(&path).unwrap();
    verify(&ticket).fails(FILE, &["mine.rhai", "cannot be read"]);
}

/// The game may come out as it did under the old text.
#[test]
fn a_change_that_leaves_the_game_as_it_was_is_told_too() {
    let folder = tempfile::tempdir().unwrap();
    let path = script(folder.path(), "mine.rhai", "fn turn_limit(now, listed) { now }");
    let run = Run::fine(&format!("{path} --games 1 --scenario hasty-attack"));
    let ticket = run.tickets().swap_remove(1);
    let replay = |more: &str| ruleshift(["replay", &ticket, more]);
    replay("--no-board").fine();
    let other = "fn turn_limit(now, listed) { if listed == 30 { 29 } else { now } }";
    script(folder.path(), "mine.rhai", other);
    for done in [replay("--no-board"), replay("--verify")] {
        let told = "mine.rhai` has changed since the ticket was written";
        assert_eq!(done.code, 0, "{}", done.err);
        let said = done.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.starts_with("warning: ") && said.ends_with(told), "{said}");
    }
}

/// The new text plays on, so the replay itself must not be taken for the game.
#[test]
fn a_changed_scenario_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.ron");
    let sound = crate::support::repository::text("engine/scenarios/files/hasty-attack.ron");
    std::fs::write(&path, &sound).unwrap();
    let shown = path.to_string_lossy().into_owned();
    let ticket = Run::with(["base", "--games", "1", "--scenario", &shown]).tickets().swap_remove(0);
    verify(&ticket).fine();
    let shorter = |line: &str| {
        let turns = line.trim().starts_with("turns:");
        if turns { "turns: 2,".to_owned() } else { line.to_owned() }
    };
    let changed: Vec<String> = sound.lines().map(shorter).collect();
    std::fs::write(&path, changed.join("\n")).unwrap();
    verify(&ticket).fails(CHECK, &["mine.ron` has changed since"]);
}

/// Everything that differs is named, not only the first thing.
#[test]
fn all_that_differs_is_told_at_once() {
    let ticket = ticket("three-marker-actions --games 1", 1);
    let ticket = with_part(&ticket, 0, "rs9999");
    let ticket = with_part(&ticket, 1, "hasty-attack@00000000");
    let ticket = with_part(&ticket, 2, "three-marker-actions@00000000");
    let ticket = with_part(&ticket, 6, "0123456789abcdef");
    let parts = ["rules version 9999", "`hasty-attack` has changed", "`three-marker-actions` has"];
    verify(&ticket).fails(CHECK, &parts);
}

/// A relative path is looked up from where the program is run.
#[test]
fn a_ticket_names_files_as_they_were_typed() {
    let path = "variants/no-late-fire/rules.rhai";
    assert!(Path::new(&crate::support::repository::root().join(path)).exists());
    let ticket = ticket(&format!("{path} --games 1"), 1);
    assert!(ticket.contains(&format!("~{path}@")), "{ticket}");
}
