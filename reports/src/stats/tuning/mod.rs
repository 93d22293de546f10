//! Which value of an option brings the mean of a metric to a target?
//!
//! Rounds of games: each value still in question gets more of them, the same seeds for all, and is
//! judged by its repeated confidence interval (Jennison & Turnbull 1989), with the level shared
//! evenly among the values (Bonferroni) and spent over the looks (Lan & DeMets 1983, the even
//! function, since values far off are to go early). For rates the interval is that of
//! [`share`], else Student's.
//!
//! *Controlled*: the intervals of all values, at all looks, together hold the true means with at
//! least 95 %, whatever is played and wherever it ends. While they do, everything said is true: a
//! value said to be off the target is, so that those kept hold every value on it; one found is
//! nearer than `notice`; a target that no value reaches is out of reach; and the interval of the
//! crossing holds every crossing.
//!
//! The mean of a coin between two values is the mean of their means, so that halves need no games
//! of their own and no share of the level.

mod crossing;
mod now;

use ruleshift_record::{MetricKind, TuneAnswer, TuneCrossing, TuneSetting, TuneShape};

use super::{Bounds, CONFIDENCE, Interval, Sides, Spending, bounds, share, stratified_mean};
use now::{Known, Now};

/// What is to be tuned.
#[derive(Clone, Debug, PartialEq)]
pub struct TuneTask {
    /// The values of the option to try, rising.
    pub values: Vec<i64>,
    /// The mean that is wanted.
    pub target: f64,
    /// The smallest distance from it worth noticing, above 0.
    pub notice: f64,
    /// How the metric varies from game to game.
    pub kind: MetricKind,
    /// What is said of the mean as the option rises.
    pub shape: TuneShape,
    /// Games of a value in all, at its first look, its second, and so on, rising. The first should
    /// be a hundred or more: fewer do not tell how a metric varies.
    pub games: Vec<u32>,
}

/// What was played with one value.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tried {
    /// Looks that its games were played for.
    pub looks: usize,
    /// The metric in each game, by scenario.
    pub strata: Vec<Vec<f64>>,
}

/// What comes next.
#[derive(Clone, Debug, PartialEq)]
pub enum TuneStep {
    /// Play so many more games with each of these values, and count a look for each.
    Play(Vec<(i64, u32)>),
    /// That is the answer.
    Done(TuneFound),
}

/// The answer, and what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct TuneFound {
    /// Every value and every half between two that follow each other, rising.
    pub settings: Vec<TuneSetting>,
    /// Where the mean crosses the target; `None` when it surely does not.
    pub crossing: Option<TuneCrossing>,
    /// Whether the games leave the shape possible.
    pub shape_holds: bool,
    /// What came of it.
    pub answer: TuneAnswer,
}

/// A task with the limits for its looks.
#[derive(Clone, Debug, PartialEq)]
pub struct Tuning {
    task: TuneTask,
    bounds: Bounds,
}

impl Tuning {
    /// The limits for a task; `None` unless values and games rise, there is one of each at least,
    /// and `notice` is above 0.
    pub fn new(task: TuneTask) -> Option<Tuning> {
        let most = f64::from(*task.games.last()?);
        let shares: Vec<f64> = task.games.iter().map(|n| f64::from(*n) / most).collect();
        let rising = !task.values.is_empty() && task.values.is_sorted_by(|a, b| a < b);
        let level = (1.0 - CONFIDENCE) / task.values.len() as f64;
        let bounds = bounds(&shares, Spending::Even, level, Sides::Two)?;
        (rising && task.notice > 0.0).then_some(Tuning { task, bounds })
    }

    /// What comes next, after what was `tried` with each value, in their order; nothing at first.
    pub fn next(&self, tried: &[Tried]) -> TuneStep {
        let all = self.all(tried);
        let now = Now::of(self, &all);
        let games = |n: usize| {
            let look = all[n].looks;
            let before = if look == 0 { 0 } else { self.task.games[look - 1] };
            self.task.games.get(look).map(|games| (self.task.values[n], games - before))
        };
        let play: Vec<(i64, u32)> = now.wanted().into_iter().filter_map(games).collect();
        if play.is_empty() { TuneStep::Done(now.found()) } else { TuneStep::Play(play) }
    }

    /// What was `tried` so far tells, whether more is to come or not.
    pub fn found(&self, tried: &[Tried]) -> TuneFound {
        Now::of(self, &self.all(tried)).found()
    }

    /// An entry for every value.
    fn all(&self, tried: &[Tried]) -> Vec<Tried> {
        let mut all = tried.to_vec();
        all.resize(self.task.values.len(), Tried::default());
        all
    }

    /// The mean of one value and its repeated confidence interval.
    fn known(&self, tried: &Tried) -> Known {
        let unknown = Interval { low: f64::NEG_INFINITY, high: f64::INFINITY };
        let look = tried.looks.min(self.bounds.looks()).checked_sub(1);
        let Some(confidence) = look.and_then(|look| self.bounds.confidence(look)) else {
            return Known { mean: None, limits: unknown };
        };
        let count = tried.strata.iter().map(Vec::len).sum();
        match self.task.kind {
            MetricKind::Rate => match share(&tried.strata, count, confidence) {
                Some(share) => Known { mean: Some(share.value), limits: share.interval },
                None => Known { mean: None, limits: unknown },
            },
            MetricKind::Number => match stratified_mean(&tried.strata) {
                Some(mean) => {
                    // No spread yet is not to be sure: it is only believed of all games.
                    let early = mean.se == 0.0 && tried.looks < self.bounds.looks();
                    let limits = if early { unknown } else { mean.interval(confidence) };
                    Known { mean: Some(mean.value), limits }
                }
                None => Known { mean: None, limits: unknown },
            },
        }
    }
}

#[cfg(test)]
mod tests;
