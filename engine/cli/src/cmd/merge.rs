//! `ruleshift merge`: makes one run of all shards.

use std::fs::File;
use std::path::Path;

use ruleshift_batch::Progress;
use ruleshift_record::{CoverError, GamesError, Log, Plan, RunRecord, Shard, cover};

use crate::args::MergeArgs;
use crate::bars::Bars;
use crate::conduct::conclude;
use crate::exit::Failure;
use crate::folder::Folder;
use crate::screen;
use crate::shards::{Found, check_plan, find, host_of, no_plan, planned_in, settle};

pub(crate) fn run(args: &MergeArgs) -> Result<(), Failure> {
    let folder = Folder::of(&args.folder);
    let path = args.folder.display();
    if folder.finished() {
        screen::show(&format!("{path} is finished; read {path}/report.html\n"));
        return Ok(());
    }
    let plan = plan(args)?;
    let search = find(args.folders(), |_| true)?;
    search.complaints().for_each(|complaint| screen::remark(&complaint));
    check_plan(&plan, &search.shards)?;
    let whole = whole(&plan, &search.shards, args)?;
    let log = folder.games(&plan)?;
    let bars = Bars::new(plan.games(), args.show.quiet);
    bars.found_in(&plan, &log);
    let log = join(&plan, &whole, log, &bars);
    bars.finish();
    conclude(RunRecord::from(log?), true, &folder, &args.show)?;
    if !args.show.quiet && !args.show.json {
        screen::show(&format!(
            "The shards are no longer needed: `ruleshift clean {path}` removes them\n"
        ));
    }
    Ok(())
}

/// The plan of the run; that of another folder when the run has none yet.
fn plan(args: &MergeArgs) -> Result<Plan, Failure> {
    let has_plan = |folder: &&Path| folder.join("plan.ron").exists();
    let first = args.folders().find(has_plan).ok_or_else(|| no_plan(&args.folder))?;
    let (_, plan) = planned_in(first)?;
    settle(&args.folder, &plan)?;
    Ok(plan)
}

/// The shards that are together the whole run, in order.
fn whole<'a>(
    plan: &Plan,
    shards: &'a [Found],
    args: &MergeArgs,
) -> Result<Vec<&'a Found>, Failure> {
    let told: Vec<_> = shards.iter().map(|found| (found.name.blocks(), &*found.seal)).collect();
    let order = cover(&told, plan.blocks(plan.rounds()).len());
    let order = order.map_err(|error| refusal(&error, shards, &args.folder))?;
    Ok(order.into_iter().map(|place| &shards[place]).collect())
}

/// What to say, and to do, when shards are no whole run.
fn refusal(error: &CoverError, shards: &[Found], folder: &Path) -> Failure {
    let path = |place: usize| shards[place].path.display();
    let played = |place: usize| match host_of(&shards[place].path) {
        Some(host) => format!("{} (played on {host})", path(place)),
        None => path(place).to_string(),
    };
    match *error {
        CoverError::Gaps(_) => Failure::Missing(format!(
            "{error}\n  `ruleshift missing {}` lists what is to be played",
            folder.display()
        )),
        CoverError::Overlap(a, b) => Failure::Overlap(format!(
            "{error}: {} and {}\n  remove one of them; `ruleshift missing` then tells what is to be played",
            path(a),
            path(b)
        )),
        CoverError::Differ(a, b) => Failure::Differ(format!(
            "{error}: {} and {}\n  one of them is wrong, by a fault of a machine or of this program: \
             play these blocks once more elsewhere, keep what comes twice, and please report it",
            played(a),
            played(b)
        )),
    }
}

/// Puts the games of all shards into the log, behind those that it has already.
fn join(plan: &Plan, shards: &[&Found], mut log: Log, bars: &Bars) -> Result<Log, Failure> {
    let blocks = plan.blocks(plan.rounds());
    for found in shards {
        if found.name.end <= log.kept() {
            continue;
        }
        let unread = |e: &dyn std::fmt::Display| Failure::file(&found.path, "read", e);
        let file = File::open(&found.path).map_err(|e| unread(&e))?;
        let shard = Shard::open(file).map_err(|e| unread(&e))?;
        let mut unkept = None;
        let mut n = found.name.first;
        let read = shard.each(plan, &blocks, &mut |played| {
            if bars.stopped() {
                return Err(GamesError::from("asked to stop".to_owned()));
            }
            if n >= log.kept() {
                log.keep(&played).map_err(|error| {
                    unkept = Some(error.to_string());
                    GamesError::from(error)
                })?;
                bars.played(plan.games_in(&blocks[n]));
            }
            n += 1;
            Ok(())
        });
        match (read, unkept, bars.stopped()) {
            (Ok(()), ..) => {}
            (Err(_), Some(error), _) => {
                return Err(Failure::File(format!(
                    "the games cannot be kept: {error}\n  make room, then merge again: it goes on from here"
                )));
            }
            (Err(_), None, true) => {
                return Err(Failure::Check(
                    "interrupted: merge again, which goes on from here".to_owned(),
                ));
            }
            (Err(error), ..) => return Err(unread(&error)),
        }
    }
    Ok(log)
}
