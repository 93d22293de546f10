//! How sure is an estimate whose standard error is known up to chance?
//!
//! Interval and two-sided p-value by Student's t (Student 1908, Biometrika 6:1-25); equivalence by
//! two one-sided tests (Schuirmann 1987, Journal of Pharmacokinetics and Biopharmaceutics
//! 15:657-680). Without any spread t is not defined: the interval is the point itself, and the
//! p-value is that of flipping the signs of all equal differences (Fisher 1935, The Design of
//! Experiments, section 21): two of the 2^n ways are as far from zero.

use statrs::distribution::{Continuous, ContinuousCDF, StudentsT};

use super::normal_quantile;

/// Newton's steps that are taken at most: a single degree of freedom takes some ten.
const MOST_STEPS: u32 = 200;

/// A range of values, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end, not below the lower.
    pub high: f64,
}

impl Interval {
    /// Whether every value of the interval is nearer to zero than `margin`.
    pub fn within(&self, margin: f64) -> bool {
        -margin < self.low && self.high < margin
    }
}

/// A mean, how far chance moves it, and how well that is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The mean.
    pub value: f64,
    /// Its standard error, not negative.
    pub se: f64,
    /// Degrees of freedom of the standard error, above 0.
    pub df: f64,
    /// Values it rests on.
    pub count: usize,
}

impl Estimate {
    /// The two-sided interval of that `confidence`, between 0 and 1.
    pub fn interval(&self, confidence: f64) -> Interval {
        let reach = match self.t() {
            Some(t) => quantile(&t, (1.0 - confidence.clamp(0.0, 1.0)) / 2.0) * self.se,
            None => 0.0,
        };
        Interval { low: self.value - reach, high: self.value + reach }
    }

    /// The two-sided p-value of "the mean is zero".
    pub fn p(&self) -> f64 {
        match self.t() {
            Some(t) => (2.0 * t.sf((self.value / self.se).abs())).min(1.0),
            None if self.value == 0.0 => 1.0,
            None => 2.0 * 0.5_f64.powi(i32::try_from(self.count).unwrap_or(i32::MAX)),
        }
    }

    /// The p-value of "the mean is at least `margin` away from zero": small when it is not.
    pub fn equivalence_p(&self, margin: f64) -> f64 {
        let room = margin - self.value.abs();
        match self.t() {
            Some(t) => t.sf(room / self.se),
            None => f64::from(u8::from(room <= 0.0)),
        }
    }

    /// This less another that rests on other games: standard errors add as squares, degrees of
    /// freedom by Satterthwaite (1946).
    pub fn less(&self, other: &Estimate) -> Estimate {
        let (one, two) = (self.se * self.se, other.se * other.se);
        let variance = one + two;
        let df = if variance > 0.0 {
            1.0 / ((one / variance).powi(2) / self.df + (two / variance).powi(2) / other.df)
        } else {
            self.df + other.df
        };
        let value = self.value - other.value;
        Estimate { value, se: variance.sqrt(), df, count: self.count + other.count }
    }

    /// The distribution of the mean over its standard error; `None` without any spread.
    fn t(&self) -> Option<StudentsT> {
        if self.se > 0.0 { StudentsT::new(0.0, 1.0, self.df).ok() } else { None }
    }
}

/// The value that `t` exceeds with chance `tail`, at most a half.
///
/// The library's inverse loses digits with thousands of degrees of freedom (at ten million, 1.83 is left of
/// 1.96). Its tail does not, and is convex: Newton's steps from the normal quantile, which lies below, climb to the
/// value and never pass it.
fn quantile(t: &StudentsT, tail: f64) -> f64 {
    let mut x = normal_quantile(1.0 - tail);
    for _ in 0..MOST_STEPS {
        let next = x + (t.sf(x) - tail) / t.pdf(x);
        if !next.is_finite() || next <= x {
            break;
        }
        x = next;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    fn estimate(value: f64, se: f64) -> Estimate {
        Estimate { value, se, df: 9.0, count: 10 }
    }

    #[test]
    fn nothing_but_zeros_is_exactly_zero() {
        let zero = estimate(0.0, 0.0);
        assert_eq!(zero.interval(0.95), Interval { low: 0.0, high: 0.0 });
        assert_eq!((zero.p(), zero.equivalence_p(0.5)), (1.0, 0.0));
    }

    #[test]
    fn equal_shifts_are_as_sure_as_their_number() {
        let always_one = estimate(1.0, 0.0);
        assert_eq!(always_one.interval(0.95), Interval { low: 1.0, high: 1.0 });
        assert_eq!(always_one.p(), 2.0 / 1024.0);
        assert_eq!([always_one.equivalence_p(1.0), always_one.equivalence_p(1.5)], [1.0, 0.0]);
    }

    #[test]
    fn a_difference_adds_errors_as_squares() {
        let apart = estimate(5.0, 3.0).less(&estimate(2.0, 4.0));
        assert_eq!((apart.value, apart.se, apart.count), (3.0, 5.0, 20));
        // Welch's sum: (9 / 25) squared and (16 / 25) squared, each over 9.
        assert!((apart.df - 9.0 * 625.0 / (81.0 + 256.0)).abs() < 1e-12);
        let sure = estimate(5.0, 0.0).less(&estimate(2.0, 0.0));
        assert_eq!((sure.se, sure.df), (0.0, 18.0));
    }

    #[test]
    fn an_estimate_on_the_margin_is_not_within_it() {
        assert_eq!(estimate(0.5, 0.1).equivalence_p(0.5), 0.5);
        assert!(!Interval { low: 0.0, high: 0.5 }.within(0.5));
        assert!(Interval { low: -0.4, high: 0.4 }.within(0.5));
    }

    /// Against the incomplete beta function to 40 digits (mpmath 1.3.0), and for one degree of freedom the
    /// tangent of the Cauchy distribution; also for as many games as a run may have.
    #[test]
    fn quantiles_hold_for_one_degree_of_freedom_and_for_ten_million() {
        let expected = [
            (1.0, 12.706_204_736_174_7),
            (1e3, 1.962_339_080_826_41),
            (1e5, 1.959_987_707_534_61),
            (1e7, 1.959_964_221_767_21),
        ];
        for (df, value) in expected {
            let interval = Estimate { df, ..estimate(0.0, 1.0) }.interval(0.95);
            assert!((interval.high - value).abs() < 1e-7 * value, "{df}: {}", interval.high);
        }
    }

    #[test]
    fn the_p_value_and_the_interval_agree_on_significance() {
        for value in [0.1, 0.5, 1.0, 2.0, 2.26, 2.27, 5.0] {
            let estimate = estimate(value, 1.0);
            assert_eq!(estimate.p() < 0.05, estimate.interval(0.95).low > 0.0, "{value}");
        }
    }

    #[test]
    fn both_equivalence_tests_pass_when_the_90_percent_interval_fits() {
        for value in [-1.9, -1.0, 0.0, 0.16, 0.17, 1.0] {
            let estimate = estimate(value, 1.0);
            let fits = estimate.interval(0.90).within(2.0);
            assert_eq!(estimate.equivalence_p(2.0) < 0.05, fits, "{value}");
        }
    }
}
