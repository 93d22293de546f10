//! Each metric along each option.

use ruleshift_record::{
    JudgedShift, Metric, MetricKind, RunRecord, SweepCrossing, SweepCurve, SweepFit, SweepMean,
    SweepModel, SweepPlan, SweepRange, SweepReading, SweepShape,
};

use super::asked;
use super::axes::Axis;
use crate::answer::{Answer, answer, judged};
use crate::columns;
use crate::stats::{
    CONFIDENCE, Crossing, Curve, DRAWS, Estimate, Interval, Joint, LEVEL, Link, NormalDraws,
    antitonic, band_confidence, band_crossing, contrast, curve, fieller, isotonic, joint,
    stratified_mean,
};

/// A curve before the family of its tests is known.
struct Draft<'a> {
    metric: Metric,
    axis: &'a Axis,
    joint: Joint,
    trend: Estimate,
    steps: Vec<Answer>,
}

/// The curves by option and then metric; one needs two values and two games.
pub(super) fn curves(plan: &SweepPlan, run: &RunRecord, axes: &[Axis]) -> Vec<SweepCurve> {
    let metrics = asked(plan, run);
    let drafts: Vec<Draft> = axes
        .iter()
        .filter(|axis| axis.values.len() > 1)
        .flat_map(|axis| metrics.iter().filter_map(|&metric| draft(run, axis, metric)))
        .collect();
    let widest = axes.iter().map(|axis| axis.values.len()).max().unwrap_or(0);
    let draws = NormalDraws::new(widest, if drafts.is_empty() { 0 } else { DRAWS });
    let mut finished: Vec<Option<SweepCurve>> = drafts.iter().map(|_| None).collect();
    for headline in [true, false] {
        let family: Vec<usize> = (0..drafts.len())
            .filter(|&n| run.plan.is_headline(drafts[n].metric) == headline)
            .collect();
        let trend = |&n: &usize| Answer::of(&drafts[n].trend, run.plan.notice(drafts[n].metric));
        let trends: Vec<Answer> = family.iter().map(trend).collect();
        let steps: Vec<Answer> =
            family.iter().flat_map(|&n| drafts[n].steps.iter().copied()).collect();
        let mut steps = judged(&steps).into_iter();
        for (&n, trend) in family.iter().zip(judged(&trends)) {
            let own = steps.by_ref().take(drafts[n].steps.len()).collect();
            finished[n] = Some(drafts[n].finish(plan, trend, own, &draws));
        }
    }
    finished.into_iter().flatten().collect()
}

fn draft<'a>(run: &RunRecord, axis: &'a Axis, metric: Metric) -> Option<Draft<'a>> {
    let games = columns::blocks(run, &axis.arms.concat(), metric);
    let games = by_value(&games, axis.arms.first()?.len());
    let joint = joint(&games)?;
    let weights = slope_weights(&axis.values);
    let over_range = |game: &Vec<f64>| contrast(game, &weights);
    let trends: Vec<Vec<f64>> =
        games.iter().map(|stratum| stratum.iter().map(over_range).collect()).collect();
    let trend = stratified_mean(&trends)?;
    let single = axis.arms.iter().all(|arms| arms.len() == 1);
    let step = |n: usize| {
        let pairs: Vec<Vec<(f64, f64)>> =
            games.iter().map(|s| s.iter().map(|game| (game[n - 1], game[n])).collect()).collect();
        answer(&pairs, (metric, run.plan.notice(metric)), false)
    };
    // In a grid values are means of several arms, which are no longer yes or no.
    let steps = (1..axis.values.len()).filter(|_| single).filter_map(step).collect();
    Some(Draft { metric, axis, joint, trend, steps })
}

/// One value per game and value of the option: the mean of the `width` arms that have it.
fn by_value(games: &[Vec<Vec<f64>>], width: usize) -> Vec<Vec<Vec<f64>>> {
    let mean = |arms: &[f64]| arms.iter().sum::<f64>() / width as f64;
    let game = |values: &Vec<f64>| values.chunks_exact(width).map(mean).collect();
    games.iter().map(|stratum| stratum.iter().map(game).collect()).collect()
}

/// Weights that turn values into what a straight line adds over the whole range (scores of Armitage
/// 1955, Biometrics 11:375-386, for a trend in rates).
pub(super) fn slope_weights(values: &[i64]) -> Vec<f64> {
    let x: Vec<f64> = values.iter().map(|&v| v as f64).collect();
    let centre = x.iter().sum::<f64>() / x.len() as f64;
    let squares: f64 = x.iter().map(|x| (x - centre) * (x - centre)).sum();
    let range = x.last().zip(x.first()).map_or(0.0, |(last, first)| last - first);
    x.iter().map(|x| range * (x - centre) / squares).collect()
}

