//! Which curve goes through the means of a range of values, how sure is it, and does it fit?
//!
//! A straight line by least squares, or log odds on a straight line ([`logistic`]). Both put the sum
//! of residuals, and that of residuals times the value, at zero, which gives the errors of the
//! coefficients from the covariance of the means as they were seen (the sandwich of Huber 1967 and
//! White 1980, Econometrica 48:817-838; Liang & Zeger 1986, Biometrika 73:13-22, for games that share
//! luck; from memory), not from a model in which all games are strangers. Lack of fit is the
//! generalised square of the residuals, by the same covariance, against chi-squared with two degrees
//! of freedom fewer than values (Wald 1943, Transactions of the American Mathematical Society
//! 54:426-482, from memory).

use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::Joint;
use super::cholesky::{Matrix, inverse};
use super::logistic::{self, log_odds, logistic, rate};

/// The scale on which a curve is a straight line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Link {
    /// That of the means.
    Plain,
    /// Log odds.
    LogOdds,
}

impl Link {
    /// A mean on this scale; infinite for a share of 0 or 1 on that of log odds.
    pub fn of(self, mean: f64) -> f64 {
        match self {
            Link::Plain => mean,
            Link::LogOdds => log_odds(mean),
        }
    }

    /// The mean behind a value on this scale.
    pub fn back(self, value: f64) -> f64 {
        match self {
            Link::Plain => value,
            Link::LogOdds => rate(value),
        }
    }
}

/// A fitted curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its scale.
    pub link: Link,
    /// Where the value is 0, on that scale.
    pub intercept: f64,
    /// Change with each unit of the value.
    pub slope: f64,
    /// Variances and covariance of both.
    pub covariance: [[f64; 2]; 2],
    /// The curve at each value, as means.
    pub fitted: Vec<f64>,
    /// The test of its fit; `None` with two values, or when the means tell nothing of it.
    pub lack: Option<LackOfFit>,
}

/// How far means lie off a curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LackOfFit {
    /// The generalised square of the residuals.
    pub q: f64,
    /// Degrees of freedom.
    pub df: u32,
    /// P-value of "the curve fits".
    pub p: f64,
}

/// The curve of that scale through means at distinct, rising values `x`; `None` when there is none.
pub fn curve(link: Link, x: &[f64], joint: &Joint) -> Option<Curve> {
    let means: Vec<f64> = joint.means.iter().map(|m| m.value).collect();
    if x.len() != means.len() || x.len() < 2 || x.windows(2).any(|pair| pair[0] >= pair[1]) {
        return None;
    }
    let centre = x.iter().sum::<f64>() / x.len() as f64;
    let off: Vec<f64> = x.iter().map(|x| x - centre).collect();
    let (level, slope) = match link {
        Link::Plain => line(&off, &means),
        Link::LogOdds => {
            let groups: Vec<_> = off.iter().zip(&means).map(|(&x, &m)| (x, 1.0, m)).collect();
            logistic(&groups).map(|fit| (fit.intercept, fit.slope))?
        }
    };
    let fitted: Vec<f64> = off.iter().map(|x| link.back(level + slope * x)).collect();
    let weight = |p: &f64| if link == Link::Plain { 1.0 } else { p * (1.0 - p) };
    let weights: Vec<f64> = fitted.iter().map(weight).collect();
    let gain = gain(&off, &weights)?;
    let [[aa, ab], [_, bb]] = spread(&gain, &joint.covariance);
    let residuals: Vec<f64> = means.iter().zip(&fitted).map(|(m, f)| m - f).collect();
    let moved = moved(&off, &weights, &gain);
    // Back to values that are not centred.
    let cross = ab - centre * bb;
    let covariance = [[aa - 2.0 * centre * ab + centre * centre * bb, cross], [cross, bb]];
    Some(Curve {
        link,
        intercept: level - centre * slope,
        slope,
        covariance,
        fitted,
        lack: lack(&residuals, &moved, &joint.covariance),
    })
}

/// Level and slope of the least squares through means at centred values.
fn line(off: &[f64], means: &[f64]) -> (f64, f64) {
    let level = means.iter().sum::<f64>() / means.len() as f64;
    let squares: f64 = off.iter().map(|x| x * x).sum();
    (level, off.iter().zip(means).map(|(x, m)| x * m).sum::<f64>() / squares)
}

/// How level and slope follow each mean: two rows.
fn gain(off: &[f64], weights: &[f64]) -> Option<[Vec<f64>; 2]> {
    let sum =
        |f: &dyn Fn(f64) -> f64| -> f64 { off.iter().zip(weights).map(|(x, w)| w * f(*x)).sum() };
    let information = [[sum(&|_| 1.0), sum(&|x| x)], [sum(&|x| x), sum(&|x| x * x)]];
    let [[aa, ab], [ba, bb]] = logistic::inverse(information)?;
    let row = |a: f64, b: f64| off.iter().map(|x| a + b * x).collect();
    Some([row(aa, ab), row(ba, bb)])
}

