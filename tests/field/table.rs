//! The calibration table: what the base game gives beside what is known of the trade.

use std::io::Write;

use super::{crossing, fairness, fire, forces, shipped, sighting, will};

/// One value beside its range.
pub(super) struct Row {
    /// Row of the table of checks.
    pub(super) number: &'static str,
    pub(super) what: &'static str,
    pub(super) value: f64,
    pub(super) range: (f64, f64),
    pub(super) source: &'static str,
}

impl Row {
    fn line(&self) -> String {
        let (low, high) = self.range;
        let inside = if (low..=high).contains(&self.value) { "in" } else { "OUT" };
        format!(
            "{:>3} {:46} {:>7.3} {low:>7.3} - {high:<7.3} {inside:4} {}",
            self.number, self.what, self.value, self.source
        )
    }
}

/// Values outside their range are shown, not failed: their sources are memory or practice.
#[test]
fn calibration() {
    let mut rows: Vec<Row> = [
        fire::rows(),
        sighting::rows(),
        will::rows(),
        forces::rows(),
        shipped::rows(),
        crossing::rows(),
        fairness::rows(),
    ]
    .into_iter()
    .flatten()
    .collect();
    rows.sort_by_key(|row| row.number.parse::<u32>().expect("rows are numbered"));
    let lines: Vec<String> = rows.iter().map(Row::line).collect();
    let text = format!("\ncalibration: value, range, source\n{}\n", lines.join("\n"));
    // Not `println`, which is kept from whoever reads a run that succeeds.
    std::io::stdout().lock().write_all(text.as_bytes()).unwrap();
    assert!(rows.iter().all(|row| row.value.is_finite()), "{text}");
    assert!(rows.len() >= 20, "{} rows", rows.len());
}
