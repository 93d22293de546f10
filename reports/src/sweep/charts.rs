//! The pictures of a sweep, described in words as well.

use ruleshift_record::{
    Metric, SweepCurve, SweepFit, SweepGrid, SweepMean, SweepModel, SweepSummary,
};

use super::headline::{crossed, whole};
use super::{is_headline, tables};
use crate::format::and;
use crate::report::{Chart, Heat, Plot, Response};
use crate::stats::rate;
use crate::words::scale;

/// Points of a fitted curve.
const POINTS: usize = 16;

/// A chart for each curve of the headline and each curve that was asked for; in a grid those of the
/// balance alone, and every grid.
pub(super) fn charts(summary: &SweepSummary) -> Vec<Chart> {
    let grid = summary.plan.second.is_some();
    let drawn = |c: &&SweepCurve| !grid || !c.crossings.is_empty();
    let grids = summary.grids.iter().filter_map(|g| heat(summary, g));
    let curves = summary.curves.iter().filter(drawn).filter_map(|c| curve(summary, c));
    grids.chain(curves).collect()
}

fn curve(summary: &SweepSummary, curve: &SweepCurve) -> Option<Chart> {
    let metric = Metric::by_name(&curve.metric)?;
    let reference = summary.comparison.metrics.iter().find(|m| m.metric == curve.metric);
    let title = summary.comparison.arms.first().map_or("", |arm| arm.title.as_str());
    let mut series = vec![
        format!("{title} (dashed)"),
        "mean and 95 % interval; shaded: all means at once, 95 %".to_owned(),
    ];
    series.extend(curve.fit.as_ref().map(|fit| tables::curve(fit.model).to_owned()));
    let plot = Response {
        x: curve.values.iter().map(|&v| v as f64).collect(),
        means: curve.means.clone(),
        fitted: curve.fit.as_ref().map_or(vec![], |fit| points(curve, fit)),
        reference: reference.map(|m| m.reference_mean),
        targets: curve.crossings.iter().map(|c| c.target).collect(),
        share: metric.spec().unit == "share",
        axes: (curve.option.clone(), scale(metric).labelled(metric.spec().label)),
    };
    Some(Chart {
        title: format!("{} by {}", capital(metric.spec().label), curve.option),
        description: described(curve, metric),
        series,
        plot: Plot::Response(Box::new(plot)),
        data: tables::means(curve, metric),
    })
}

/// The picture in words.
fn described(curve: &SweepCurve, metric: Metric) -> String {
    let scale = scale(metric);
    let mean = |(m, v): (&SweepMean, &i64)| format!("{} at {}", scale.value(m.mean), whole(*v));
    let means: Vec<String> = curve.means.iter().zip(&curve.values).map(mean).collect();
    let t = &curve.trend;
    let trend = format!(
        "The straight trend over the range is {} (95 % {}): {}.",
        scale.shift(t.value),
        scale.interval(t.low, t.high),
        t.verdict.word()
    );
    let crossings = curve.crossings.iter().map(|x| capital(&crossed(curve, x)) + ".");
    let all = [format!("Means: {}.", and(&means)), trend];
    all.into_iter().chain(crossings).collect::<Vec<_>>().join(" ")
}

/// The fitted curve between the least and the largest value.
fn points(curve: &SweepCurve, fit: &SweepFit) -> Vec<(f64, f64)> {
    let (Some(&first), Some(&last)) = (curve.values.first(), curve.values.last()) else {
        return vec![];
    };
    let (first, width) = (first as f64, (last - first) as f64);
    let at = |n: usize| {
        let x = first + width * n as f64 / POINTS as f64;
        let line = fit.intercept + fit.slope * x;
        (x, if fit.model == SweepModel::Logistic { rate(line) } else { line })
    };
    let step = if fit.model == SweepModel::Line { POINTS } else { 1 };
    (0..=POINTS).step_by(step).map(at).collect()
}

fn heat(summary: &SweepSummary, grid: &SweepGrid) -> Option<Chart> {
    let metric = Metric::by_name(&grid.metric).filter(|_| is_headline(summary, &grid.metric))?;
    let (second, inner) = summary.plan.second.as_ref()?;
    let known = || grid.means.iter().flatten().flatten().map(|m| m.mean);
    let (low, high) =
        (known().fold(f64::INFINITY, f64::min), known().fold(f64::NEG_INFINITY, f64::max));
    let scale = scale(metric);
    let cell = |mean: &Option<SweepMean>| match mean {
        Some(m) if high > low => ((m.mean - low) / (high - low), scale.value(m.mean)),
        Some(m) => (0.0, scale.value(m.mean)),
        None => (0.0, tables::DASH.to_owned()),
    };
    let names = |values: &[i64]| values.iter().map(|&v| whole(v)).collect();
    let label = scale.labelled(metric.spec().label);
    Some(Chart {
        title: format!("{} over both options", capital(&label)),
        description: format!(
            "A grid of means, rows by {} and columns by {second}, the larger the stronger their colour: from {} to {}.",
            summary.plan.option,
            scale.value(low),
            scale.value(high)
        ),
        series: vec![],
        plot: Plot::Heat(Box::new(Heat {
            rows: (summary.plan.option.clone(), names(&summary.plan.values)),
            columns: (second.clone(), names(inner)),
            cells: grid.means.iter().map(|row| row.iter().map(cell).collect()).collect(),
        })),
        data: tables::grid(summary, grid)?,
    })
}

/// With a capital letter in front.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or(String::new(), |c| c.to_uppercase().chain(letters).collect())
}
