//! What the metrics of a report mean: only those that its tables name.

use ruleshift_record::{Metric, MetricKind, MetricShift};
use serde::Serialize;

use crate::format::Scale;
use crate::report::{Block, Column, Report, Table};

/// Heading of the section that explains the metrics.
pub(crate) const HEADING: &str = "What the metrics mean";

/// A metric in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MetricNote {
    /// Name of its column.
    pub name: String,
    /// Its label.
    pub label: String,
    /// What it measures, in a sentence.
    pub about: String,
    /// What it is counted in.
    pub unit: String,
    /// The smallest shift worth noticing in this run, with its unit.
    pub notice: String,
}

impl MetricNote {
    /// A metric in words; `shifts` know what is worth noticing in this run.
    pub(crate) fn of(metric: Metric, shifts: &[MetricShift]) -> MetricNote {
        let spec = metric.spec();
        let judged = shifts.iter().find(|m| m.metric == spec.name);
        let notice = judged.map_or(spec.notice, |m| m.notice);
        let unit = match (spec.kind, spec.unit) {
            (MetricKind::Rate, _) => "percent of games",
            (_, "share") => "percent",
            (_, unit) => unit,
        };
        MetricNote {
            name: spec.name.to_owned(),
            label: spec.label.to_owned(),
            about: spec.about.to_owned(),
            unit: unit.to_owned(),
            notice: Scale::new(spec.unit, notice).amount(notice),
        }
    }
}

impl Report {
    /// The report with its metrics explained; `shifts` know what is worth noticing in this run.
    pub(crate) fn explained(mut self, shifts: &[MetricShift]) -> Report {
        let blocks = self.sections().flat_map(|section| &section.blocks);
        let tables = blocks.filter_map(|block| match block {
            Block::Table(table) => Some(table),
            Block::Chart(chart) => Some(&chart.data),
            _ => None,
        });
        let cells = tables.flat_map(|table| table.rows.iter().flatten());
        let mut named: Vec<Metric> = cells.filter_map(|cell| cell.metric).collect();
        named.sort_unstable();
        named.dedup();
        self.metrics = named.into_iter().map(|metric| MetricNote::of(metric, shifts)).collect();
        self
    }
}

/// The metrics of a report as a table; `None` when it names none.
pub(crate) fn table(notes: &[MetricNote]) -> Option<Table> {
    let row = |note: &MetricNote| {
        [&note.label, &note.about, &note.unit, &note.notice]
            .map(|text| text.clone().into())
            .to_vec()
    };
    (!notes.is_empty()).then(|| Table {
        caption: HEADING.to_owned(),
        columns: vec![
            Column::words("Metric"),
            Column::words("What it measures"),
            Column::words("Counted in"),
            Column::numbers("Smallest shift worth noticing"),
        ],
        rows: notes.iter().map(row).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::{Cell, Section};
    use crate::sample;

    fn naming(names: &[&str]) -> Report {
        let row = |name: &&str| vec![Cell::metric(name, "its label")];
        let rows = names.iter().map(row).collect();
        let table = Table { caption: String::new(), columns: vec![Column::words("Metric")], rows };
        let body = vec![Section::new("Numbers", vec![Block::Table(table)])];
        Report { body, ..Report::default() }
    }

    #[test]
    fn only_what_is_named_is_explained_once_and_in_order() {
        let report = naming(&["turns", "attacker_wins", "turns", "no such metric"]).explained(&[]);
        let names: Vec<&str> = report.metrics.iter().map(|note| note.name.as_str()).collect();
        assert_eq!(names, ["attacker_wins", "turns"]);
        let units: Vec<&str> = report.metrics.iter().map(|note| note.unit.as_str()).collect();
        assert_eq!(units, ["percent of games", "turns"]);
        assert_eq!(report.metrics[0].notice, "3.0 percentage points");
        assert_eq!(table(&report.metrics).unwrap().rows.len(), 2);
        assert_eq!(table(&naming(&[]).explained(&[]).metrics), None);
    }

    #[test]
    fn what_is_noticed_is_that_of_the_run() {
        let shift = MetricShift { notice: 1.5, ..sample::shift(Metric::Turns) };
        let report = naming(&["turns"]).explained(&[shift]);
        assert_eq!(report.metrics[0].notice, "1.5 turns");
    }
}
