//! A run stopped by hand keeps what it has played. The signal is that of Unix.
#![cfg(unix)]

use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use ruleshift_record::{GameRow, Plan, read_games};

use super::{CHECK, script};
use crate::support::{Run, repository};

/// Looks at the folder, 20 ms apart, before the test gives up.
const LOOKS: u32 = 3_000;

/// A run of many games into `out`, interrupted while it plays: what it said.
fn interrupted(variants: &[&str], out: &Path) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
    command.arg("compare").args(variants).args(["--games", "10000000", "--threads", "2"]);
    command.args(["--quiet", "--out"]).arg(out).current_dir(repository::root());
    let child = command.stderr(Stdio::piped()).spawn().unwrap();
    let begun = (0..LOOKS).any(|_| {
        sleep(Duration::from_millis(20));
        out.join("plan.ron").exists()
    });
    assert!(begun, "the run does not begin");
    sleep(Duration::from_secs(2));
    let signal = Command::new("kill").args(["-INT", &child.id().to_string()]).status();
    assert!(signal.unwrap().success());
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(CHECK), "{said}");
    said
}

fn games(out: &Path) -> Vec<GameRow> {
    let plan = Plan::from_ron(&std::fs::read_to_string(out.join("plan.ron")).unwrap()).unwrap();
    let games = std::fs::File::open(out.join("games.parquet")).unwrap();
    read_games(&plan, games).unwrap()
}

#[test]
fn what_was_played_before_an_interrupt_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("run");
    let said = interrupted(&["no-late-fire"], &out);
    let games = games(&out);
    let told = format!("interrupted: {} of 20000000 games", games.len());
    assert!(said.contains(&told), "{said}");
    same_as_an_undisturbed_run(&games);
    for name in ["summary.json", "report.md", "report.html"] {
        assert!(out.join(name).exists(), "{name}");
    }
}

#[test]
fn an_arm_that_stopped_before_an_interrupt_is_told_too() {
    let folder = tempfile::tempdir().unwrap();
    let body = "fn on_turn_end(game, turn) { if turn == 3 { game.add_pins(95, 1); } }";
    let path = script(folder.path(), "faulty.rhai", body);
    let said = interrupted(&[&path], &folder.path().join("run"));
    for part in ["interrupted: ", "faulty.rhai` stopped after", "ticket: rs"] {
        assert!(said.contains(part), "{part} is not in:\n{said}");
    }
}

/// Whole pairs of games, each as it is without an interrupt.
fn same_as_an_undisturbed_run(games: &[GameRow]) {
    let arm = |arm| games.iter().filter(move |game| game.arm == arm);
    let key = |game: &GameRow| (game.scenario, game.game, game.seed);
    assert!(arm(0).map(key).eq(arm(1).map(key)), "both arms have the same games");
    assert!(arm(0).count() >= 64, "{} games", arm(0).count());
    let short = Run::fine("no-late-fire --games 128");
    for game in short.games() {
        let same = |other: &&GameRow| other.arm == game.arm && key(other) == key(&game);
        let kept = games.iter().find(same);
        assert!(kept.is_none_or(|kept| *kept == game), "game {} differs", game.game);
    }
    assert!(games.iter().any(|game| game.game == 0), "the first games are among them");
}
