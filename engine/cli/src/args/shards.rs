//! What commands that play one plan on many machines take.

use std::iter;
use std::num::NonZero;
use std::path::{Path, PathBuf};
use std::str::FromStr;

use clap::ValueEnum;

use super::ShowArgs;

/// A part of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// Part `k`, from 0, of `n` parts.
    Share { k: u64, n: u64 },
    /// Blocks from one to before another.
    Blocks { first: usize, end: usize },
}

impl FromStr for Part {
    type Err = String;

    fn from_str(typed: &str) -> Result<Part, String> {
        let share = typed.split_once('/').and_then(|(k, n)| k.parse().ok().zip(n.parse().ok()));
        let blocks = typed.split_once("..").and_then(|(a, b)| a.parse().ok().zip(b.parse().ok()));
        match (share, blocks) {
            (Some((k, n)), _) if k < n => Ok(Part::Share { k, n }),
            (Some((_, n @ 1..)), _) => {
                Err(format!("parts of {n} are numbered from 0/{n} to {}/{n}", n - 1))
            }
            (_, Some((first, end))) if first < end => Ok(Part::Blocks { first, end }),
            _ => Err(
                "expected a part such as 3/12, the parts being 0/12 to 11/12, or blocks such as \
                      120..180 as `missing` prints them"
                    .to_owned(),
            ),
        }
    }
}

#[derive(Debug, clap::Args)]
pub(crate) struct ShardArgs {
    /// Which part: `3/12` is the fourth of twelve, `120..180` are blocks as `missing` prints them.
    #[arg(value_name = "PART")]
    pub(crate) part: Part,
    /// The plan, as `--plan-only` writes it or as it lies in the folder of a run.
    #[arg(long, value_name = "PLAN")]
    pub(crate) plan: PathBuf,
    /// Folder of the run, the same for all parts, or one for each that is copied together later.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: PathBuf,
    /// Threads to play on; never changes a result. [default: as many as the machine has cores]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub(crate) threads: Option<u16>,
    /// No progress, and no word when all is well.
    #[arg(long)]
    pub(crate) quiet: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct MissingArgs {
    /// Folder of the run.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// Further folders with shards.
    #[arg(value_name = "FOLDER")]
    pub(crate) from: Vec<PathBuf>,
    /// The plan. [default: the one in DIR]
    #[arg(long, value_name = "PLAN")]
    pub(crate) plan: Option<PathBuf>,
    /// Tell the numbers of the parts when there are N of them, instead of blocks.
    #[arg(long, value_name = "N", required_if_eq_any([("format", "slurm"), ("format", "parallel"), ("format", "hq")]))]
    pub(crate) of: Option<NonZero<u64>>,
    /// For whom.
    #[arg(long, value_enum, default_value = "text")]
    pub(crate) format: Format,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// A line for each part, as `shard` takes them.
    Text,
    /// Numbers for `sbatch --array`.
    Slurm,
    /// A number on each line.
    Parallel,
    /// Numbers for `hq submit --array`.
    Hq,
}

#[derive(Debug, clap::Args)]
pub(crate) struct MergeArgs {
    /// Folder of the run.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// Further folders with shards.
    #[arg(value_name = "FOLDER")]
    pub(crate) from: Vec<PathBuf>,
    #[command(flatten)]
    pub(crate) show: ShowArgs,
}

impl MissingArgs {
    /// All folders in which shards may lie.
    pub(crate) fn folders(&self) -> impl Iterator<Item = &Path> {
        several(&self.folder, &self.from)
    }
}

impl MergeArgs {
    /// All folders in which shards may lie.
    pub(crate) fn folders(&self) -> impl Iterator<Item = &Path> {
        several(&self.folder, &self.from)
    }
}

fn several<'a>(folder: &'a Path, from: &'a [PathBuf]) -> impl Iterator<Item = &'a Path> {
    iter::once(folder).chain(from.iter().map(PathBuf::as_path))
}

#[derive(Debug, clap::Args)]
pub(crate) struct CleanArgs {
    /// Folder of the run.
    #[arg(value_name = "DIR")]
    pub(crate) folder: PathBuf,
    /// Remove half-written files too that are younger than an hour: no shard may be playing.
    #[arg(long)]
    pub(crate) now: bool,
}

#[derive(Debug, clap::Args)]
pub(crate) struct ClusterArgs {
    /// What starts the parts.
    #[arg(value_enum)]
    pub(crate) scheduler: Scheduler,
    /// The plan, as `--plan-only` writes it.
    #[arg(value_name = "PLAN")]
    pub(crate) plan: PathBuf,
    /// Parts to cut it into. [default: so that each has some 200,000 games]
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u64).range(1..=1000))]
    pub(crate) shards: Option<u64>,
    /// Folder of the run.
    #[arg(long, value_name = "DIR", default_value = "run")]
    pub(crate) out: PathBuf,
    /// Threads of each part.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub(crate) threads: u16,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Scheduler {
    /// A job array of Slurm.
    Slurm,
    /// GNU parallel, on this machine or on a list of hosts by ssh.
    Parallel,
    /// A task array of HyperQueue.
    Hq,
}
