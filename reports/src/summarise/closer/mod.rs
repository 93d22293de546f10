//! What the games say beyond means.

mod chance;
mod holding;
mod spread;
mod tails;

use ruleshift_record::{Closer, MetricShift, RunRecord};

use super::pairs::Pairs;

/// A closer look at the shifts of all arms.
pub(super) fn look(run: &RunRecord, pairs: &[Pairs], metrics: &[MetricShift]) -> Closer {
    Closer {
        tails: pairs.iter().flat_map(|p| tails::tails(run, p)).collect(),
        holding: holding::holding(run, pairs),
        spread: pairs.iter().flat_map(|p| spread::spread(run, p, metrics)).collect(),
        explored: chance::explored(metrics),
        saved: pairs.iter().flat_map(|p| chance::saved(run, p, metrics)).collect(),
        rare: chance::rare(run),
    }
}
