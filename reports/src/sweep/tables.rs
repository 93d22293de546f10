//! The tables of a sweep.

use ruleshift_record::{
    JudgedShift, Metric, SweepCurve, SweepGrid, SweepMean, SweepModel, SweepReading, SweepShape,
    SweepSummary, Verdict,
};

use super::headline::{place, range, target, whole};
use super::is_headline;
use crate::format::{and, fixed, p_value};
use crate::report::{Cell, Column, Table};
use crate::words::scale;

/// What stands in a cell with nothing to say.
pub(super) const DASH: &str = "\u{2013}";

/// Values of an option that stand side by side on one screen.
const SIDE_BY_SIDE: usize = 5;

/// The curves of the headline along an option.
pub(super) fn headline_curves<'a>(
    summary: &'a SweepSummary,
    option: &'a str,
) -> impl Iterator<Item = &'a SweepCurve> {
    let headline = move |c: &&SweepCurve| c.option == option && is_headline(summary, &c.metric);
    summary.curves.iter().filter(headline)
}

/// Values to show when there is no room for all: the first, the last, and others evenly between.
pub(super) fn chosen(count: usize) -> Vec<usize> {
    if count <= SIDE_BY_SIDE {
        return (0..count).collect();
    }
    (0..SIDE_BY_SIDE)
        .map(|n| (n * (count - 1) + (SIDE_BY_SIDE - 1) / 2) / (SIDE_BY_SIDE - 1))
        .collect()
}

/// The headline means at some values, each with the verdict on its shift against the reference.
pub(super) fn front(summary: &SweepSummary) -> Option<Table> {
    let option = &summary.plan.option;
    let first = headline_curves(summary, option).next()?;
    let shown = chosen(first.values.len());
    let row = |curve: &SweepCurve| -> Option<Vec<Cell>> {
        let metric = Metric::by_name(&curve.metric)?;
        let scale = scale(metric);
        let cell = |n: usize| {
            let verdict =
                curve.values.get(n).and_then(|&value| verdict(summary, value, &curve.metric));
            Cell::judged(scale.value(curve.means[n].mean), verdict)
        };
        let base = summary.comparison.metrics.iter().find(|m| m.metric == curve.metric);
        let base = base.map_or(DASH.to_owned(), |m| scale.value(m.reference_mean));
        let label = scale.labelled(metric.spec().label);
        let means = shown.iter().filter(|&&n| n < curve.means.len()).map(|&n| cell(n));
        Some([Cell::metric(&curve.metric, label), base.into()].into_iter().chain(means).collect())
    };
    let reference = summary.comparison.arms.first().map_or("", |arm| arm.name.as_str());
    let left = first.values.len() - shown.len();
    let rest = if left > 0 { format!(" ({left} more values below)") } else { String::new() };
    let columns = shown.iter().map(|&n| Column::numbers(whole(first.values[n])));
    Some(Table {
        caption: format!("Means by {option}{rest}"),
        columns: [Column::words("Metric"), Column::numbers(reference)]
            .into_iter()
            .chain(columns)
            .collect(),
        rows: headline_curves(summary, option).filter_map(row).collect(),
    })
}

/// The verdict on a value against the reference; in a grid a value has no arm of its own.
fn verdict(summary: &SweepSummary, value: i64, metric: &str) -> Option<Verdict> {
    let plan = &summary.plan;
    let at = plan.values.iter().position(|&v| v == value).filter(|_| plan.second.is_none())?;
    summary.shift(plan.arm(at, 0), metric).map(|m| m.verdict)
}

