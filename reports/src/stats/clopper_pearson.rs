//! Where does a rare share lie, without any approximation?
//!
//! The exact interval of Clopper & Pearson (1934, Biometrika 26:404-413) by quantiles of the beta
//! distribution: never too short, whatever the share, which for rare events is worth its length.

use statrs::distribution::{Beta, Continuous, ContinuousCDF};

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

/// The value below which that share, at most a half, of the beta distribution lies: the library's
/// quantile, brought to its last digits by Newton steps.
fn below(a: f64, b: f64, share: f64) -> Option<f64> {
    let beta = Beta::new(a, b).ok()?;
    let first = beta.inverse_cdf(share);
    let step = |x: f64| {
        let next = x - (beta.cdf(x) - share) / beta.pdf(x);
        if next > 0.0 && next < 1.0 { next } else { x }
    };
    Some(step(step(step(first))))
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
