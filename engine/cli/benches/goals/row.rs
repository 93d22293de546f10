//! The table of goals.

use std::process::Command;

use comfy_table::presets::UTF8_HORIZONTAL_ONLY;
use comfy_table::{ContentArrangement, Table};

/// One goal and what is measured.
pub(crate) struct Row {
    /// What the goal is about.
    pub(crate) what: &'static str,
    pub(crate) goal: &'static str,
    pub(crate) measured: String,
    /// Whether it is met, in words.
    pub(crate) verdict: String,
    /// What the figure is made of.
    pub(crate) how: String,
}

/// A verdict in words.
pub(crate) fn verdict(met: bool) -> String {
    if met { "met" } else { "not met" }.to_owned()
}

/// Whole numbers with a comma between thousands.
pub(crate) fn thousands(value: f64) -> String {
    let digits = format!("{value:.0}");
    let mut told = String::new();
    for (n, digit) in digits.chars().enumerate() {
        if n > 0 && (digits.len() - n) % 3 == 0 {
            told.push(',');
        }
        told.push(digit);
    }
    told
}

/// Prints the machine, the table, and how each figure comes about.
pub(crate) fn print(rows: &[Row]) {
    println!("{}\n", machine());
    let mut table = Table::new();
    table.load_style(UTF8_HORIZONTAL_ONLY);
    table.set_content_arrangement(ContentArrangement::Dynamic).set_width(100);
    table.set_header(["What", "Goal", "Measured", "Verdict"]);
    for row in rows {
        table.add_row([row.what, row.goal, row.measured.as_str(), row.verdict.as_str()]);
    }
    println!("{table}\n\nHow each is measured, in the same order:");
    for (n, row) in rows.iter().enumerate() {
        println!("{}", textwrap::fill(&format!("{:>2}. {}", n + 1, row.how), wrapped()));
    }
}

fn wrapped() -> textwrap::Options<'static> {
    textwrap::Options::new(100).subsequent_indent("    ")
}

/// What the figures were measured on.
fn machine() -> String {
    let cores = std::thread::available_parallelism().map_or(0, usize::from);
    let rustc = Command::new("rustc").arg("--version").output();
    let rustc = rustc.map_or(String::new(), |out| String::from_utf8_lossy(&out.stdout).into());
    let system = format!("{} {}", std::env::consts::ARCH, std::env::consts::OS);
    format!(
        "{}, {system}, {cores} cores. Reference game: hasty attack, steady on both sides.",
        rustc.trim()
    )
}
