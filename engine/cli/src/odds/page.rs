//! Chances as a page for a terminal: the base rules, the stack beside them, a mark where they
//! differ.

use std::fmt::Write;

use num_traits::ToPrimitive;

use super::chances::Chances;
use super::fraction::{Fraction, decimal};
use super::topic::{Odds, Shown};

/// What stands in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Value {
    /// The chance that something comes about.
    Chance(Fraction),
    /// The mean of something that is counted.
    Mean(Fraction),
    /// A number that dice have to reach, and the chance that they do.
    Needed(i32, Fraction),
    /// A number that follows from the rules without luck.
    Number(i32),
    /// There is no such number, and why.
    Word(&'static str),
}

/// One line: what it is, and how much.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) what: String,
    pub(crate) value: Value,
    /// Whether it is on a short page too.
    pub(crate) brief: bool,
}

/// A distribution, too long for a page and whole in the document.
#[derive(Clone, Debug)]
pub(crate) struct Spread {
    pub(crate) of: &'static str,
    pub(crate) chances: Chances<i32>,
}

/// Rows about one case.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) case: String,
    pub(crate) rows: Vec<Row>,
    pub(crate) spreads: Vec<Spread>,
}

impl Group {
    /// A group about `case`, empty yet.
    pub(crate) fn new(case: impl Into<String>) -> Group {
        Group { case: case.into(), rows: vec![], spreads: vec![] }
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, what: impl Into<String>, value: Value) {
        self.rows.push(Row { what: what.into(), value, brief: true });
    }

    /// Adds a row that a short page leaves out.
    pub(crate) fn detail(&mut self, what: impl Into<String>, value: Value) {
        self.rows.push(Row { what: what.into(), value, brief: false });
    }

    /// Adds a whole distribution.
    pub(crate) fn spread(&mut self, of: &'static str, chances: &Chances<i32>) {
        self.spreads.push(Spread { of, chances: chances.clone() });
    }
}

/// Columns of a value besides its fraction: the number needed, the decimals, the blanks.
const NEEDED: usize = 4;
const DECIMALS: usize = 7;
/// Narrowest and widest fraction that is told; a longer one is in the document only.
const FRACTIONS: [usize; 2] = [8, 15];
/// Terminals at least so wide have room for longer fractions.
const WIDE: usize = 100;
/// Columns of what a row is about.
const LABEL: usize = 39;

/// Widths of the columns.
struct Layout {
    fraction: usize,
    two: bool,
}

impl Layout {
    fn new(width: usize, two: bool) -> Layout {
        Layout { fraction: FRACTIONS[usize::from(width >= WIDE)], two }
    }

    fn cell(&self) -> usize {
        NEEDED + DECIMALS + 1 + self.fraction
    }

    fn line(&self) -> usize {
        LABEL + self.cell() + if self.two { self.cell() + 1 } else { 0 }
    }

    /// One value in its columns.
    fn value(&self, value: &Value) -> String {
        let (needed, number, fraction) = match value {
            Value::Word(word) => return format!("{:>1$}", word, NEEDED + DECIMALS),
            Value::Number(number) => (String::new(), number.to_string(), None),
            Value::Chance(of) | Value::Mean(of) => (String::new(), four(of), Some(of)),
            Value::Needed(needed, of) => (format!("{needed}+"), four(of), Some(of)),
        };
        let told = fraction.filter(|of| !of.is_integer()).map(ToString::to_string);
        let told = told.filter(|text| text.len() <= self.fraction).unwrap_or_default();
        format!("{needed:>NEEDED$}{number:>DECIMALS$} {told}")
    }

    fn row(&self, what: &str, base: &Value, stack: Option<&Value>) -> String {
        let (base_text, cell) = (self.value(base), self.cell());
        let Some(stack) = stack else { return format!("  {what:0$}{base_text}", LABEL - 2) };
        let mark = if base == stack { ' ' } else { '*' };
        let stack = self.value(stack);
        format!("  {what:0$}{base_text:cell$}{mark}{stack}", LABEL - 2)
    }
}

