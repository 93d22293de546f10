//! Which plans can be played in parts, and which part is which.

use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};

use ruleshift_record::{Experiment, Plan, share};

use crate::args::Part;
use crate::exit::Failure;
use crate::planned::{self, Planned};
use crate::wire::Setting;

/// The plan in a file or in the folder of a run, to be played in parts.
///
/// # Errors
/// What is wrong with the plan; that no part of it can be played alone.
pub(crate) fn planned_in(path: &Path) -> Result<(Setting, Plan), Failure> {
    let path: PathBuf = if path.is_dir() { path.join("plan.ron") } else { path.to_owned() };
    let text = fs::read_to_string(&path).map_err(|e| Failure::file(&path, "read", &e))?;
    let (setting, planned) = planned::read(&path, &text)?;
    let plan =
        apart(planned).map_err(|why| Failure::Input(format!("{}: {why}", path.display())))?;
    Ok((setting, plan))
}

/// That a folder has no plan.
pub(crate) fn no_plan(folder: &Path) -> Failure {
    Failure::Input(format!(
        "{} holds no shards: it has no plan.ron, which the first shard writes there",
        folder.display()
    ))
}

/// The plan, if its parts can be played apart.
///
/// # Errors
/// Why they cannot.
fn apart(planned: Planned) -> Result<Plan, String> {
    let whole = "play it on one machine by `ruleshift run`";
    match planned {
        Planned::Hunt(_) => Err(format!("what a hunt plays depends on what it has found: {whole}")),
        Planned::Run(plan) => match (&plan.experiment, plan.stop) {
            (Experiment::Tune(_), _) => {
                Err(format!("what a tuning plays depends on the games before: {whole}"))
            }
            (_, Some(_)) => Err(format!(
                "how many games it plays depends on the games before: {whole}, or leave out `stop`"
            )),
            (_, None) => Ok(*plan),
        },
    }
}

/// The blocks of a part.
///
/// # Errors
/// That the plan has fewer blocks.
pub(crate) fn blocks_of(plan: &Plan, part: &Part) -> Result<Range<usize>, Failure> {
    let blocks = plan.blocks(plan.rounds()).len();
    match *part {
        Part::Share { k, n } => Ok(share(k, n, blocks)),
        Part::Blocks { first, end } if end <= blocks => Ok(first..end),
        Part::Blocks { first, end } => Err(Failure::Input(format!(
            "the plan has {blocks} blocks, and none up to {first}..{end}"
        ))),
    }
}
