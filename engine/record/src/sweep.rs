//! A sweep of one option, or a grid of two, over a range of values: what decides it, and its answer
//! as data.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{JudgedShift, MetricShift, Summary};

/// What a sweep goes through. Arm 0 of its run is the reference; then follows one arm per value in
/// the order given or, in a grid, one per pair of values, the first option outermost.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SweepPlan {
    /// The option as typed: a variant and one of its options.
    pub option: String,
    /// Its values.
    pub values: Vec<i64>,
    /// A second option with its values.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second: Option<(String, Vec<i64>)>,
    /// Names of metrics to answer for besides the headline.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub metrics: Vec<String>,
    /// Where curves are to be read backwards; none for the attacker winning every other game.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub targets: Vec<SweepTarget>,
}

/// A value of a metric at which an option is sought.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SweepTarget {
    /// Metric name.
    pub metric: String,
    /// The value, in the unit of the metric: a share runs from 0 to 1.
    pub value: f64,
}

impl SweepPlan {
    /// The arm of a value, and of one of the second option, by their places.
    pub fn arm(&self, value: usize, second: usize) -> usize {
        let inner = self.second.as_ref().map_or(1, |(_, values)| values.len());
        1 + value * inner + second
    }

    /// Arms of the run, the reference among them.
    pub fn arms(&self) -> usize {
        self.arm(self.values.len(), 0)
    }
}

/// A mean with what chance leaves open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepMean {
    /// The mean.
    pub mean: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// Lower end of the band that holds all means at once, at 95 %.
    pub band_low: f64,
    /// Upper end of that band.
    pub band_high: f64,
}

/// How a metric goes with an option.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SweepShape {
    /// It rises, and no step goes surely the other way.
    Rises,
    /// It falls, and no step goes surely the other way.
    Falls,
    /// Some step goes surely up and another surely down.
    Turns,
    /// No trend is sure.
    Open,
}

/// The family of a fitted curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SweepModel {
    /// The log odds are a straight line.
    Logistic,
    /// The mean is a straight line.
    Line,
}

/// A curve laid through the means.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepFit {
    /// Its family.
    pub model: SweepModel,
    /// Where the option is 0.
    pub intercept: f64,
    /// Change with each unit of the option, on the scale of the family.
    pub slope: f64,
    /// Lower end of the slope's 95 % interval.
    pub slope_low: f64,
    /// Upper end of it.
    pub slope_high: f64,
    /// The curve at each value.
    pub fitted: Vec<f64>,
    /// Distance of the means from the curve, a chi-squared; none with two values.
    pub lack: Option<f64>,
    /// Its degrees of freedom.
    pub df: u32,
    /// P-value of "the curve fits".
    pub p: Option<f64>,
}

/// Where a metric has the target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepCrossing {
    /// The target.
    pub target: f64,
    /// How it was read.
    pub by: SweepReading,
    /// Values of the option at which the curve is on the target, within those tried.
    pub at: Vec<f64>,
    /// Ranges of values that are possible, at 95 %, within those tried.
    pub possible: Vec<SweepRange>,
    /// Whether the metric is above the target where no value is possible.
    pub above: bool,
}

/// A range of values of an option.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepRange {
    /// Its lower end.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// Whether it may go on below the least value tried.
    pub open_below: bool,
    /// Whether it may go on above the largest value tried.
    pub open_above: bool,
}

/// How a crossing was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SweepReading {
    /// Off the fitted curve.
    Fit,
    /// Off the means and their band, joined by straight lines.
    Band,
}

/// One metric along one option.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepCurve {
    /// Metric name.
    pub metric: String,
    /// The option; in a grid, each game counts with its mean over the other option.
    pub option: String,
    /// The values of the option, rising, without those left out.
    pub values: Vec<i64>,
    /// Games in each arm: those that every arm has finished.
    pub games: u32,
    /// The mean at each value.
    pub means: Vec<SweepMean>,
    /// How it goes.
    pub shape: SweepShape,
    /// The straight trend over the whole range: what it adds from the least value to the largest.
    pub trend: JudgedShift,
    /// Each value against the one before.
    pub steps: Vec<JudgedShift>,
    /// The curve that was fitted, if any could be.
    pub fit: Option<SweepFit>,
    /// The nearest curve that never turns, where none is seen to turn.
    pub monotone: Option<Vec<f64>>,
    /// Where it has its targets.
    pub crossings: Vec<SweepCrossing>,
}

/// One metric over a grid of two options.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepGrid {
    /// Metric name.
    pub metric: String,
    /// Games in each arm: those that every arm has finished.
    pub games: u32,
    /// The mean at each pair of values, rows by the first option; none for an arm left out.
    pub means: Vec<Vec<Option<SweepMean>>>,
    /// How much more the trend along the first option is at the last value of the second than at
    /// its first one; none when a corner was left out.
    pub interaction: Option<JudgedShift>,
}

/// The whole answer of a sweep.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepSummary {
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// What was gone through.
    pub plan: SweepPlan,
    /// Every arm against the reference.
    pub comparison: Summary,
    /// Each metric along each option.
    pub curves: Vec<SweepCurve>,
    /// Each metric over the grid; none with one option.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub grids: Vec<SweepGrid>,
    /// Names of arms that have too few games to be part of a curve.
    pub left_out: Vec<String>,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
}

impl SweepSummary {
    /// The shift of a metric in an arm against the reference.
    pub fn shift(&self, arm: usize, metric: &str) -> Option<&MetricShift> {
        let name = &self.comparison.arms.get(arm)?.name;
        self.comparison.metrics.iter().find(|m| m.arm == *name && m.metric == metric)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan(second: Option<(String, Vec<i64>)>) -> SweepPlan {
        SweepPlan {
            option: "two-turn-end-cards:cards".into(),
            values: vec![1, 2, 3],
            second,
            metrics: vec![],
            targets: vec![],
        }
    }

    #[test]
    fn arms_follow_the_reference_with_the_first_option_outermost() {
        let line = plan(None);
        assert_eq!([line.arm(0, 0), line.arm(2, 0), line.arms()], [1, 3, 4]);
        let grid = plan(Some(("late-fire:range".into(), vec![5, 10])));
        assert_eq!([grid.arm(0, 1), grid.arm(1, 0), grid.arm(2, 1), grid.arms()], [2, 3, 6, 7]);
    }
}
