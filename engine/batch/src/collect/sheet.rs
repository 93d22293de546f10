//! The values of one game as they are filled in, and how counts become values.

use ruleshift_game::{EndCause, Side};
use ruleshift_record::{Metric, Values};

/// What the end of a game tells every accumulator.
#[derive(Clone, Copy)]
pub(super) struct End {
    pub(super) winner: Option<Side>,
    pub(super) margin: i16,
    pub(super) cause: EndCause,
    pub(super) turns: u16,
    pub(super) dice: u32,
    pub(super) throws: u32,
    pub(super) decisions: u32,
}

/// The values of one game. Accumulators count in whole numbers; this is where they become decimals.
#[derive(Clone)]
pub(super) struct Sheet(pub(super) Values);

impl Sheet {
    pub(super) const EMPTY: Sheet = Sheet([0.0; Metric::ALL.len()]);

    pub(super) fn count(&mut self, metric: Metric, count: u32) {
        self.0[metric as usize] = count.into();
    }

    pub(super) fn flag(&mut self, metric: Metric, value: bool) {
        self.count(metric, value.into());
    }

    pub(super) fn value(&mut self, metric: Metric, value: f64) {
        self.0[metric as usize] = millionths(value);
    }

    /// A part of a whole; 0 when there is nothing to have a part of.
    pub(super) fn ratio(&mut self, metric: Metric, part: u32, whole: u32) {
        self.value(metric, ratio(part, whole));
    }

    /// Two sides' counts and both together.
    pub(super) fn sides(&mut self, all: Metric, of: [Metric; 2], counts: [u32; 2]) {
        self.count(all, counts.iter().sum());
        of.iter().zip(counts).for_each(|(&metric, count)| self.count(metric, count));
    }
}

pub(super) fn ratio(part: u32, whole: u32) -> f64 {
    if whole == 0 { 0.0 } else { f64::from(part) / f64::from(whole) }
}

/// Rounded to millionths: finer than any reader needs, and half as long in a file.
fn millionths(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

/// An end on the turn limit.
#[cfg(test)]
pub(super) fn end(winner: Option<Side>, turns: u16) -> End {
    let cause = EndCause::TurnLimit;
    End { winner, margin: 0, cause, turns, dice: 0, throws: 0, decisions: 0 }
}
