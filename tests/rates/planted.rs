//! Real shifts, of a size that all games of a pool tell, in comparisons as large as planned for it.
//!
//! The true shift is the mean of the whole pool and a comparison is a block of it, so that nothing is
//! uncertain about what is to be found. Blocks of one pool share its mean, which makes their count
//! vary a little less than the binomial bound allows for.

use ruleshift_record::{Metric, Plan, Stop, Verdict};
use ruleshift_reports::stats::{Monitor, POWER, Spending};

use super::pool::{Pool, conduct, handicap, no_late_fire, of_each};
use super::rate::Rate;

/// Metrics of the usual headline.
pub(super) const HEADLINE: usize = 8;

/// How a comparison of a block is planned.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    pub(super) pool: &'a Pool,
    pub(super) metric: Metric,
    /// Metrics that are judged together: this one alone, or the headline.
    pub(super) family: usize,
    /// The smallest shift worth noticing, as a part of the true one.
    pub(super) notice: f64,
    /// Whether it looks before the end.
    pub(super) looks: bool,
    /// How many times the games that are planned.
    pub(super) times: u32,
}

impl Asked<'_> {
    /// Games of each scenario in a comparison: as many as are planned, and what looks cost: those of
    /// four, since more cost no more to speak of.
    fn games(&self) -> u32 {
        let planned = self.pool.planned(self.metric, self.family);
        let dear = Monitor::new(&[125, 250, 500, 1000], self.family, Spending::Late);
        let times = dear.filter(|_| self.looks).map_or(1.0, |looks| looks.inflation(POWER));
        self.times * of_each(planned * times)
    }

    /// Pairs in a comparison.
    fn pairs(&self) -> u32 {
        2 * self.games()
    }

    fn plan(&self, truth: f64, plan: &mut Plan) {
        let name = self.metric.spec().name.to_owned();
        plan.stop = self.looks.then_some(Stop::Clear { looks: 7 });
        if self.family == 1 {
            plan.headline = vec![name.clone()];
        }
        plan.notice.insert(name, self.notice * truth.abs());
    }

    /// How often the metric gets one of these words.
    pub(super) fn told(&self, words: &[Verdict], what: &str) -> Rate {
        let (name, games) = (self.metric.spec().name, self.games());
        let truth = self.pool.truth(self.metric);
        let comparisons = (0..self.pool.blocks(games)).map(|block| {
            let first = block * games;
            let arms = [(0, first), (1, first)];
            let record = self.pool.cut(arms, games, |plan| self.plan(truth, plan));
            let summary = conduct(&record);
            let shift = summary.metrics.iter().find(|shift| shift.metric == name);
            words.contains(&shift.expect("it is compared").verdict)
        });
        let looks = if self.looks { ", looks" } else { "" };
        let told = format!("{name} among {}, {} pairs{looks}: {what}", self.family, self.pairs());
        comparisons.collect::<Rate>().told(&told)
    }
}

/// Shifts are to be found, so the smallest worth noticing is half of the true one.
fn found(pool: &Pool, metric: Metric, family: usize, looks: bool) -> Rate {
    let asked = Asked { pool, metric, family, notice: 0.5, looks, times: 1 };
    asked.told(&[Verdict::ClearShift], "clear shift")
}

#[test]
fn shifts_of_the_planned_size_are_found_as_often_as_promised() {
    for (pool, metric) in [(handicap(), Metric::AttackerWins), (no_late_fire(), Metric::Minutes)] {
        for family in [1, HEADLINE] {
            found(pool, metric, family, false).at_least(POWER);
        }
    }
}

#[test]
fn shifts_of_the_planned_size_are_found_as_often_as_promised_with_looks() {
    for (pool, metric) in [(handicap(), Metric::Margin), (no_late_fire(), Metric::DefenderLosses)] {
        for family in [1, HEADLINE] {
            found(pool, metric, family, true).at_least(POWER);
        }
    }
}
