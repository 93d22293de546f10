//! The charts of a report: their data, described in words as well.

use ruleshift_record::{Metric, MetricShift, RunRecord, Summary};

use super::tables::{label, others};
use super::{drawn, headline};
use crate::format::{Scale, counted, fixed};
use crate::report::{Cell, Chart, Column, ForestMark, ForestRow, Plot, Table};
use crate::stats::{Moments, histogram};

/// Bins of a distribution at most.
const BINS: usize = 21;

/// The charts of all headline metrics, and of the margin, that the run has data for.
pub(super) fn charts(summary: &Summary, run: &RunRecord) -> Vec<Chart> {
    forest(summary).into_iter().chain(distribution(summary, run, Metric::Margin)).collect()
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

/// The unit in which shares are drawn.
const PERCENT: &str = "percent";

/// How the games of an arm are drawn in a distribution, by the place of its series.
const LINES: [&str; 4] = ["filled", "a whole line", "a dashed line", "a dotted line"];

/// How one metric is spread over the games of the arms that are drawn.
pub(super) fn distribution(summary: &Summary, run: &RunRecord, metric: Metric) -> Option<Chart> {
    let spec = metric.spec();
    let places = drawn::drawn(summary);
    // Shares are drawn in percent.
    let (times, unit) = if spec.unit == "share" { (100.0, PERCENT) } else { (1.0, spec.unit) };
    let column = |&arm: &usize| -> Vec<f64> {
        let mut values = run.games.column(arm, metric);
        values.iter_mut().for_each(|value| *value *= times);
        values
    };
    let groups: Vec<Vec<f64>> = places.iter().map(column).collect();
    let bins = histogram(&groups, BINS)?;
    let arms = drawn::arms(summary);
    let said = arms.iter().zip(LINES).zip(&groups).filter_map(|((arm, line), values)| {
        let mean = Moments::of(values)?.mean / times;
        let mean = Scale::new(spec.unit, spec.notice).value(mean);
        let games = counted(values.len() as u64, "game");
        Some(format!("{} ({line}) has mean {mean} over {games}", arm.title))
    });
    Some(Chart {
        title: format!("How games differ in {}", spec.label),
        description: format!(
            "Share of games by {} ({unit}), for each arm: {}.{}",
            spec.label,
            said.collect::<Vec<String>>().join("; "),
            drawn::told(summary)
        ),
        series: drawn::titles(summary),
        data: shares(summary, &bins.shares, bins.start, bins.width, unit),
        plot: Plot::Distribution {
            start: bins.start,
            width: bins.width,
            shares: bins.shares,
            axis: format!("{}, {unit}", spec.label),
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
            // No share is below nothing, though its bin is.
            let least = if unit == PERCENT { low.max(0.0) } else { low };
            format!("{} to {}", fixed(least, 1), fixed(low + width, 1))
        };
        let share = |s: &Vec<f64>| Cell::from(format!("{} %", fixed(100.0 * s[bin], 1)));
        std::iter::once(name.into()).chain(shares.iter().map(share)).collect()
    };
    Table {
        caption: "Share of games".to_owned(),
        columns: std::iter::once(Column::numbers(unit))
            .chain(drawn::arms(summary).iter().map(|a| Column::numbers(a.name.as_str())))
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
        assert_eq!(charts.len(), 2);
        assert!(charts[0].description.contains("margin +2.00 (arm-1)"), "{:?}", charts[0]);
        assert!(
            charts[1].description.ends_with(
                "Base rules (filled) has mean −0.25 over 20 games; Arm 1 (a whole line) has mean 1.75 \
                 over 20 games."
            ),
            "{:?}",
            charts[1]
        );
    }

    #[test]
    fn shares_are_spread_in_percent() {
        let mut run = sample::run(&[sample::games(20), sample::games(20)]);
        run.games = run.games.changed(|rows| {
            rows.iter_mut().for_each(|row| row.values[Metric::IdleUnits as usize] = 0.25);
        });
        let chart = distribution(&summarise(&run), &run, Metric::IdleUnits).unwrap();
        assert!(chart.description.contains("(percent)"), "{}", chart.description);
        assert!(chart.description.contains("has mean 25.0 % over 20 games"), "{chart:?}");
        assert_eq!(chart.data.rows[0][0].text, "25");
        run.games = run.games.changed(|rows| rows[0].values[Metric::IdleUnits as usize] = 0.0);
        let wider = distribution(&summarise(&run), &run, Metric::IdleUnits).unwrap();
        assert_eq!(wider.data.rows[0][0].text, "0.0 to 1.0");
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