impl Draft<'_> {
    fn finish(
        &self,
        plan: &SweepPlan,
        trend: JudgedShift,
        steps: Vec<JudgedShift>,
        draws: &NormalDraws,
    ) -> SweepCurve {
        let x: Vec<f64> = self.axis.values.iter().map(|&v| v as f64).collect();
        let level = band_confidence(&self.joint.covariance, CONFIDENCE, draws);
        let shape = shape(&trend, &steps);
        let raw: Vec<f64> = self.joint.means.iter().map(|m| m.value).collect();
        let monotone = match shape {
            SweepShape::Rises => Some(isotonic(&raw, &[])),
            SweepShape::Falls => Some(antitonic(&raw, &[])),
            SweepShape::Turns | SweepShape::Open => None,
        };
        let link = match self.metric.spec().kind {
            MetricKind::Rate => Link::LogOdds,
            MetricKind::Number => Link::Plain,
        };
        let fit = curve(link, &x, &self.joint);
        let means = means(self.metric, &self.joint, level);
        let targets = plan.targets.iter().filter(|t| t.metric == self.metric.spec().name);
        let mut targets: Vec<f64> = targets.map(|t| t.value).collect();
        if plan.targets.is_empty() && self.metric == Metric::AttackerWins {
            targets.push(0.5);
        }
        let reach = self.reach();
        let crossing = |target: f64| {
            let known = monotone.as_ref().unwrap_or(&raw);
            crossing(&x, known, &means, fit.as_ref(), target, reach)
        };
        SweepCurve {
            metric: self.metric.spec().name.to_owned(),
            option: self.axis.option.clone(),
            values: self.axis.values.clone(),
            games: u32::try_from(self.trend.count).unwrap_or(u32::MAX),
            crossings: targets.into_iter().map(crossing).collect(),
            shape,
            trend,
            steps,
            fit: fit.map(|fit| told(&fit, reach)),
            monotone,
            means,
        }
    }

    /// Standard errors in the interval of a number with the freedom of the trend.
    fn reach(&self) -> f64 {
        Estimate { value: 0.0, se: 1.0, ..self.trend }.interval(CONFIDENCE).high
    }
}

/// The means with their intervals and, at the confidence `level` of each, the band of all.
pub(super) fn means(metric: Metric, joint: &Joint, level: f64) -> Vec<SweepMean> {
    let interval = |mean: &Estimate, confidence: f64| match metric.spec().kind {
        MetricKind::Rate => mean.rate_interval(confidence),
        MetricKind::Number => mean.interval(confidence),
    };
    let told = |mean: &Estimate| {
        let (own, band) = (interval(mean, CONFIDENCE), interval(mean, level));
        SweepMean {
            mean: mean.value,
            low: own.low,
            high: own.high,
            band_low: band.low,
            band_high: band.high,
        }
    };
    joint.means.iter().map(told).collect()
}

/// Which way a metric goes, by the trend and by the steps, each adjusted over all of its kind.
fn shape(trend: &JudgedShift, steps: &[JudgedShift]) -> SweepShape {
    let sure = |up: bool| {
        let goes = |s: &JudgedShift| s.p_adjusted < LEVEL && (s.value > 0.0) == up;
        std::iter::once(trend).chain(steps).any(goes)
    };
    match (sure(true), sure(false)) {
        (true, true) => SweepShape::Turns,
        (true, false) => SweepShape::Rises,
        (false, true) => SweepShape::Falls,
        (false, false) => SweepShape::Open,
    }
}

/// Read off the curve where one fits, else off the means and their band.
fn crossing(
    x: &[f64],
    known: &[f64],
    means: &[SweepMean],
    fit: Option<&Curve>,
    target: f64,
    reach: f64,
) -> SweepCrossing {
    let fits = fit.filter(|fit| fit.lack.is_none_or(|lack| lack.p >= LEVEL));
    let off_curve = fits.and_then(|fit| fieller(fit, x, target, reach));
    let band = |m: &SweepMean| Interval { low: m.band_low, high: m.band_high };
    let by = if off_curve.is_some() { SweepReading::Fit } else { SweepReading::Band };
    let Crossing { at, possible } = off_curve.unwrap_or_else(|| {
        let band: Vec<Interval> = means.iter().map(band).collect();
        band_crossing(x, known, &band, target)
    });
    let range = |p: crate::stats::Possible| SweepRange {
        low: p.range.low,
        high: p.range.high,
        open_below: p.open_below,
        open_above: p.open_above,
    };
    SweepCrossing {
        target,
        by,
        at,
        possible: possible.into_iter().map(range).collect(),
        above: known.first().is_some_and(|first| *first > target),
    }
}

fn told(fit: &Curve, reach: f64) -> SweepFit {
    let off = reach * fit.covariance[1][1].max(0.0).sqrt();
    SweepFit {
        model: match fit.link {
            Link::Plain => SweepModel::Line,
            Link::LogOdds => SweepModel::Logistic,
        },
        intercept: fit.intercept,
        slope: fit.slope,
        slope_low: fit.slope - off,
        slope_high: fit.slope + off,
        fitted: fit.fitted.clone(),
        lack: fit.lack.map(|lack| lack.q),
        df: fit.lack.map_or(0, |lack| lack.df),
        p: fit.lack.map(|lack| lack.p),
    }
}