/// Four decimals of a fraction, rounded to the nearest: from the fraction, so that a chance that is
/// not certain is never told as certain.
fn four(of: &Fraction) -> String {
    let rounded = (of * Fraction::from_integer(10_000.into())).round().to_integer();
    let certain = of.is_integer();
    match rounded.to_u64() {
        Some(0) if !certain => "<0.0001".to_owned(),
        Some(10_000) if !certain && decimal(of) < 1.0 => ">0.9999".to_owned(),
        Some(n) => format!("{}.{:04}", n / 10_000, n % 10_000),
        None => format!("{:.4}", decimal(of)),
    }
}

/// The page, for a terminal of so many columns.
pub(crate) fn text(odds: &Odds, width: usize) -> String {
    let layout = Layout::new(width, odds.stack.is_some());
    let mut text = match &odds.stack {
        None => "Exact chances under the base rules\n".to_owned(),
        Some(stack) => format!(
            "Exact chances under the base rules and, beside them, under\n{stack}\n* marks what differs\n"
        ),
    };
    for shown in &odds.shown {
        text.push_str(&topic(shown, &layout));
    }
    let notes = odds.shown.iter().flat_map(|shown| &shown.held).chain(&odds.notes);
    let mut said: Vec<&String> = Vec::new();
    for note in notes {
        if !said.contains(&note) {
            said.push(note);
        }
    }
    text.push('\n');
    for note in said {
        text.push_str(&wrapped(note, layout.line().min(width.max(LABEL))));
    }
    text
}

fn topic(shown: &Shown, layout: &Layout) -> String {
    let right = NEEDED + DECIMALS;
    let head = match layout.two {
        true => {
            let gap = layout.cell() - right + 1;
            format!(
                "{:LABEL$}{:>right$}{:gap$}{:>right$}",
                shown.topic.title, "base rules", "", "the stack"
            )
        }
        false => shown.topic.title.to_owned(),
    };
    let mut text = format!("\n{}\n{}\n", head, "─".repeat(layout.line()));
    for (n, group) in shown.base.iter().enumerate() {
        let stack = shown.stack.as_ref().map(|groups| &groups[n]);
        let _ = writeln!(text, "{}", group.case);
        for (n, row) in group.rows.iter().enumerate() {
            let other = stack.map(|group| &group.rows[n].value);
            let _ = writeln!(text, "{}", layout.row(&row.what, &row.value, other).trim_end());
        }
    }
    text
}

/// A note in lines of so many columns, the first with a dash.
fn wrapped(note: &str, width: usize) -> String {
    let mut lines = vec!["-".to_owned()];
    for word in note.split(' ') {
        let line = lines.last_mut().expect("there is a first line");
        if line.chars().count() + 1 + word.chars().count() <= width {
            let _ = write!(line, " {word}");
        } else {
            lines.push(format!("  {word}"));
        }
    }
    lines.join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::super::fraction::fraction;
    use super::*;

    #[test]
    fn decimals_are_rounded_and_nothing_unsure_is_told_as_sure() {
        let told = |over, under| four(&fraction(over, under));
        assert_eq!([told(2, 3), told(1, 2), told(35, 3)], ["0.6667", "0.5000", "11.6667"]);
        assert_eq!([told(0, 1), told(1, 1)], ["0.0000", "1.0000"]);
        assert_eq!([told(1, 30_000), told(29_999, 30_000)], ["<0.0001", ">0.9999"]);
    }

    #[test]
    fn a_row_marks_what_differs() {
        let layout = Layout::new(80, true);
        let [seven, five] = [(7, 7), (5, 10)].map(|(n, ways)| Value::Needed(n, fraction(ways, 12)));
        let differs = layout.row("to 8 in", &seven, Some(&five));
        assert!(differs.contains("7+ 0.5833 7/12") && differs.contains("*  5+ 0.8333 5/6"));
        assert!(!layout.row("to 8 in", &seven, Some(&seven)).contains('*'));
    }
}
