//! Killed at random moments, two hundred times, and always resumed to the same bytes.

use std::process::{Child, Command};
use std::thread::sleep;
use std::time::Duration;

use ruleshift_game::luck::game_seed;

use super::{Parts, same};

/// Kills of each command in the usual run; more by the variable, as DEVELOPERS.md tells.
fn kills(usual: u32) -> u32 {
    let times = std::env::var("RULESHIFT_KILLS").ok().and_then(|times| times.parse::<u32>().ok());
    usual * times.unwrap_or(1)
}

/// Starts a command again and again and kills it after a time drawn from up to `most` ms; how often it was
/// there to be killed. The kills are those of nobody's luck: a table of fixed draws.
fn killed(times: u32, most: u64, seed: u64, mut command: impl FnMut() -> Command) -> u32 {
    let mut found = 0;
    for n in 0..times {
        let mut child: Child = command().spawn().unwrap();
        sleep(Duration::from_micros(game_seed(seed, 0, n) % (most * 1000)));
        child.kill().unwrap();
        // A process that was killed has no code; one that had ended has.
        found += u32::from(child.wait().unwrap().code().is_none());
    }
    found
}

#[test]
fn a_run_is_killed_seventy_times() {
    let parts = Parts::new();
    let (plan, out) = (parts.whole.plan(), parts.out.to_str().unwrap().to_owned());
    let begin = || parts.command(&["run", plan.to_str().unwrap(), "--quiet", "--out", &out]);
    let resume = || parts.command(&["resume", &out, "--quiet"]);
    let found = killed(kills(70), 200, 1, || {
        if parts.out.join("plan.ron").exists() { resume() } else { begin() }
    });
    assert!(found >= kills(60), "{found} were killed before their end");
    assert!(resume().status().unwrap().success());
    same(&parts.whole.run(), &parts.out);
}

#[test]
fn a_shard_is_killed_seventy_times() {
    let parts = Parts::new();
    let shard = || parts.shard_command("1/3", &["--quiet"]);
    let found = killed(kills(70), 500, 2, shard);
    assert!(found >= kills(30), "{found} were killed before their end");
    parts.shards(3);
    assert_eq!(parts.files().len(), 3);
    parts.come_to_the_whole();
}

#[test]
fn a_merge_is_killed_seventy_times() {
    let parts = Parts::new();
    parts.shards(5);
    let merge = || parts.command(&["merge", parts.out.to_str().unwrap(), "--quiet"]);
    let found = killed(kills(70), 300, 3, merge);
    assert!(found >= kills(30), "{found} were killed before their end");
    parts.come_to_the_whole();
}
