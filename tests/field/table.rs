//! The calibration table: what the base game gives beside what is known of the trade.

use std::io::Write;

use super::list::{CHECKS, Form, Home, check, without_figure};
use super::{
    armour, batteries, cards, course, crossing, dusk, fairness, fire, flanks, forces, measured,
    organisation, pace, shipped, sighting, skill, uses, will,
};
use crate::support::stats::Sample;

/// Standard errors within which exact values must lie: they fail once in 16,000.
const EXACT: f64 = 4.0;

/// One value beside its range.
pub(super) struct Row {
    /// Row of the list of checks.
    pub(super) number: u8,
    pub(super) what: String,
    pub(super) value: f64,
    pub(super) range: (f64, f64),
    pub(super) source: &'static str,
}

/// A row.
pub(super) fn row(
    number: u8,
    what: impl Into<String>,
    value: f64,
    range: (f64, f64),
    source: &'static str,
) -> Row {
    Row { number, what: what.into(), value, range, source }
}

/// A row whose mean is known exactly.
pub(super) fn exact(number: u8, what: &str, sample: &Sample, mean: f64) -> Row {
    let around = EXACT * sample.error();
    row(number, what, sample.mean(), (mean - around, mean + around), "C")
}

impl Row {
    fn inside(&self) -> bool {
        (self.range.0..=self.range.1).contains(&self.value)
    }

    fn line(&self) -> String {
        let (low, high) = self.range;
        let letter = check(self.number).1.letter();
        let inside = if self.inside() { "in" } else { "OUT" };
        let range = format!("{low:.3} - {high:.3}");
        format!(
            "{:>3} {letter} {:52} {:>8.3}  {range:17} {inside:4} {}",
            self.number, self.what, self.value, self.source
        )
    }
}

fn rows() -> Vec<Row> {
    let parts = [
        cards::rows(),
        fire::rows(),
        sighting::rows(),
        will::rows(),
        forces::rows(),
        shipped::rows(),
        crossing::rows(),
        fairness::rows(),
        flanks::rows(),
        batteries::rows(),
        dusk::rows(),
        pace::rows(),
        armour::rows(),
        skill::rows(),
        course::rows(),
        organisation::rows(),
    ];
    let mut rows: Vec<Row> = parts.into_iter().flatten().collect();
    rows.sort_by_key(|row| row.number);
    rows
}

fn text(rows: &[Row]) -> String {
    let lines: Vec<String> = rows.iter().map(Row::line).collect();
    let out = rows.iter().filter(|row| !row.inside()).count();
    let [missing, elsewhere] = without_figure();
    format!(
        "\ncalibration: E exact, D direction, R range, T table practice; value, range, source\n\
         (S read at the source, C computed, M from memory, P common practice)\n{}\n\
         {} of {} checks apply, in {} rows, {out} of them OUT.\n\
         Held by a test without a figure:\n{}\nNot these:\n{}\n\n{}\n{}\n{}",
        lines.join("\n"),
        CHECKS.len() - missing.len(),
        CHECKS.len(),
        rows.len(),
        elsewhere.join("\n"),
        missing.join("\n"),
        forces::page(),
        measured::page(),
        uses::page()
    )
}

/// Values outside their range are shown, not failed, when their sources are memory or practice;
/// exact ones must hold. Each check that applies has a row.
#[test]
fn calibration() {
    let rows = rows();
    // Not `println`, which is kept from whoever reads a run that succeeds.
    std::io::stdout().lock().write_all(text(&rows).as_bytes()).unwrap();
    for row in &rows {
        assert!(row.value.is_finite(), "{}", row.line());
        assert!(check(row.number).1 != Form::Exact || row.inside(), "{}", row.line());
    }
    for check in &CHECKS {
        let shown = rows.iter().any(|row| row.number == check.0);
        let applies = !matches!(check.3, Home::Absent(_) | Home::Elsewhere(_));
        assert_eq!(shown, applies, "row {}: {}", check.0, check.2);
    }
}
