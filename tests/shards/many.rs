//! Very many shards: what a merge takes. `RULESHIFT_SHARDS` and `RULESHIFT_BLOCKS` (of a shard) print the figures
//! of the planning page.
#![allow(clippy::disallowed_types, reason = "how long a merge takes is printed, not asserted")]

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use ruleshift_game::luck::game_seed;
use ruleshift_record::{GameRow, Keep, Plan, Played, Shard, ShardWriter, Table};

use super::listed;
use crate::support::{repository, ruleshift};

/// Games of an arm in a block.
const BLOCK: u32 = 64;

/// A number that the environment may raise: with many more, what merging costs is seen.
fn number(name: &str, usual: u32) -> u32 {
    std::env::var(name).ok().and_then(|number| number.parse().ok()).unwrap_or(usual)
}

/// The games of a block that was played, as those of the block `n` further on: results of nobody's luck, but of
/// the right size and shape.
fn moved(plan: &Plan, played: &Played, n: u32) -> Played {
    let row = |row: &GameRow| {
        let game = row.game + n * BLOCK;
        let seed = game_seed(plan.seed, 0, game);
        GameRow { game, seed, digest: row.digest ^ u64::from(n), ..row.clone() }
    };
    Played { games: played.games.iter().map(row).collect(), faults: vec![] }
}

/// So many shards of `each` blocks, all but the first made up from it.
fn made_up(plan: &Plan, shards: &Path, number: u32, each: u32) {
    let first =
        &listed(shards).into_iter().find(|file| file.extension().unwrap() == "parquet").unwrap();
    let mut played: Vec<Played> = Vec::new();
    let shard = Shard::open(File::open(first).unwrap()).unwrap();
    shard
        .each(plan, &plan.blocks(plan.rounds()), &mut |block| {
            played.push(block);
            Ok(())
        })
        .unwrap();
    for n in (1..number).map(|shard| shard * each) {
        let mut writer =
            ShardWriter::begin(plan, n as usize..(n + each) as usize, Vec::new()).unwrap();
        played.iter().for_each(|block| writer.keep(&moved(plan, block, n)).unwrap());
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
    let folder = tempfile::tempdir().unwrap();
    let (shards, each) = (number("RULESHIFT_SHARDS", 30), number("RULESHIFT_BLOCKS", 2));
    let in_arm = shards * each * BLOCK;
    let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let (plan_file, out, games) = (path("plan.ron"), path("run"), in_arm.to_string());
    let words = ["compare", "steady-nerves", "--scenario", "first-evening", "--games", &games];
    ruleshift([&words[..], &["--plan-only", &plan_file]].concat()).fine();
    ruleshift(["shard", &format!("0..{each}"), "--plan", &plan_file, "--out", &out]).fine();
    let plan = Plan::from_ron(&fs::read_to_string(path("run/plan.ron")).unwrap()).unwrap();
    let place = folder.path().join("run/shards");
    made_up(&plan, &place, shards, each);
    let bytes = listed(&place).iter().map(|file| fs::metadata(file).unwrap().len()).sum::<u64>();
    let begun = Instant::now();
    assert_eq!(ruleshift(["missing", &out]).fine().out, "");
    let looked = begun.elapsed().as_secs_f64();
    let (seconds, memory) = merge(&out);
    let merged = File::open(path("run/games.parquet")).unwrap();
    let size = merged.metadata().unwrap().len();
    println!(
        "{shards} shards of {} games and {bytes} bytes: looked through in {looked:.1} s, merged in \
         {seconds:.1} s with {memory} MiB to {size} bytes",
        2 * in_arm
    );
    let (mut rows, mut before) = (0, None);
    let order = |row: &GameRow| Some((row.arm, row.game));
    Table::open(merged)
        .unwrap()
        .each(&plan, &mut |row| {
            assert!(before < order(&row), "by arm, then number");
            (before, rows) = (order(&row), rows + 1);
            Ok(())
        })
        .unwrap();
    assert_eq!(rows, 2 * in_arm);
}
