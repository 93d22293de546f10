//! How far do two shares measured on the same games lie apart?
//!
//! The square-and-add interval from Wilson limits, with the corrected phi coefficient for the
//! pairing: method 10 of Newcombe (1998), Statistics in Medicine 17:2635-2650. It is used on the
//! pairs of all scenarios together; what differs between scenarios then counts as spread, so the
//! interval errs on the wide side.

use super::{Interval, wilson};

/// Pairs of yes-or-no results, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct PairTable {
    /// Yes in both.
    pub both: u64,
    /// Yes in the first only.
    pub first_only: u64,
    /// Yes in the second only.
    pub second_only: u64,
    /// Yes in neither.
    pub neither: u64,
}

impl PairTable {
    /// Counts pairs, `true` for yes.
    pub fn count(pairs: impl Iterator<Item = (bool, bool)>) -> PairTable {
        let mut table = PairTable::default();
        for pair in pairs {
            let cell = match pair {
                (true, true) => &mut table.both,
                (true, false) => &mut table.first_only,
                (false, true) => &mut table.second_only,
                (false, false) => &mut table.neither,
            };
            *cell += 1;
        }
        table
    }

    /// All pairs.
    pub fn pairs(&self) -> u64 {
        self.both + self.first_only + self.second_only + self.neither
    }

    /// The first share minus the second; `None` without pairs.
    pub fn difference(&self) -> Option<f64> {
        let n = self.pairs();
        (n > 0).then(|| (self.first_only as f64 - self.second_only as f64) / n as f64)
    }

    /// The interval of [`PairTable::difference`]; `None` without pairs.
    pub fn interval(&self, confidence: f64) -> Option<Interval> {
        let (n, difference) = (self.pairs(), self.difference()?);
        let (first, second) = (self.both + self.first_only, self.both + self.second_only);
        let (p1, p2) = (first as f64 / n as f64, second as f64 / n as f64);
        let (w1, w2) = (wilson(first, n, confidence)?, wilson(second, n, confidence)?);
        let phi = self.phi();
        Some(Interval {
            low: difference - joined(p1 - w1.low, w2.high - p2, phi),
            high: difference + joined(w1.high - p1, p2 - w2.low, phi),
        })
    }

    /// The correlation of the two results, its numerator drawn towards zero by half the pairs when
    /// positive; 0 when a result never varies.
    fn phi(&self) -> f64 {
        let [a, b, c, d] =
            [self.both, self.first_only, self.second_only, self.neither].map(|k| k as f64);
        let margins = (a + b) * (c + d) * (a + c) * (b + d);
        if margins == 0.0 {
            return 0.0;
        }
        let raw = a * d - b * c;
        let numerator = if raw > 0.0 { (raw - (a + b + c + d) / 2.0).max(0.0) } else { raw };
        numerator / margins.sqrt()
    }
}

/// The interval of the first share less the second, each as successes and trials, measured on games
/// of their own: method 10 of Newcombe (1998), Statistics in Medicine 17:873-890. `None` without
/// trials or with more successes than trials.
pub fn unpaired_interval(
    first: (u64, u64),
    second: (u64, u64),
    confidence: f64,
) -> Option<Interval> {
    let (w1, w2) = (wilson(first.0, first.1, confidence)?, wilson(second.0, second.1, confidence)?);
    let (p1, p2) = (first.0 as f64 / first.1 as f64, second.0 as f64 / second.1 as f64);
    Some(Interval {
        low: p1 - p2 - joined(p1 - w1.low, w2.high - p2, 0.0),
        high: p1 - p2 + joined(w1.high - p1, p2 - w2.low, 0.0),
    })
}

/// The length of the sum of two correlated steps; rounding may not make it imaginary.
fn joined(x: f64, y: f64, phi: f64) -> f64 {
    (x * x - 2.0 * phi * x * y + y * y).max(0.0).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_pairs_say_nothing() {
        assert_eq!(PairTable::default().difference(), None);
        assert_eq!(PairTable::default().interval(0.95), None);
    }

    #[test]
    fn unpaired_shares_need_trials_on_both_sides() {
        assert_eq!(unpaired_interval((0, 0), (1, 2), 0.95), None);
        assert_eq!(unpaired_interval((1, 2), (3, 2), 0.95), None);
        let (one, other) = ((3, 10), (9, 20));
        let ahead = unpaired_interval(one, other, 0.9).unwrap();
        let back = unpaired_interval(other, one, 0.9).unwrap();
        assert!((ahead.low + back.high).abs() < 1e-15 && (ahead.high + back.low).abs() < 1e-15);
    }

    #[test]
    fn a_result_that_never_varies_leaves_room_on_both_sides() {
        let never = PairTable { neither: 20, ..PairTable::default() };
        let interval = never.interval(0.95).unwrap();
        assert_eq!(interval.low, -interval.high);
        assert_eq!(interval.high, wilson(0, 20, 0.95).unwrap().high);
    }

    #[test]
    fn swapping_the_two_turns_the_interval_round() {
        let table = PairTable { both: 59, first_only: 6, second_only: 16, neither: 80 };
        let swapped = PairTable { first_only: 16, second_only: 6, ..table };
        let (one, other) = (table.interval(0.95).unwrap(), swapped.interval(0.95).unwrap());
        assert!((one.low + other.high).abs() < 1e-15 && (one.high + other.low).abs() < 1e-15);
    }

    #[test]
    fn counting_sorts_pairs_into_their_cells() {
        let pairs = [(true, true), (true, false), (true, false), (false, true), (false, false)];
        let table = PairTable::count(pairs.into_iter());
        assert_eq!(table, PairTable { both: 1, first_only: 2, second_only: 1, neither: 1 });
        assert_eq!(table.difference(), Some(0.2));
    }
}
