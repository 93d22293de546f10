//! Where does a rare share lie, without any approximation?
//!
//! The exact interval of Clopper & Pearson (1934, Biometrika 26:404-413) by quantiles of the beta
//! distribution: never too short, whatever the share, which for rare events is worth its length.

use statrs::distribution::{Beta, ContinuousCDF};

use super::Interval;

/// The interval for the share behind `successes` in `trials` (Clopper & Pearson 1934); `None`
/// without trials or with more successes than trials.
pub fn clopper_pearson(successes: u64, trials: u64, confidence: f64) -> Option<Interval> {
    if trials == 0 || successes > trials {
        return None;
    }
    let (x, rest, tail) = (successes as f64, (trials - successes) as f64, (1.0 - confidence) / 2.0);
    let low = if successes == 0 { 0.0 } else { below(x, rest + 1.0, tail)? };
    let high = if rest == 0.0 { 1.0 } else { 1.0 - below(rest, x + 1.0, tail)? };
    Some(Interval { low, high })
}

/// The value below which that share of the beta distribution lies, to its last digit.
///
/// The library's inverse does not end for rare events in ten million games. What lies below a value grows with
/// it, and numbers from 0 to 1 are in the order of their bits: so these are halved, which finds small values as
/// surely as others.
fn below(a: f64, b: f64, share: f64) -> Option<f64> {
    let beta = Beta::new(a, b).ok()?;
    let (mut low, mut high) = (0, 1_f64.to_bits());
    while high - low > 1 {
        let middle = low.midpoint(high);
        let side = if beta.cdf(f64::from_bits(middle)) < share { &mut low } else { &mut high };
        *side = middle;
    }
    Some(f64::from_bits(high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use statrs::distribution::{Binomial, DiscreteCDF};

    #[test]
    fn nothing_tried_says_nothing() {
        assert_eq!((clopper_pearson(0, 0, 0.95), clopper_pearson(3, 2, 0.95)), (None, None));
    }

    #[test]
    fn never_is_the_exact_limit_of_no_event() {
        // (1 - high)^20 is 0.025.
        let never = clopper_pearson(0, 20, 0.95).unwrap();
        assert_eq!(never.low, 0.0);
        assert!((never.high - (1.0 - 0.025_f64.powf(0.05))).abs() < 1e-12);
        assert_eq!(clopper_pearson(20, 20, 0.95).unwrap().high, 1.0);
    }

    /// Against the incomplete beta function to 40 digits (mpmath 1.3.0), with as many games as a run may have.
    #[test]
    fn rare_events_in_ten_million_games_have_limits() {
        let expected = [
            (1, 2.531_780_795_224_03e-9, 5.571_642_117_360_73e-7),
            (3, 6.186_721_656_250_59e-8, 8.767_270_541_579_75e-7),
            (30, 2.024_088_288_604_87e-6, 4.282_683_792_807_8e-6),
        ];
        for (events, low, high) in expected {
            let interval = clopper_pearson(events, 10_000_000, 0.95).unwrap();
            let near = |value: f64, known: f64| (value / known - 1.0).abs() < 1e-7;
            assert!(near(interval.low, low) && near(interval.high, high), "{interval:?}");
        }
    }

    /// At each end, what was seen lies just in the tail; also for rare events in many games.
    #[test]
    fn each_end_leaves_its_tail() {
        for (x, n) in [(1, 29), (7, 100_000), (300, 100_000), (50_000, 100_000), (99_999, 100_000)]
        {
            let interval = clopper_pearson(x, n, 0.95).unwrap();
            let at_most = Binomial::new(interval.high, n).unwrap().cdf(x);
            let fewer = Binomial::new(interval.low, n).unwrap().cdf(x - 1);
            assert!((at_most - 0.025).abs() < 1e-8, "{x} of {n}: {at_most}");
            assert!((1.0 - fewer - 0.025).abs() < 1e-8, "{x} of {n}: {fewer}");
        }
    }
}
