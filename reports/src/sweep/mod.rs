//! A sweep: one option over a range of values, or two over a grid, from games to report.
//!
//! [`sweep`] turns the games into the answer, [`build_sweep`] the answer into a report. Every value is
//! an arm, and all arms play with the same luck: so each arm is compared with the reference as in any
//! comparison, and besides, means over games that all arms have finished make curves.

mod axes;
mod build;
mod caveats;
mod charts;
mod curves;
mod grid;
mod headline;
mod method;
mod tables;
pub use build::build_sweep;

use ruleshift_record::{Metric, RunRecord, SweepPlan, SweepSummary};

use crate::summarise::summarise_shifts;

/// The answer of a sweep for the headline metrics and those it asks for; `run` has the arms of `plan`.
///
/// An arm with fewer than half the games of the one that has most is no part of a curve; of the others
/// the games count that all have finished. Metrics and targets that nobody knows are left out. The
/// answer depends on nothing but `plan` and `run`.
pub fn sweep(plan: &SweepPlan, run: &RunRecord) -> SweepSummary {
    let mut comparison = summarise_shifts(run);
    comparison.caveats.clear();
    let axes = axes::axes(plan, run);
    let mut summary = SweepSummary {
        headline: vec![],
        plan: plan.clone(),
        comparison,
        curves: curves::curves(plan, run, &axes),
        grids: grid::grids(plan, run),
        left_out: axes::left_out(run).map(|arm| run.plan.arms[arm].name.clone()).collect(),
        caveats: vec![],
    };
    summary.headline = headline::headline(&summary);
    summary.caveats = caveats::caveats(run, &summary);
    summary
}

/// The metrics to answer for, the headline first.
fn asked(plan: &SweepPlan, run: &RunRecord) -> Vec<Metric> {
    let headline = |m: &Metric| run.plan.is_headline(*m);
    let named = |m: &Metric| plan.metrics.iter().any(|name| name == m.spec().name);
    let all = || Metric::ALL.iter().copied();
    all().filter(headline).chain(all().filter(|m| !headline(m) && named(m))).collect()
}

/// Whether an answer belongs to the headline of the run.
fn is_headline(summary: &SweepSummary, metric: &str) -> bool {
    summary.comparison.metrics.iter().any(|m| m.headline && m.metric == metric)
}