/// A grid as a table of means, each with the verdict on its shift against the reference.
pub(super) fn grid(summary: &SweepSummary, grid: &SweepGrid) -> Option<Table> {
    let metric = Metric::by_name(&grid.metric)?;
    let (second, inner) = summary.plan.second.as_ref()?;
    let cell = |n: usize, k: usize, mean: Option<SweepMean>| match mean {
        Some(mean) => {
            let shift = summary.shift(summary.plan.arm(n, k), &grid.metric);
            Cell::judged(scale(metric).value(mean.mean), shift.map(|m| m.verdict))
        }
        None => DASH.to_owned().into(),
    };
    let row = |(n, means): (usize, &Vec<Option<SweepMean>>)| -> Vec<Cell> {
        let name = whole(summary.plan.values[n]).into();
        let cells = means.iter().enumerate().map(|(k, mean)| cell(n, k, *mean));
        std::iter::once(name).chain(cells).collect()
    };
    let label = scale(metric).labelled(metric.spec().label);
    Some(Table {
        caption: format!("{label}: rows by {}, columns by {second}", summary.plan.option),
        columns: std::iter::once(Column::numbers(summary.plan.option.as_str()))
            .chain(inner.iter().map(|&v| Column::numbers(whole(v))))
            .collect(),
        rows: grid.means.iter().enumerate().map(row).collect(),
    })
}

/// The means of a curve with their intervals.
pub(super) fn means(curve: &SweepCurve, metric: Metric) -> Table {
    let scale = scale(metric);
    let ends = |low: f64, high: f64| {
        let percent = if metric.spec().unit == "share" { 100.0 } else { 1.0 };
        let digits =
            scale.value(1.0).split('.').nth(1).map_or(0, |d| d.trim_end_matches(" %").len());
        format!("{} to {}", fixed(percent * low, digits), fixed(percent * high, digits))
    };
    let row = |(n, m): (usize, &SweepMean)| -> Vec<Cell> {
        let fitted = curve.fit.as_ref().and_then(|fit| fit.fitted.get(n));
        vec![
            whole(curve.values[n]).into(),
            scale.value(m.mean).into(),
            ends(m.low, m.high).into(),
            ends(m.band_low, m.band_high).into(),
            fitted.map_or(DASH.to_owned(), |f| scale.value(*f)).into(),
        ]
    };
    Table {
        caption: format!("{} at each value", scale.labelled(metric.spec().label)),
        columns: vec![
            Column::numbers(curve.option.as_str()),
            Column::numbers("Mean"),
            Column::numbers("95 % interval"),
            Column::numbers("All at once, 95 %"),
            Column::numbers("Curve"),
        ],
        rows: curve.means.iter().enumerate().map(row).collect(),
    }
}

/// The shift of each value against the reference and against the value before it.
pub(super) fn shifts(summary: &SweepSummary, curve: &SweepCurve, metric: Metric) -> Table {
    let scale = scale(metric);
    let told = |value: f64, low: f64, high: f64, verdict: Verdict| -> [Cell; 3] {
        [scale.shift(value).into(), scale.interval(low, high).into(), verdict.into()]
    };
    let none = || [(); 3].map(|()| Cell::from(DASH.to_owned()));
    let row = |n: usize| -> Vec<Cell> {
        let value = curve.values[n];
        let at = summary.plan.values.iter().position(|&v| v == value);
        let shift = at.and_then(|at| summary.shift(summary.plan.arm(at, 0), &curve.metric));
        let against = shift.map_or_else(none, |m| told(m.shift, m.low, m.high, m.verdict));
        let step = n.checked_sub(1).and_then(|before| curve.steps.get(before));
        let step = step.map_or_else(none, |s| told(s.value, s.low, s.high, s.verdict));
        std::iter::once(whole(value).into()).chain(against).chain(step).collect()
    };
    let reference = summary.comparison.arms.first().map_or("", |arm| arm.name.as_str());
    Table {
        caption: scale.labelled(metric.spec().label),
        columns: vec![
            Column::numbers(curve.option.as_str()),
            Column::numbers(format!("Against {reference}")),
            Column::numbers("95 % interval"),
            Column::words("Verdict"),
            Column::numbers("Against the value before"),
            Column::numbers("95 % interval"),
            Column::words("Verdict"),
        ],
        rows: (0..curve.values.len()).map(row).collect(),
    }
}

