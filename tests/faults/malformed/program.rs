//! Damaged inputs through the program: files and arguments as they come, bytes that are no text among
//! them.

use std::ffi::OsString;
use std::fs;

use ruleshift_record::Plan;
use tempfile::tempdir;

use super::damage::{Draws, damaged};
use super::readers::{files, plans, tickets, timings};
use super::{bounded, helps, times};
use crate::support::ruleshift_in;

/// Inputs of each kind.
const EACH: u32 = 40;
/// More games than this are not played here: a number made huge may be sound.
const GAMES: u64 = 1_000;

/// Runs the program on the damaged input, as the file `damaged.ENDING` of an empty folder where the
/// arguments name it, or as their last.
fn feed(ending: Option<&str>, sound: &[String], args: &str) {
    let mut refused = 0;
    for input in 0..times(EACH) {
        let mut draws = Draws::new(args.len() as u64, input);
        let bytes = damaged(sound[draws.below(sound.len())].as_bytes(), &mut draws);
        let long = |text: &str| Plan::from_ron(text).is_ok_and(|plan| plan.games() > GAMES);
        if std::str::from_utf8(&bytes).is_ok_and(long) || ending.is_none() && bytes.contains(&0) {
            continue;
        }
        let folder = tempdir().unwrap();
        let file = ending.map(|ending| folder.path().join(format!("damaged.{ending}")));
        file.iter().for_each(|file| fs::write(file, &bytes).unwrap());
        let mut all: Vec<OsString> = args.split(' ').map(OsString::from).collect();
        if ending.is_none() {
            all.push(argument(&bytes));
        }
        let what = format!("{args} {input}:\n{}", String::from_utf8_lossy(&bytes));
        let at = folder.path().to_owned();
        let done = bounded(&what, move || ruleshift_in(&at, all));
        assert!((0..=3).contains(&done.code), "{}: {what}", done.code);
        assert!(
            done.code == 0 || helps(&done.err) || done.err.contains("UTF-8"),
            "{}\n{what}",
            done.err
        );
        let kept = file.is_none_or(|file| fs::read(file).unwrap() == bytes);
        assert!(kept, "it is written over: {what}");
        assert!(done.code < 2 || !folder.path().join("run").exists(), "a folder is left: {what}");
        refused += u32::from(done.code != 0);
    }
    assert!(refused > times(EACH) / 3, "{refused} refused: the damage does not do its work");
}

#[cfg(unix)]
fn argument(bytes: &[u8]) -> OsString {
    std::os::unix::ffi::OsStringExt::from_vec(bytes.iter().copied().take(100_000).collect())
}

#[cfg(not(unix))]
fn argument(bytes: &[u8]) -> OsString {
    String::from_utf8_lossy(bytes).into_owned().into()
}

const COMPARE: &str = "compare base --games 1 --out run --quiet";

#[test]
fn scripts_are_checked() {
    feed(Some("rhai"), &files("variants/", ".rhai"), "check --no-games damaged.rhai");
}

#[test]
fn scenarios_are_played() {
    let sound = files("engine/scenarios/files/", ".ron");
    feed(Some("ron"), &sound, &format!("{COMPARE} --scenario damaged.ron"));
}

#[test]
fn doctrines_play() {
    let sound = files("engine/players/doctrines/", ".ron");
    let args = format!("{COMPARE} --scenario first-evening --attacker damaged.ron");
    feed(Some("ron"), &sound, &args);
}

#[test]
fn timing_tables_are_taken() {
    let args = format!("{COMPARE} --scenario first-evening --timing damaged.ron");
    feed(Some("ron"), &timings(), &args);
}

#[test]
fn plans_are_run() {
    feed(Some("ron"), &plans(), "run damaged.ron --out run --quiet");
}

#[test]
fn tickets_are_replayed() {
    feed(None, &tickets(), "replay --verify --");
}
