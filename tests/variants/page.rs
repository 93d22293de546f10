//! The tables of the measured variants, which the page of the house rules shows.

use std::fmt::Write;
use std::fs;

use ruleshift_hooks::{Overrides, SHIPPED, Source, Variant};
use ruleshift_record::{Metric, MetricShift};

use super::claims::{CLAIMS, Way};
use super::measured::{GAMES, Measured, SEED, measured, names};
use crate::support::repository;

const PAGE: &str = "variants/README.md";
const BEGIN: &str =
    "<!-- measured: written by RULESHIFT_BLESS=1 cargo test -p ruleshift-tests variants -->\n";
const END: &str = "<!-- end of measured -->\n";

/// Columns of the table of shifts: heading and metric.
const COLUMNS: [(&str, Metric); 5] = [
    ("attacker wins, pp", Metric::AttackerWins),
    ("turns", Metric::Turns),
    ("minutes", Metric::Minutes),
    ("units left idle, pp", Metric::IdleUnits),
    ("men lost", Metric::MenLost),
];

/// A share in points of percent; a number as it is.
fn scaled(shift: &MetricShift, value: f64) -> f64 {
    if shift.unit == "share" { 100.0 * value } else { value }
}

/// With its sign; what rounds to nothing has none.
fn signed(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    match text.bytes().any(|b| b.is_ascii_digit() && b != b'0') {
        true if value < 0.0 => format!("−{text}"),
        true => format!("+{text}"),
        false => text,
    }
}

fn decimals(shift: &MetricShift) -> usize {
    if shift.unit == "share" || shift.notice >= 1.0 { 1 } else { 2 }
}

/// A shift with its interval, in bold when that does not hold zero.
fn cell(shift: &MetricShift) -> String {
    let number = |value| signed(scaled(shift, value), decimals(shift));
    let strong = if sure(shift).is_some() { "**" } else { "" };
    let (low, high) = (number(shift.low), number(shift.high));
    format!("{strong}{}{strong} ({low} to {high})", number(shift.shift))
}

/// The way a metric surely went: its interval lies on one side of zero.
fn sure(shift: &MetricShift) -> Option<Way> {
    if shift.low > 0.0 {
        Some(Way::Up)
    } else if shift.high < 0.0 {
        Some(Way::Down)
    } else {
        None
    }
}

/// What came of one expectation.
fn outcome(shift: &MetricShift, expected: Way) -> String {
    let unit = if shift.unit == "share" { "pp" } else { &shift.unit };
    let found = format!("{} {unit}", signed(scaled(shift, shift.shift), decimals(shift)));
    match sure(shift) {
        Some(way) if way == expected => format!("as expected ({found})"),
        Some(_) => format!("**the other way** ({found})"),
        None => "too small to tell".to_owned(),
    }
}

/// What came of all expectations of a variant.
fn outcomes(measured: &Measured, variant: &str) -> String {
    let (_, claims) =
        CLAIMS.iter().find(|(name, _)| *name == variant).expect("every variant claims");
    let outcome = |&(metric, way): &(Metric, Way)| {
        let word = if way == Way::Up { "up" } else { "down" };
        let shift = measured.shift(variant, metric);
        format!("{} {word}: {}", metric.spec().label, outcome(shift, way))
    };
    claims.iter().map(outcome).collect::<Vec<_>>().join("; ")
}

fn loaded(name: &str) -> Variant {
    let script = SHIPPED.iter().find(|script| script.name == name).expect("it is shipped");
    Variant::load(&Source::new(name, script.text), &Overrides::none()).unwrap()
}

fn questions(measured: &Measured) -> Vec<String> {
    let row = |name| {
        let variant = loaded(name);
        let (question, expect) = (variant.question(), variant.expect());
        let (question, expect) = (question.expect("it asks"), expect.expect("it expects"));
        format!("| `{name}` | {question} | {expect} | {} |", outcomes(measured, name))
    };
    names().map(row).collect()
}

fn shifts(measured: &Measured) -> Vec<String> {
    let row = |name| {
        let cells = COLUMNS.map(|(_, metric)| cell(measured.shift(name, metric)));
        format!("| `{name}` | {} |", cells.join(" | "))
    };
    names().map(row).collect()
}

/// Both tables.
fn page(measured: &Measured) -> String {
    let mut text = format!(
        "What a house rule does, and whether it does what its author thought it would. {GAMES} games in\n\
         each arm, shared out over the shipped scenarios, between `steady` players, seed {SEED}; the row of\n\
         one variant comes from\n\n\
         ```sh\nruleshift compare no-late-fire --games {GAMES} --seed {SEED}\n```\n\n\
         A shift is *as expected*, or went *the other way*, when its whole 95 % interval lies on that side\n\
         of zero; otherwise it is *too small to tell*, which more games may change: with all variants\n\
         in one `compare` and `--games 4000` the intervals are less than half as wide, for some two minutes\n\
         on one core. One interval in twenty misses; pp are points of percent.\n\n\
         | variant | the question | what its author expected | what came |\n|---|---|---|---|\n"
    );
    questions(measured).iter().for_each(|row| _ = writeln!(text, "{row}"));
    let heads = COLUMNS.map(|(head, _)| head).join(" | ");
    let _ = write!(
        text,
        "\nShifts against the base rules with their 95 % intervals, bold where they do not hold zero:\n\n| variant | {heads} |\n|---|{}\n",
        "---|".repeat(COLUMNS.len())
    );
    shifts(measured).iter().for_each(|row| _ = writeln!(text, "{row}"));
    text
}

/// The page with the tables of this run between its marks.
fn written(old: &str) -> Option<String> {
    let (before, rest) = old.split_once(BEGIN)?;
    let (_, after) = rest.split_once(END)?;
    Some(format!("{before}{BEGIN}\n{}\n{END}{after}", page(measured())))
}

/// Cells in which two texts differ, row by row.
fn differences(old: &str, new: &str) -> Vec<String> {
    let cells = |line: &str| line.split(" | ").map(str::to_owned).collect::<Vec<_>>();
    let rows = old.lines().zip(new.lines()).filter(|(old, new)| old != new);
    rows.flat_map(|(old, new)| {
        let (old, new) = (cells(old), cells(new));
        let named = old[0].clone();
        let pairs = old.into_iter().zip(new).filter(|(old, new)| old != new);
        pairs.map(move |(old, new)| format!("{named}: `{old}` is now `{new}`")).collect::<Vec<_>>()
    })
    .collect()
}

#[test]
fn the_page_of_the_house_rules_shows_what_was_measured() {
    let old = repository::text(PAGE);
    let new = written(&old).expect("the page has the marks of the measured tables");
    if std::env::var_os("RULESHIFT_BLESS").is_some() {
        fs::write(repository::root().join(PAGE), &new).unwrap();
        return;
    }
    let differences = differences(&old, &new);
    assert!(
        old == new,
        "{}\nif games were to change:\n  \
         RULESHIFT_BLESS=1 cargo test -p ruleshift-tests variants",
        differences.join("\n")
    );
}

#[test]
fn signs_are_those_of_what_is_shown() {
    let shown = [-0.04, 0.04, -0.06, 12.0].map(|value| signed(value, 1));
    assert_eq!(shown, ["0.0", "0.0", "−0.1", "+12.0"]);
}
