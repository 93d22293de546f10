//! `ruleshift cluster`: prints a script that plays a plan on many machines. Nothing is started.

use std::path::Path;

use crate::args::{ClusterArgs, Scheduler};
use crate::exit::Failure;
use crate::screen;
use crate::shards::planned_in;

/// Games of a shard when nobody says how many there are: a minute or some, by the usual players.
const GAMES: u64 = 200_000;
/// Shards at most: many sites end arrays at a thousand.
const MOST: u64 = 1000;

pub(crate) fn run(args: &ClusterArgs) -> Result<(), Failure> {
    let (_, plan) = planned_in(&args.plan)?;
    let shards = args.shards.unwrap_or_else(|| plan.games().div_ceil(GAMES).clamp(1, MOST));
    let text = match args.scheduler {
        Scheduler::Slurm => include_str!("slurm.sh"),
        Scheduler::Parallel => include_str!("parallel.sh"),
        Scheduler::Hq => include_str!("hq.sh"),
    };
    let [plan, out] = [word("PLAN", &args.plan)?, word("--out", &args.out)?];
    let said = [
        ("{plan}", plan),
        ("{out}", out),
        ("{shards}", shards.to_string()),
        ("{last}", (shards - 1).to_string()),
        ("{threads}", args.threads.to_string()),
    ];
    screen::show(&said.iter().fold(text.to_owned(), |text, (key, value)| text.replace(key, value)));
    Ok(())
}

/// A path as a word of a shell, which must need no quotes: it stands within quotes of several kinds,
/// on this machine and on others.
fn word(what: &str, path: &Path) -> Result<String, Failure> {
    let text = path.to_string_lossy();
    let plain = |c: char| c.is_ascii_alphanumeric() || "/._+=,@%-".contains(c);
    if !text.is_empty() && text.chars().all(plain) && !text.starts_with('-') {
        return Ok(text.into_owned());
    }
    Err(Failure::Input(format!(
        "{what} is `{text}`: for a script on many machines, expected a path of letters, digits and any of \
         /._+=,@%- without blanks"
    )))
}
