//! Very many shards: what a merge takes. `RULESHIFT_SHARDS=10000` prints the figures of the planning page.
#![allow(clippy::disallowed_types, reason = "how long a merge takes is printed, not asserted")]

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use ruleshift_game::luck::game_seed;
use ruleshift_record::{GameRow, Keep, Plan, Played, Shard, ShardWriter, read_games};

use super::listed;
use crate::support::{repository, ruleshift};

/// Games of an arm in a block.
const BLOCK: u32 = 64;

/// Shards of the usual run; many more show what merging costs.
fn shards() -> u32 {
    std::env::var("RULESHIFT_SHARDS").ok().and_then(|number| number.parse().ok()).unwrap_or(30)
}

/// The games of a block that was played, as those of block number `n`: results of nobody's luck, but of the
/// right size and shape.
fn moved(plan: &Plan, played: &Played, n: u32) -> Played {
    let row = |row: &GameRow| {
        let game = row.game + n * BLOCK;
        let seed = game_seed(plan.seed, 0, game);
        GameRow { game, seed, digest: row.digest ^ u64::from(n), ..row.clone() }
    };
    Played { games: played.games.iter().map(row).collect(), faults: vec![] }
}

/// A shard for each block, all but the first made up from it.
fn made_up(plan: &Plan, shards: &Path, number: u32) {
    let first =
        &listed(shards).into_iter().find(|file| file.extension().unwrap() == "parquet").unwrap();
    let mut played = Played::default();
    let shard = Shard::open(File::open(first).unwrap()).unwrap();
    shard
        .each(plan, &mut |block| {
            played = block;
            Ok(())
        })
        .unwrap();
    for n in 1..number {
        let blocks = n as usize..n as usize + 1;
        let mut writer = ShardWriter::begin(plan, blocks, Vec::new()).unwrap();
        writer.keep(&moved(plan, &played, n)).unwrap();
        let (bytes, name) = writer.finish().unwrap();
        fs::write(shards.join(name.to_string()), bytes).unwrap();
    }
}

/// Seconds that a merge takes, and the most memory it has, in MiB.
fn merge(folder: &str) -> (f64, u64) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_ruleshift-under-test"));
    command.args(["merge", folder, "--quiet"]).current_dir(repository::root());
    let begun = Instant::now();
    let mut child = command.stdin(Stdio::null()).spawn().unwrap();
    let mut most = 0;
    let status = loop {
        let said = fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
        let peak =
            said.lines().find_map(|line| line.strip_prefix("VmHWM:")?.trim().strip_suffix(" kB"));
        most = peak.and_then(|peak| peak.parse().ok()).unwrap_or(0).max(most);
        if let Some(status) = child.try_wait().unwrap() {
            break status;
        }
        sleep(Duration::from_millis(5));
    };
    assert!(status.success());
    (begun.elapsed().as_secs_f64(), most / 1024)
}

#[test]
#[allow(clippy::print_stdout, reason = "figures for those who ask for them")]
fn many_shards_are_merged() {
    let (folder, number) = (tempfile::tempdir().unwrap(), shards());
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let (plan_file, out, games) = (path("plan.ron"), path("run"), (number * BLOCK).to_string());
    let words = ["compare", "steady-nerves", "--scenario", "first-evening", "--games", &games];
    ruleshift([&words[..], &["--plan-only", &plan_file]].concat()).fine();
    ruleshift(["shard", "0..1", "--plan", &plan_file, "--out", &out]).fine();
    let plan = Plan::from_ron(&fs::read_to_string(path("run/plan.ron")).unwrap()).unwrap();
    let place = folder.path().join("run/shards");
    made_up(&plan, &place, number);
    let bytes = listed(&place).iter().map(|file| fs::metadata(file).unwrap().len()).sum::<u64>();
    let begun = Instant::now();
    assert_eq!(ruleshift(["missing", &out]).fine().out, "");
    let looked = begun.elapsed().as_secs_f64();
    let (seconds, memory) = merge(&out);
    let merged = File::open(path("run/games.parquet")).unwrap();
    let size = merged.metadata().unwrap().len();
    println!(
        "{number} shards of {} games and {bytes} bytes: looked through in {looked:.1} s, merged in \
         {seconds:.1} s with {memory} MiB to {size} bytes",
        2 * number * BLOCK
    );
    let rows = read_games(&plan, merged).unwrap();
    assert_eq!(rows.len() as u32, 2 * number * BLOCK);
    assert!(rows.is_sorted_by_key(|row| (row.arm, row.game)), "by arm, then number");
}
