//! Killed at random moments, two hundred times, and always resumed to the same bytes.
#![allow(
    clippy::disallowed_types,
    reason = "when a process is killed is measured by what it takes"
)]

use std::process::Command;
use std::thread::sleep;
use std::time::{Duration, Instant};

use ruleshift_game::luck::game_seed;

use super::{Parts, same};

/// So many kills in the usual run; `RULESHIFT_KILLS` says how many times as many.
fn kills(usual: u32) -> u32 {
    let times = std::env::var("RULESHIFT_KILLS").ok().and_then(|times| times.parse::<u32>().ok());
    usual * times.unwrap_or(1)
}

/// How long a command takes when it is left alone.
fn undisturbed(mut command: Command) -> Duration {
    let begun = Instant::now();
    let output = command.output().unwrap();
    assert!(output.status.success(), "{output:?}");
    begun.elapsed()
}

/// Kills a command after the `n`-th of some drawn times, up to `most`; whether it was still there.
fn killed(mut command: Command, most: Duration, n: u32) -> bool {
    let mut child = command.spawn().unwrap();
    sleep(most.mul_f64((game_seed(1, 0, n) >> 32) as f64 / f64::from(u32::MAX)));
    child.kill().unwrap();
    // A process that was killed has no code; one that had ended has.
    child.wait().unwrap().code().is_none()
}

/// As many as that must have been killed before their end: else nothing was tried.
#[track_caller]
fn enough(found: u32, kills: u32) {
    assert!(found >= kills / 2, "{found} of {kills} were killed before their end");
}

/// Each life plays some of the games; when all are played, the next run begins.
#[test]
fn a_run_is_killed_again_and_again() {
    let (mut parts, mut found) = (Parts::new(), 0);
    let step = |parts: &Parts| {
        let out = parts.out.to_str().unwrap();
        let (plan, begun) = (parts.whole.plan(), parts.out.join("plan.ron").exists());
        let run = ["run", plan.to_str().unwrap(), "--quiet", "--threads", "1", "--out", out];
        let resume = ["resume", out, "--quiet", "--threads", "1"];
        if begun { parts.command(&resume) } else { parts.command(&run) }
    };
    let (most, kills) = (undisturbed(step(&Parts::new())) / 5, kills(100));
    for n in 0..kills {
        if parts.out.join("report.html").exists() && !parts.out.join("games.part").exists() {
            same(&parts.whole.run(), &parts.out);
            parts = Parts::new();
        }
        found += u32::from(killed(step(&parts), most, n));
    }
    enough(found, kills);
    undisturbed(step(&parts));
    same(&parts.whole.run(), &parts.out);
}

/// A shard that is killed has played nothing; what it leaves is in nobody's way.
#[test]
fn a_shard_is_killed_again_and_again() {
    let parts = Parts::new();
    let shard = |parts: &Parts| parts.shard_command("1/3", &["--quiet", "--threads", "1"]);
    let most = undisturbed(shard(&Parts::new()));
    let kills = kills(60);
    enough((0..kills).map(|n| u32::from(killed(shard(&parts), most, n))).sum(), kills);
    parts.shards(3);
    assert_eq!(parts.files().len(), 3);
    parts.come_to_the_whole();
}

/// Each life puts some of the shards together, and writes some of the files.
#[test]
fn a_merge_is_killed_again_and_again() {
    let (parts, free) = (Parts::new(), Parts::new());
    for parts in [&parts, &free] {
        parts.shards(3);
    }
    let merge = |parts: &Parts| parts.command(&["merge", parts.out.to_str().unwrap(), "--quiet"]);
    let most = undisturbed(merge(&free));
    // The end of a merge that is killed may have come; then all is done again but the shards.
    let killed = |n| {
        for name in ["report.html", "games.part"] {
            let _ = std::fs::remove_file(parts.out.join(name));
        }
        u32::from(killed(merge(&parts), most, n))
    };
    let kills = kills(40);
    enough((0..kills).map(killed).sum(), kills);
    parts.come_to_the_whole();
}
