//! The answer to the question of a plan, from its games.

mod films;
mod ladder;
mod sheets;

use ruleshift_record::{Experiment, RunRecord};
use ruleshift_reports::{self as reports, Report};

use crate::exit::Failure;

/// An answer as data and as a report.
pub(crate) struct Answer {
    /// For programs.
    pub(crate) json: String,
    /// For readers.
    pub(crate) report: Report,
    /// Further pages beside the report, which links to them: name of the file and text.
    pub(crate) pages: Vec<(String, String)>,
}

impl Answer {
    /// What the games of `run` say.
    ///
    /// # Errors
    /// When the games could not be read.
    pub(crate) fn of(run: &RunRecord) -> Result<Answer, Failure> {
        let mut pages = Vec::new();
        let (json, report) = match &run.plan.experiment {
            Experiment::Compare => {
                let summary = reports::summarise(run);
                let mut report = reports::build(&summary, run);
                sheets::add(&summary, &mut report, &mut pages);
                films::add(&run.plan, &mut report, &mut pages);
                (reports::json(&summary), report)
            }
            Experiment::Sweep(plan) => {
                let summary = reports::sweep(plan, run);
                (reports::json(&summary), reports::build_sweep(&summary))
            }
            Experiment::Cross(plan) => {
                let summary = reports::cross(plan, run);
                (reports::json(&summary), reports::build_cross(&summary))
            }
            Experiment::Tune(plan) => {
                let summary = reports::tune(plan, run);
                (reports::json(&summary), reports::build_tune(&summary))
            }
            Experiment::Handicap(asked) => {
                let summary = reports::even_out(run, *asked);
                (reports::json(&summary), reports::build_handicap(&summary))
            }
            Experiment::Ladder => {
                let summary = reports::rank(&ladder::games(run));
                (reports::json(&summary), reports::build_ladder(&summary))
            }
        };
        match run.games.failure() {
            Some(failure) => Err(Failure::File(format!("the games cannot be read: {failure}"))),
            None => Ok(Answer { json, report, pages }),
        }
    }
}
