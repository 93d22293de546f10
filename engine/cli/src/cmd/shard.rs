//! `ruleshift shard`: plays a part of a plan into a file of its own.

use std::fs;
use std::io::{self, BufWriter};
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use ruleshift_batch::{Leg, Ways};
use ruleshift_record::{Keep, Plan, ShardName, ShardWriter};

use crate::args::ShardArgs;
use crate::bars::Bars;
use crate::conduct::{cores, no_threads};
use crate::exit::{AGAIN, Failure};
use crate::screen;
use crate::shards::{Half, blocks_of, find, note_owner, planned_in, settle};
use crate::wire::Setting;

/// How often a shard looks whether it is asked to stop.
const LOOK: Duration = Duration::from_millis(20);

/// What is said then.
const STOPPED: &str = "asked to stop: nothing of this shard is kept; play it again";

pub(crate) fn run(args: &ShardArgs) -> Result<(), Failure> {
    let (setting, plan) = planned_in(&args.plan)?;
    let blocks = blocks_of(&plan, &args.part)?;
    let shards = settle(&args.out, &plan)?;
    let say = |text: String| {
        if !args.quiet {
            screen::show(&format!("{text}\n"));
        }
    };
    if blocks.is_empty() {
        say("there are more parts than blocks, and none for this one".to_owned());
        return Ok(());
    }
    if let Some(path) = there(&args.out, &plan, &blocks)? {
        say(format!("{path} is there already"));
        return Ok(());
    }
    let bars = Bars::new(games(&plan, &blocks), args.quiet);
    let threads = args.threads.map_or_else(cores, usize::from);
    let name = play(&setting, &plan, blocks, &shards, threads, &bars)?;
    note_owner(&shards, &name);
    say(format!("{} is played", shards.join(name.to_string()).display()));
    Ok(())
}

/// The shard of these blocks, when it is in the folder already and whole.
fn there(folder: &Path, plan: &Plan, blocks: &Range<usize>) -> Result<Option<String>, Failure> {
    let digest = plan.digest();
    let found = find([folder], |name| name.blocks() == *blocks)?.shards;
    let own = found.into_iter().find(|found| found.plan == digest);
    Ok(own.map(|found| found.path.display().to_string()))
}

fn games(plan: &Plan, blocks: &Range<usize>) -> u64 {
    let all = plan.blocks(plan.rounds());
    all[blocks.clone()].iter().map(|block| plan.games_in(block)).sum()
}

/// Plays the blocks into a new file, which has its name only when it is whole.
fn play(
    setting: &Setting,
    plan: &Plan,
    blocks: Range<usize>,
    shards: &Path,
    threads: usize,
    bars: &Bars,
) -> Result<ShardName, Failure> {
    let cast = setting.cast()?;
    let begun = Half::begin(shards);
    let (file, half) = begun.map_err(|e| match e.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => again(shards, &e.to_string()),
        _ => Failure::file(shards, "written to", &e),
    })?;
    leave_when_asked(bars.stop(), &half);
    let failed = |e: &dyn ToString| again(shards, &e.to_string());
    let ways = Ways::make(&cast, threads).map_err(no_threads)?;
    let mut writer =
        ShardWriter::begin(plan, blocks.clone(), BufWriter::new(file)).map_err(|e| failed(&e))?;
    let leg = Leg { end: blocks.end, arms: &vec![true; plan.arms.len()] };
    ruleshift_batch::play(&ways, plan, &cast, &leg, threads, bars, &mut writer)
        .map_err(|e| failed(&e))?;
    bars.finish();
    if writer.next() < blocks.end {
        return Err(Failure::Again(STOPPED.to_owned()));
    }
    let (to, name) = writer.finish().map_err(|e| failed(&e))?;
    let file = to.into_inner().map_err(|e| failed(&e.into_error()))?;
    half.place(&file, &shards.join(name.to_string())).map_err(|e| failed(&e))?;
    Ok(name)
}

/// Ends the process as soon as it is asked to stop, whatever is being played: a part of a shard is of no
/// use, and whoever asks may not wait long.
fn leave_when_asked(stop: Arc<AtomicBool>, half: &Half) {
    let path = half.path().to_owned();
    let watch = move || {
        while !stop.load(Ordering::Relaxed) {
            thread::sleep(LOOK);
        }
        // It may be gone, or have got its name at this moment.
        let _ = fs::remove_file(&path);
        screen::complain(STOPPED);
        std::process::exit(AGAIN.into());
    };
    // Without the thread the games under way are finished before the process ends.
    let _ = thread::Builder::new().name("stop".to_owned()).spawn(watch);
}

fn again(shards: &Path, error: &str) -> Failure {
    Failure::Again(format!(
        "the shard cannot be written to {}: {error}\n  nothing of it is kept; play it again",
        shards.display()
    ))
}
