//! However a plan is cut, and in whatever order its parts are played.

use std::fs;

use super::{Parts, listed};
use crate::support::ruleshift;

#[test]
fn any_number_of_shards_in_any_order_gives_the_same_run() {
    for (n, step, threads) in [(1, 1, "8"), (3, 2, "1"), (37, 11, "2")] {
        let parts = Parts::new();
        // Multiples of a number that shares no divisor with n come to every part once.
        for k in (0..n).map(|k| (k * step) % n) {
            let part = format!("{k}/{n}");
            let done =
                parts.shard_command(&part, &["--quiet", "--threads", threads]).output().unwrap();
            assert!(
                done.status.success() && done.stdout.is_empty() && done.stderr.is_empty(),
                "{done:?}"
            );
        }
        assert_eq!(parts.files().len(), n.min(32));
        parts.come_to_the_whole();
    }
}

#[test]
fn parts_of_several_folders_come_together() {
    let (one, other) = (Parts::new(), Parts::new());
    one.shard("0/2").fine();
    other.shard("1/2").fine();
    // One part is in both.
    other.shard("0/2").fine();
    let from = other.out.to_str().unwrap();
    assert_eq!(one.on("missing", &[from]).fine().out, "");
    one.on("merge", &[from, "--quiet"]).fine();
    one.on("clean", &[]).fine();
    super::same(&one.whole.run(), &one.out);
}

/// A part that is there is not played again; what is missing can be played by other cuts.
#[test]
fn what_is_missing_is_listed_and_played() {
    let parts = Parts::new();
    let plan = parts.whole.plan();
    let missing = |more: &[&str]| parts.on("missing", more).fine().out;
    let none = parts.on("missing", &["--plan", plan.to_str().unwrap()]).fine().out;
    assert_eq!(none, "0..32\n", "nothing is played");
    for k in [1, 2, 5] {
        assert!(parts.shard(&format!("{k}/6")).fine().out.contains(" is played\n"));
    }
    assert!(parts.shard("001/6").fine().out.contains(" is there already\n"));
    assert_eq!(missing(&[]), "0..5\n16..26\n");
    assert_eq!(missing(&["--of", "6"]), "0/6\n3/6\n4/6\n");
    assert_eq!(missing(&["--of", "6", "--format", "slurm"]), "0,3-4\n");
    assert_eq!(missing(&["--of", "12", "--format", "parallel"]), "0\n1\n6\n7\n8\n9\n");
    parts.on("missing", &["--of", "7"]).fails(5, &["of part 1/7", "leave out --of"]);
    parts.shard("0..5").fine();
    parts.shard("16..26").fine();
    assert_eq!(missing(&[]), "");
    parts.come_to_the_whole();
}

#[test]
fn more_parts_than_blocks_are_no_fault() {
    let parts = Parts::new();
    let told = parts.shard("0/1000").fine().out;
    assert!(told.contains("more parts than blocks"), "{told}");
    assert_eq!(parts.files(), listed(&parts.out.join("shards")), "no file of any kind");
}

/// A run that was begun on one machine can be finished by shards.
#[test]
fn a_merge_goes_on_from_games_that_are_kept() {
    let parts = Parts::new();
    parts.shards(4);
    fs::copy(parts.whole.run().join("plan.ron"), parts.out.join("plan.ron")).unwrap();
    fs::write(parts.out.join("games.part"), b"").unwrap();
    parts.come_to_the_whole();
    let again = parts.merge().fine().out;
    assert!(again.contains("is finished"), "{again}");
}

/// An arm that stops in one shard has been played on in others: that shows nowhere.
#[test]
fn an_arm_that_stops_stops_at_the_same_game() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let body = "fn about() { #{ title: \"Faulty\", summary: \"It fails.\" } }\n\
                fn on_turn_end(game, turn) { if turn == 3 && game.roll() == 6 && game.roll() == 6 \
                { game.add_pins(95, 1); } }";
    fs::write(path("faulty.rhai"), body).unwrap();
    let (rule, plan) = (path("faulty.rhai"), path("plan.ron"));
    let words =
        ["compare", &rule, "--scenario", "first-evening", "--games", "900", "--plan-only", &plan];
    ruleshift(words).fine();
    let whole = ruleshift(["run", &plan, "--quiet", "--out", &path("whole")]);
    assert_eq!(whole.code, 1, "{}", whole.err);
    for k in 0..5 {
        ruleshift(["shard", &format!("{k}/5"), "--plan", &plan, "--out", &path("run")]).fine();
    }
    let merged = ruleshift(["merge", &path("run"), "--quiet"]);
    assert_eq!((merged.code, merged.err), (1, whole.err));
    ruleshift(["clean", &path("run")]).fine();
    super::same(&folder.path().join("whole"), &folder.path().join("run"));
}