/// The covariance of two combinations of means.
fn spread(gain: &[Vec<f64>; 2], covariance: &Matrix) -> [[f64; 2]; 2] {
    let product = |a: &[f64], b: &[f64]| -> f64 {
        let line = |(a, line): (&f64, &Vec<f64>)| a * dot(line, b);
        a.iter().zip(covariance).map(line).sum()
    };
    let [a, b] = gain;
    [[product(a, a), product(a, b)], [product(b, a), product(b, b)]]
}

/// How each residual follows each mean: what a mean moves less what the curve takes up.
fn moved(off: &[f64], weights: &[f64], gain: &[Vec<f64>; 2]) -> Matrix {
    let row = |i: usize| {
        let taken = |j: usize| weights[i] * (gain[0][j] + off[i] * gain[1][j]);
        (0..off.len()).map(|j| f64::from(u8::from(i == j)) - taken(j)).collect()
    };
    (0..off.len()).map(row).collect()
}

/// The first two residuals follow from the others, which therefore say it all.
fn lack(residuals: &[f64], moved: &Matrix, covariance: &Matrix) -> Option<LackOfFit> {
    let free = moved.get(2..).filter(|rows| !rows.is_empty())?;
    let spread = |a: &Vec<f64>, b: &Vec<f64>| -> f64 {
        a.iter().zip(covariance).map(|(a, line)| a * dot(line, b)).sum()
    };
    let variance: Matrix =
        free.iter().map(|a| free.iter().map(|b| spread(a, b)).collect()).collect();
    let inverse = inverse(&variance)?;
    let left = &residuals[2..];
    let q = left.iter().zip(&inverse).map(|(r, line)| r * dot(line, left)).sum::<f64>();
    let df = free.len() as u32;
    let p = ChiSquared::new(f64::from(df)).ok()?.sf(q.max(0.0));
    q.is_finite().then_some(LackOfFit { q, df, p })
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::joint;

    /// Games with one value per arm, about those means, two of them in opposite luck each time.
    fn games(means: &[f64], spread: f64) -> Joint {
        let game = |n: usize| -> Vec<f64> {
            let luck = |k: usize| if (n / 2 * 7 + k * 3) % 5 < 2 { 1.0 } else { -2.0 / 3.0 };
            let side = if n.is_multiple_of(2) { spread } else { -spread };
            means.iter().enumerate().map(|(k, m)| m + side * luck(k)).collect()
        };
        joint(&[(0..40).map(game).collect()]).unwrap()
    }

    #[test]
    fn means_on_a_line_are_met() {
        let x = [1.0, 2.0, 4.0, 7.0];
        let fit = curve(Link::Plain, &x, &games(&x.map(|x| 3.0 - 0.5 * x), 1.0)).unwrap();
        assert!((fit.intercept - 3.0).abs() < 1e-12 && (fit.slope + 0.5).abs() < 1e-12);
        let lack = fit.lack.unwrap();
        assert!(lack.q < 1e-20 && lack.df == 2 && lack.p > 0.999_999);
    }

    #[test]
    fn log_odds_on_a_line_are_met() {
        let x = [0.0, 1.0, 2.0, 3.0];
        let joint = games(&x.map(|x| rate(-1.0 + 0.7 * x)), 0.1);
        let fit = curve(Link::LogOdds, &x, &joint).unwrap();
        assert!((fit.intercept + 1.0).abs() < 1e-9 && (fit.slope - 0.7).abs() < 1e-9);
        assert!(fit.lack.unwrap().p > 0.999_999);
    }

    #[test]
    fn a_bent_row_of_means_does_not_fit_a_line() {
        let x = [0.0, 1.0, 2.0, 3.0];
        let fit = curve(Link::Plain, &x, &games(&[0.0, 1.0, 1.0, 0.0], 0.3)).unwrap();
        assert!(fit.slope.abs() < 1e-12 && fit.lack.unwrap().p < 1e-6);
    }

    #[test]
    fn the_error_of_a_slope_is_that_of_the_slopes_of_games() {
        let x = [1.0, 2.0, 4.0];
        let joint = games(&[5.0, 3.0, 8.0], 1.0);
        let fit = curve(Link::Plain, &x, &joint).unwrap();
        let centre = 7.0 / 3.0;
        let squares: f64 = x.iter().map(|x| (x - centre) * (x - centre)).sum();
        let weights = x.map(|x| (x - centre) / squares);
        let variance: f64 = (0..3).map(|i| weights[i] * dot(&joint.covariance[i], &weights)).sum();
        assert!((fit.covariance[1][1] - variance).abs() < 1e-15);
    }

    #[test]
    fn two_values_leave_no_test_and_one_no_curve() {
        assert_eq!(curve(Link::Plain, &[1.0, 2.0], &games(&[1.0, 2.0], 1.0)).unwrap().lack, None);
        assert_eq!(curve(Link::Plain, &[1.0], &games(&[1.0], 1.0)), None);
        assert_eq!(curve(Link::Plain, &[1.0, 1.0], &games(&[1.0, 2.0], 1.0)), None);
        assert_eq!(curve(Link::LogOdds, &[1.0, 2.0], &games(&[0.0, 0.0], 0.0)), None);
        // Arms that are the same game for game tell nothing of a bend between them.
        assert_eq!(
            curve(Link::Plain, &[1.0, 2.0, 3.0], &games(&[1.0; 3], 0.0)).unwrap().lack,
            None
        );
    }
}