/// What straight trends add over the range, which way each metric goes, and what curve fits it.
pub(super) fn trends<'a>(option: &str, curves: impl Iterator<Item = &'a SweepCurve>) -> Table {
    let row = |c: &SweepCurve| -> Option<Vec<Cell>> {
        let metric = Metric::by_name(&c.metric)?;
        let scale = scale(metric);
        let mut cells: Vec<Cell> =
            vec![Cell::metric(&c.metric, scale.labelled(metric.spec().label))];
        cells.extend(judged(metric, &c.trend));
        cells.push(shape(c.shape).to_owned().into());
        let fits = c.fit.as_ref().map(|fit| match fit.p {
            Some(p) => format!("{}, p {}", curve(fit.model), p_value(p)),
            None => curve(fit.model).to_owned(),
        });
        cells.push(fits.unwrap_or_else(|| DASH.to_owned()).into());
        Some(cells)
    };
    Table {
        caption: format!("Trends along {option}"),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Over the range"),
            Column::numbers("95 % interval"),
            Column::words("Verdict"),
            Column::words("Goes"),
            Column::words("Through the means"),
        ],
        rows: curves.filter_map(row).collect(),
    }
}

/// A shift with its interval and its word.
fn judged(metric: Metric, shift: &JudgedShift) -> [Cell; 3] {
    let scale = scale(metric);
    [
        scale.shift(shift.value).into(),
        scale.interval(shift.low, shift.high).into(),
        shift.verdict.into(),
    ]
}

fn shape(shape: SweepShape) -> &'static str {
    match shape {
        SweepShape::Rises => "up",
        SweepShape::Falls => "down",
        SweepShape::Turns => "up and down",
        SweepShape::Open => "nowhere surely",
    }
}

pub(super) fn curve(model: SweepModel) -> &'static str {
    match model {
        SweepModel::Logistic => "logistic curve",
        SweepModel::Line => "straight line",
    }
}

/// Where curves have their targets; no row without any.
pub(super) fn crossings(summary: &SweepSummary) -> Table {
    let rows = summary.curves.iter().flat_map(|c| c.crossings.iter().map(move |x| (c, x)));
    let rows = rows.filter_map(|(c, x)| {
        let metric = Metric::by_name(&c.metric)?;
        let at: Vec<String> = x.at.iter().map(|at| place(c, *at)).collect();
        let possible: Vec<String> = x.possible.iter().map(|r| range(c, r)).collect();
        let or = |words: Vec<String>, none: &str| match words.as_slice() {
            [] => none.to_owned(),
            some => and(some),
        };
        let nowhere = if x.above { "none, always above" } else { "none, always below" };
        let by = match x.by {
            SweepReading::Fit => "fitted curve",
            SweepReading::Band => "means and their band",
        };
        Some(vec![
            Cell::metric(&c.metric, target(metric, x.target)),
            c.option.clone().into(),
            or(at, "does not cross").into(),
            or(possible, nowhere).into(),
            by.to_owned().into(),
        ])
    });
    Table {
        caption: "Where the targets are".to_owned(),
        columns: vec![
            Column::words("Target"),
            Column::words("Option"),
            Column::numbers("At about"),
            Column::numbers("Possible, 95 %"),
            Column::words("Read off"),
        ],
        rows: rows.collect(),
    }
}

/// How much the trend along the first option depends on the second.
pub(super) fn interactions(summary: &SweepSummary) -> Table {
    let row = |grid: &SweepGrid| -> Option<Vec<Cell>> {
        let metric = Metric::by_name(&grid.metric)?;
        let own = judged(metric, grid.interaction.as_ref()?);
        let label = scale(metric).labelled(metric.spec().label);
        Some(std::iter::once(Cell::metric(&grid.metric, label)).chain(own).collect())
    };
    let second = summary.plan.second.as_ref().map_or("", |(name, _)| name.as_str());
    Table {
        caption: format!(
            "The trend along {} at the largest {second} less that at the least",
            summary.plan.option
        ),
        columns: vec![
            Column::words("Metric"),
            Column::numbers("Difference"),
            Column::numbers("95 % interval"),
            Column::words("Verdict"),
        ],
        rows: summary.grids.iter().filter_map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::chosen;

    #[test]
    fn few_of_many_values_are_chosen_evenly() {
        assert_eq!(chosen(3), [0, 1, 2]);
        assert_eq!(chosen(5), [0, 1, 2, 3, 4]);
        assert_eq!(chosen(9), [0, 2, 4, 6, 8]);
        assert_eq!(chosen(7), [0, 2, 3, 5, 6]);
    }
}
