//! Where does a share lie, given how often it happened?
//!
//! Wilson's score interval without continuity correction (Wilson 1927, Journal of the American
//! Statistical Association 22:209-212; method 3 of Newcombe 1998, Statistics in Medicine
//! 17:857-872).

use super::{Interval, normal_quantile};

/// The interval for the share behind `successes` in `trials`; `None` without trials or with more
/// successes than trials.
pub fn wilson(successes: u64, trials: u64, confidence: f64) -> Option<Interval> {
    if trials == 0 || successes > trials {
        return None;
    }
    Some(score(successes as f64, trials as f64, confidence))
}

/// The same for a count of successes and of trials, above 0, that need not be whole.
pub(super) fn score(x: f64, n: f64, confidence: f64) -> Interval {
    let z = normal_quantile(0.5 + confidence / 2.0);
    let centre = x + z * z / 2.0;
    let reach = z * (x * (n - x) / n + z * z / 4.0).sqrt();
    // At 0 and at n the formula gives exactly 0 and 1; rounding must not say otherwise.
    let low = if x == 0.0 { 0.0 } else { (centre - reach) / (n + z * z) };
    let high = if x == n { 1.0 } else { (centre + reach) / (n + z * z) };
    Interval { low, high }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_tried_says_nothing() {
        assert_eq!(wilson(0, 0, 0.95), None);
        assert_eq!(wilson(3, 2, 0.95), None);
    }

    #[test]
    fn the_ends_stay_within_0_and_1() {
        assert_eq!(wilson(0, 1, 0.95).unwrap().low, 0.0);
        assert_eq!(wilson(1, 1, 0.95).unwrap().high, 1.0);
        assert_eq!(wilson(100_000, 100_000, 0.95).unwrap().high, 1.0);
    }

    #[test]
    fn a_share_and_its_rest_mirror_each_other() {
        let (share, rest) = (wilson(3, 11, 0.9).unwrap(), wilson(8, 11, 0.9).unwrap());
        assert!((share.low + rest.high - 1.0).abs() < 1e-15);
        assert!((share.high + rest.low - 1.0).abs() < 1e-15);
    }
}
