//! Real shifts, of a size that all games of a pool tell, in comparisons as large as planned for it.
//!
//! The true shift is the mean of the whole pool and a comparison is a block of it, so that nothing is
//! uncertain about what is to be found. Blocks of one pool share its mean, which makes their count
//! vary a little less than the binomial bound allows for.

use ruleshift_record::{Metric, Stop, Summary, Verdict};
use ruleshift_reports::stats::{Monitor, POWER, Spending};
use ruleshift_reports::summarise_shifts;

use super::pool::{Pool, conduct, handicap, no_late_fire, of_each};
use super::rate::Rate;

const HEADLINE: usize = 8;

/// The word for a metric.
pub(super) fn word(summary: &Summary, metric: Metric) -> Verdict {
    let shift = summary.metrics.iter().find(|shift| shift.metric == metric.spec().name);
    shift.expect("it is compared").verdict
}

/// How often the shift of a metric is found, of as many pairs as are planned for it alone or among
/// the headline. The smallest shift worth noticing is half of it: words about that are not asked here.
fn found(pool: &Pool, metric: Metric, family: usize) -> Rate {
    let games = of_each(pool.planned(metric, family));
    let comparisons = (0..pool.blocks(games)).map(|block| {
        let first = block * games;
        let record = pool.cut([(0, first), (1, first)], games, |plan| {
            plan.notice.insert(metric.spec().name.into(), pool.truth(metric).abs() / 2.0);
            if family == 1 {
                plan.headline = vec![metric.spec().name.into()];
            }
        });
        word(&summarise_shifts(&record), metric) == Verdict::ClearShift
    });
    comparisons.collect::<Rate>().told(&format!(
        "{} among {family}, {} pairs: clear shift",
        metric.spec().name,
        2 * games
    ))
}

#[test]
fn shifts_of_the_planned_size_are_found_as_often_as_promised() {
    for (pool, metric) in [(handicap(), Metric::AttackerWins), (no_late_fire(), Metric::Minutes)] {
        found(pool, metric, 1).at_least(POWER);
        found(pool, metric, HEADLINE).at_least(POWER);
    }
}
