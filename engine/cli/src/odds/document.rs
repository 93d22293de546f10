//! Chances as data: fractions as text and as numbers, whole distributions.

use serde::Serialize;

use super::fraction::{Fraction, decimal};
use super::page::{Group, Spread, Value};
use super::topic::{Odds, Shown};

/// Everything, as `--json` prints it.
#[derive(Serialize)]
pub(crate) struct Document {
    /// The rule stack beside the base rules; none when there is none.
    stack: Option<String>,
    topics: Vec<Part>,
    /// What the figures do not hold.
    notes: Vec<String>,
}

#[derive(Serialize)]
struct Part {
    topic: &'static str,
    /// What was held fixed.
    held: Vec<String>,
    cases: Vec<Case>,
}

#[derive(Serialize)]
struct Case {
    case: String,
    rows: Vec<Line>,
    distributions: Vec<Distribution>,
}

#[derive(Serialize)]
struct Line {
    what: String,
    base: Number,
    #[serde(skip_serializing_if = "Option::is_none")]
    stack: Option<Number>,
    #[serde(skip_serializing_if = "Option::is_none")]
    differs: Option<bool>,
}

/// One value; what it has not is left out.
#[derive(Default, Serialize)]
struct Number {
    kind: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    needed: Option<i32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fraction: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<&'static str>,
}

#[derive(Serialize)]
struct Distribution {
    of: &'static str,
    base: Vec<Outcome>,
    #[serde(skip_serializing_if = "Option::is_none")]
    stack: Option<Vec<Outcome>>,
}

#[derive(Serialize)]
struct Outcome {
    number: i32,
    fraction: String,
    value: f64,
}

impl Document {
    /// The document of some chances.
    pub(crate) fn new(odds: &Odds) -> Document {
        Document {
            stack: odds.stack.clone(),
            topics: odds.shown.iter().map(part).collect(),
            notes: odds.notes.clone(),
        }
    }
}

fn part(shown: &Shown) -> Part {
    let case = |(n, group): (usize, &Group)| {
        let stack = shown.stack.as_ref().map(|groups| &groups[n]);
        Case {
            case: group.case.clone(),
            rows: (0..group.rows.len()).map(|n| line(group, stack, n)).collect(),
            distributions: (0..group.spreads.len()).map(|n| spread(group, stack, n)).collect(),
        }
    };
    Part {
        topic: shown.topic.name,
        held: shown.held.clone(),
        cases: shown.base.iter().enumerate().map(case).collect(),
    }
}

fn line(base: &Group, stack: Option<&Group>, n: usize) -> Line {
    let row = &base.rows[n];
    let other = stack.map(|group| &group.rows[n].value);
    Line {
        what: row.what.trim_start().to_owned(),
        base: number(&row.value),
        stack: other.map(number),
        differs: other.map(|other| *other != row.value),
    }
}

fn number(value: &Value) -> Number {
    let of = |kind, fraction: &Fraction| Number {
        kind,
        fraction: Some(fraction.to_string()),
        value: Some(decimal(fraction)),
        ..Number::default()
    };
    match value {
        Value::Chance(fraction) => of("chance", fraction),
        Value::Mean(fraction) => of("mean", fraction),
        Value::Needed(needed, fraction) => {
            Number { needed: Some(*needed), ..of("chance", fraction) }
        }
        Value::Number(number) => {
            Number { kind: "number", value: Some((*number).into()), ..Number::default() }
        }
        Value::Word(why) => Number { kind: "none", why: Some(why), ..Number::default() },
    }
}

fn spread(base: &Group, stack: Option<&Group>, n: usize) -> Distribution {
    let outcomes = |spread: &Spread| -> Vec<Outcome> {
        let one = |(&number, chance): (&i32, &Fraction)| Outcome {
            number,
            fraction: chance.to_string(),
            value: decimal(chance),
        };
        spread.chances.outcomes().map(one).collect()
    };
    Distribution {
        of: base.spreads[n].of,
        base: outcomes(&base.spreads[n]),
        stack: stack.map(|group| outcomes(&group.spreads[n])),
    }
}
