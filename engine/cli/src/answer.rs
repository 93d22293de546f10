//! The answer to the question of a plan, from its games.

mod ladder;

use ruleshift_record::{Experiment, RunRecord};
use ruleshift_reports::{self as reports, Report};

use crate::exit::Failure;

/// An answer as data and as a report.
pub(crate) struct Answer {
    /// For programs.
    pub(crate) json: String,
    /// For readers.
    pub(crate) report: Report,
}

impl Answer {
    /// What the games of `run` say.
    ///
    /// # Errors
    /// When the games could not be read.
    pub(crate) fn of(run: &RunRecord) -> Result<Answer, Failure> {
        let answer = match &run.plan.experiment {
            Experiment::Compare => {
                let summary = reports::summarise(run);
                let report = reports::build(&summary, run);
                Answer { json: reports::json(&summary), report }
            }
            Experiment::Sweep(plan) => {
                let summary = reports::sweep(plan, run);
                Answer { json: reports::json(&summary), report: reports::build_sweep(&summary) }
            }
            Experiment::Cross(plan) => {
                let summary = reports::cross(plan, run);
                Answer { json: reports::json(&summary), report: reports::build_cross(&summary) }
            }
            Experiment::Tune(plan) => {
                let summary = reports::tune(plan, run);
                Answer { json: reports::json(&summary), report: reports::build_tune(&summary) }
            }
            Experiment::Handicap(asked) => {
                let summary = reports::even_out(run, *asked);
                let report = reports::build_handicap(&summary);
                Answer { json: reports::json(&summary), report }
            }
            Experiment::Ladder => {
                let summary = reports::rank(&ladder::games(run));
                let report = reports::build_ladder(&summary);
                Answer { json: reports::json(&summary), report }
            }
        };
        match run.games.failure() {
            Some(failure) => Err(Failure::File(format!("the games cannot be read: {failure}"))),
            None => Ok(answer),
        }
    }
}
