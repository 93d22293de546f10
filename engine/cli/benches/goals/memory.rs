//! The memory of a run of the program, short and long.

use std::fs;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use crate::row::{Row, thousands, verdict};

/// Games in each of two arms.
const GAMES: [u32; 2] = [5_000, 50_000];
/// Mebibytes that the longer run may take.
const MOST: f64 = 200.0;
/// Times the memory of the shorter run that is flat, for ten times the games.
const FLAT: f64 = 2.0;

pub(crate) fn row() -> Row {
    let (what, goal) = ("100,000 games, memory", "flat, <= 200 MiB");
    let [few, many] = GAMES.map(peak);
    let how = format!(
        "most memory of the program (VmHWM, looked up every 5 ms) while it compares two turn-end cards with the base rules, {} and {} games in each of the two arms, report and all",
        thousands(GAMES[0].into()),
        thousands(GAMES[1].into())
    );
    let (Some(few), Some(many)) = (few, many) else {
        let verdict = "not measured: needs /proc".to_owned();
        return Row { what, goal, measured: "-".to_owned(), verdict, how };
    };
    let measured = format!("{few:.1} MiB, then {many:.1} MiB");
    Row { what, goal, measured, verdict: verdict(many <= MOST && many <= FLAT * few), how }
}

/// Mebibytes that a run of the program takes at most.
fn peak(games: u32) -> Option<f64> {
    let folder = concat!(env!("CARGO_TARGET_TMPDIR"), "/memory");
    let _ = fs::remove_dir_all(folder);
    let mut program = Command::new(env!("CARGO_BIN_EXE_ruleshift"));
    program.args(["compare", "two-turn-end-cards", "--scenario", "hasty-attack", "--out", folder]);
    program.args(["--games", &games.to_string()]);
    let mut run = program.stdout(Stdio::null()).stderr(Stdio::null()).spawn().ok()?;
    let mut most = None;
    while run.try_wait().ok()?.is_none() {
        // It goes away when the program ends; until then it only rises.
        most = held(run.id()).or(most);
        thread::sleep(Duration::from_millis(5));
    }
    let fine = run.wait().ok()?.success();
    let _ = fs::remove_dir_all(folder);
    assert!(fine, "the run of the bench failed");
    most
}

/// Mebibytes that a process has held at most until now.
fn held(process: u32) -> Option<f64> {
    let status = fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().strip_suffix("kB")?.trim().parse::<f64>().ok()? / 1024.0)
}
