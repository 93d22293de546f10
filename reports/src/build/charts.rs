//! The charts of a report: their data, described in words as well.

use ruleshift_record::{Metric, MetricShift, RunRecord, Summary};

use super::headline;
use super::tables::{label, others};
use crate::format::{Scale, counted, fixed};
use crate::report::{Cell, Chart, Column, ForestMark, ForestRow, Plot, Table};
use crate::stats::{Moments, histogram};

/// Bins of a distribution at most.
const BINS: usize = 21;

/// The charts that the run has data for.
pub(super) fn charts(summary: &Summary, run: &RunRecord) -> Vec<Chart> {
    let distributions = [Metric::Turns, Metric::Margin].map(|m| distribution(summary, run, m));
    forest(summary).into_iter().chain(distributions.into_iter().flatten()).collect()
}

/// The headline shifts of all arms in multiples of what is noticed.
fn forest(summary: &Summary) -> Option<Chart> {
    let arms = others(summary);
    let mark = |m: &MetricShift| ForestMark {
        shift: m.shift / m.notice,
        low: m.low / m.notice,
        high: m.high / m.notice,
    };
    let row = |metric: &Metric| ForestRow {
        label: metric.spec().label.to_owned(),
        marks: arms
            .iter()
            .map(|a| {
                let same = |m: &&MetricShift| m.arm == a.name && m.metric == metric.spec().name;
                summary.metrics.iter().find(same).map(mark)
            })
            .collect(),
    };
    let rows: Vec<ForestRow> = headline(summary).map(row).collect();
    if rows.iter().all(|r| r.marks.iter().all(Option::is_none)) {
        return None;
    }
    Some(Chart {
        title: "Shifts in multiples of the smallest shift worth noticing".to_owned(),
        description: format!(
            "One row for each headline metric: the shift and its 95 % interval, divided by the \
             smallest shift worth noticing. Between −1 and +1 nobody would notice. {}",
            outside(summary)
        ),
        series: arms.iter().map(|a| a.title.clone()).collect(),
        data: forest_data(&rows, arms.iter().map(|a| a.name.as_str())),
        plot: Plot::Forest { rows },
    })
}

/// Which shifts lie beyond what nobody would notice.
fn outside(summary: &Summary) -> String {
    let beyond: Vec<String> = summary
        .metrics
        .iter()
        .filter(|m| m.headline && m.shift.abs() >= m.notice)
        .map(|m| format!("{} {} ({})", label(m), Scale::of(m).shift(m.shift), m.arm))
        .collect();
    match beyond.as_slice() {
        [] => "No shift lies outside.".to_owned(),
        some => format!("Outside lie: {}.", some.join(", ")),
    }
}

fn forest_data<'a>(rows: &[ForestRow], arms: impl Iterator<Item = &'a str>) -> Table {
    let cell = |mark: &Option<ForestMark>| -> Cell {
        let times = Scale::new("", 1.0);
        match mark {
            Some(m) => {
                format!("{} ({})", times.signed(m.shift), times.interval(m.low, m.high)).into()
            }
            None => "too few games".to_owned().into(),
        }
    };
    let row = |r: &ForestRow| {
        std::iter::once(r.label.clone().into()).chain(r.marks.iter().map(cell)).collect()
    };
    Table {
        caption: "Shift and 95 % interval, in multiples of what is noticed".to_owned(),
        columns: std::iter::once(Column::words("Metric"))
            .chain(arms.map(Column::numbers))
            .collect(),
        rows: rows.iter().map(row).collect(),
    }
}

/// How one metric is spread over the games of every arm.
fn distribution(summary: &Summary, run: &RunRecord, metric: Metric) -> Option<Chart> {
    let spec = metric.spec();
    let groups: Vec<Vec<f64>> =
        (0..summary.arms.len()).map(|arm| run.games.column(arm, metric)).collect();
    let bins = histogram(&groups, BINS)?;
    let means: Vec<String> = summary
        .arms
        .iter()
        .zip(&groups)
        .filter_map(|(arm, values)| {
            let mean = Scale::new(spec.unit, spec.notice).value(Moments::of(values)?.mean);
            let games = counted(values.len() as u64, "game");
            Some(format!("{} has mean {mean} over {games}", arm.title))
        })
        .collect();
    Some(Chart {
        title: format!("How games differ in {}", spec.label),
        description: format!(
            "Share of games by {} ({}), for each arm: {}.",
            spec.label,
            spec.unit,
            means.join("; ")
        ),
        series: summary.arms.iter().map(|a| a.title.clone()).collect(),
        data: shares(summary, &bins.shares, bins.start, bins.width, spec.unit),
        plot: Plot::Distribution {
            start: bins.start,
            width: bins.width,
            shares: bins.shares,
            axis: format!("{}, {}", spec.label, spec.unit),
        },
    })
}

/// Every bin as a row, every arm as a column.
fn shares(summary: &Summary, shares: &[Vec<f64>], start: f64, width: f64, unit: &str) -> Table {
    let bins = shares.first().map_or(0, Vec::len);
    let row = |bin: usize| -> Vec<Cell> {
        let low = start + width * bin as f64;
        let name = if width == 1.0 {
            fixed(low + 0.5, 0)
        } else {
            format!("{} to {}", fixed(low, 1), fixed(low + width, 1))
        };
        let share = |s: &Vec<f64>| Cell::from(format!("{} %", fixed(100.0 * s[bin], 1)));
        std::iter::once(name.into()).chain(shares.iter().map(share)).collect()
    };
    Table {
        caption: "Share of games".to_owned(),
        columns: std::iter::once(Column::numbers(unit))
            .chain(summary.arms.iter().map(|a| Column::numbers(a.name.as_str())))
            .collect(),
        rows: (0..bins).map(row).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{sample, summarise};

    #[test]
    fn nothing_played_draws_nothing() {
        let run = sample::run(&[vec![], vec![]]);
        assert_eq!(charts(&summarise(&run), &run), []);
    }

    #[test]
    fn a_chart_says_in_words_what_it_draws() {
        let games = sample::games(20);
        let better = games.iter().map(|&(s, g, m)| (s, g, m + 2.0)).collect();
        let run = sample::run(&[games, better]);
        let charts = charts(&summarise(&run), &run);
        assert_eq!(charts.len(), 3);
        assert!(charts[0].description.contains("margin +2.00 (arm-1)"), "{:?}", charts[0]);
        assert!(charts[1].description.ends_with(
            "Base rules has mean 8.00 over 20 games; Arm 1 has mean 8.00 over 20 games."
        ));
    }

    #[test]
    fn a_forest_mark_counts_in_smallest_shifts_worth_noticing() {
        let games = sample::games(20);
        let better = games.iter().map(|&(s, g, m)| (s, g, m + 2.0)).collect();
        let run = sample::run(&[games, better]);
        let Some(Chart { plot: Plot::Forest { rows }, .. }) = forest(&summarise(&run)) else {
            panic!("no forest");
        };
        assert_eq!(rows[1].label, "margin");
        assert_eq!(rows[1].marks, [Some(ForestMark { shift: 4.0, low: 4.0, high: 4.0 })]);
    }
}
