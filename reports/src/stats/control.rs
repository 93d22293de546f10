//! How sure is a shift once known luck is taken out of it?
//!
//! A control is a number of each game whose mean is known beforehand, such as the sum of so many
//! dice. Where games had more of it than they should, the values that go along with it are
//! corrected: control variates by regression (Lavenberg & Welch 1981, Management Science 27:322-335;
//! Law, Simulation Modeling and Analysis, chapter 11). Controls count alike in every stratum, which
//! keeps its own mean and its own spread.
//!
//! The coefficients are estimated from the same games, and that is paid for: each costs degrees of
//! freedom, shared among strata by how much of the control's spread is theirs; the variance has a
//! term for how far the controls were off; and the variance to be expected is larger by
//! (n - 2) / (n - q - 2) than with known coefficients (Lavenberg & Welch 1981). With one stratum
//! this is their interval, exact for normal values; over strata, degrees of freedom are by
//! Satterthwaite (1946, Biometrics Bulletin 2:110-114). Coefficients of small samples bias the mean
//! when the relation is not a straight line, by one part in the count.

use super::bradley_terry::dot;
use super::cholesky::{Matrix, inverse};
use super::{Estimate, Moments};

/// The games of one stratum.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlledStratum {
    /// The value of each game or pair of games.
    pub values: Vec<f64>,
    /// For each control, its value in each game less its known mean.
    pub controls: Vec<Vec<f64>>,
}

/// A mean with known luck taken out.
#[derive(Clone, Debug, PartialEq)]
pub struct Controlled {
    /// The corrected mean, every game counting alike.
    pub mean: Estimate,
    /// How much of the value goes with one unit of each control.
    pub coefficients: Vec<f64>,
    /// Expected variance of the corrected mean over that of the plain one, the price of estimating
    /// the coefficients included; above 1 when the controls are not worth it.
    pub variance_ratio: f64,
}

/// By how much estimating the coefficients of `controls` controls from `games` games raises the
/// variance (Lavenberg & Welch 1981, for one stratum; each further one costs a game); `None` with too
/// few games.
pub fn loss_factor(games: usize, strata: usize, controls: usize) -> Option<f64> {
    let known = games.checked_sub(strata + 1)?;
    let left = known.checked_sub(controls).filter(|left| *left > 0)?;
    Some(known as f64 / left as f64)
}

/// The mean over all `strata` with controls (Lavenberg & Welch 1981); `None` without games or
/// controls, when strata have unequally many controls or too few games for them, or when a control
/// never varies or is a sum of others.
pub fn controlled_mean(strata: &[ControlledStratum]) -> Option<Controlled> {
    let sums: Vec<Sums> =
        strata.iter().filter(|s| !s.values.is_empty()).map(sums).collect::<Option<_>>()?;
    let controls = sums.first()?.means.len();
    if controls == 0 || sums.iter().any(|s| s.means.len() != controls) {
        return None;
    }
    let zero = || vec![0.0; controls];
    let spread = sums.iter().fold(vec![zero(); controls], |total, s| added(&total, &s.spread));
    let along = sums
        .iter()
        .fold(zero(), |total, s| total.iter().zip(&s.along).map(|(a, b)| a + b).collect());
    let inverse = inverse(&spread)?;
    let coefficients = times(&inverse, &along);
    let count: usize = sums.iter().map(|s| s.value.count).sum();
    let share = |s: &Sums| s.value.count as f64 / count as f64;
    let off = sums.iter().fold(zero(), |total, s| {
        total.iter().zip(&s.means).map(|(t, m)| t + share(s) * m).collect()
    });
    let value =
        sums.iter().map(|s| share(s) * s.value.mean).sum::<f64>() - dot(&coefficients, &off);
    let lever = times(&inverse, &off);
    // Variance with and without controls, the squares for Satterthwaite, and what is left of luck.
    let (mut variance, mut plain, mut squares, mut residual) = (0.0, 0.0, 0.0, 0.0);
    for s in &sums {
        let df = (s.value.count - 1) as f64 - trace(&inverse, &s.spread);
        if df <= 0.0 {
            return None;
        }
        let own = s.residual(&coefficients) / df;
        let scale = share(s) * share(s) / s.value.count as f64;
        let part = own * (scale + dot(&lever, &times(&s.spread, &lever)));
        variance += part;
        squares += part * part / df;
        residual += scale * own;
        plain += scale * s.value.variance()?;
    }
    let all = (count - sums.len() - controls) as f64;
    let df = if variance > 0.0 { variance * variance / squares } else { all };
    let loss = loss_factor(count, sums.len(), controls)?;
    let variance_ratio = if plain > 0.0 { loss * residual / plain } else { 1.0 };
    let mean = Estimate { value, se: variance.sqrt(), df, count };
    (value + variance + df).is_finite().then_some(Controlled { mean, coefficients, variance_ratio })
}

/// Means and sums of products of one stratum.
struct Sums {
    value: Moments,
    /// Mean of each control.
    means: Vec<f64>,
    /// Sums of products of controls, and of controls with the value, from their means.
    spread: Matrix,
    along: Vec<f64>,
}

impl Sums {
    /// The sum of squares left once that much of each control is taken out.
    fn residual(&self, coefficients: &[f64]) -> f64 {
        let taken = 2.0 * dot(coefficients, &self.along);
        let put = dot(coefficients, &times(&self.spread, coefficients));
        (self.value.squares - taken + put).max(0.0)
    }
}

fn sums(stratum: &ControlledStratum) -> Option<Sums> {
    let value = Moments::of(&stratum.values)?;
    if value.count < 2 || stratum.controls.iter().any(|c| c.len() != value.count) {
        return None;
    }
    let means: Vec<f64> =
        stratum.controls.iter().map(|c| Moments::of(c).map(|m| m.mean)).collect::<Option<_>>()?;
    // The sum of products of two columns, each from its mean.
    let product = |(a, b): (&[f64], &[f64]), (of_a, of_b): (f64, f64)| -> f64 {
        a.iter().zip(b).map(|(a, b)| (a - of_a) * (b - of_b)).sum()
    };
    let columns = || stratum.controls.iter().zip(&means);
    let with = |(a, of_a): (&Vec<f64>, &f64)| -> Vec<f64> {
        columns().map(|(b, of_b)| product((a, b), (*of_a, *of_b))).collect()
    };
    let spread = columns().map(with).collect();
    let along = columns().map(|(c, m)| product((c, &stratum.values), (*m, value.mean))).collect();
    Some(Sums { value, means, spread, along })
}

fn added(a: &Matrix, b: &Matrix) -> Matrix {
    a.iter().zip(b).map(|(a, b)| a.iter().zip(b).map(|(a, b)| a + b).collect()).collect()
}

fn times(matrix: &Matrix, column: &[f64]) -> Vec<f64> {
    matrix.iter().map(|line| dot(line, column)).collect()
}

/// The trace of the product of two symmetric matrices.
fn trace(a: &Matrix, b: &Matrix) -> f64 {
    a.iter().zip(b).map(|(a, b)| dot(a, b)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stratum(values: &[f64], control: &[f64]) -> ControlledStratum {
        ControlledStratum { values: values.to_vec(), controls: vec![control.to_vec()] }
    }

    #[test]
    fn what_cannot_be_corrected_is_not() {
        assert_eq!(controlled_mean(&[]), None);
        assert_eq!(controlled_mean(&[stratum(&[1.0, 2.0], &[0.0, 1.0])]), None, "no freedom left");
        assert_eq!(controlled_mean(&[stratum(&[1.0, 2.0, 4.0], &[0.5; 3])]), None, "no spread");
        assert_eq!(controlled_mean(&[stratum(&[1.0, 2.0, 4.0], &[0.5, 1.5])]), None, "a gap");
        let bare = ControlledStratum { values: vec![1.0, 2.0, 4.0], controls: vec![] };
        assert_eq!(controlled_mean(&[bare]), None);
        let twice = ControlledStratum {
            values: vec![1.0, 2.0, 4.0, 3.0],
            controls: vec![vec![0.0, 1.0, 2.0, 5.0], vec![0.0, 2.0, 4.0, 10.0]],
        };
        assert_eq!(controlled_mean(&[twice]), None, "one is a multiple of the other");
    }

    #[test]
    fn luck_that_explains_everything_leaves_nothing() {
        let found =
            controlled_mean(&[stratum(&[5.0, 7.0, 11.0, 3.0], &[0.0, 1.0, 3.0, -1.0])]).unwrap();
        assert!((found.mean.value - 5.0).abs() < 1e-12 && found.mean.se < 1e-6);
        assert!((found.coefficients[0] - 2.0).abs() < 1e-12 && found.variance_ratio < 1e-12);
    }

    /// The straight line by (-1, 1), (0, 4), (1, 3) and (3, 8), read at 0.
    #[test]
    fn one_stratum_is_a_regression_read_at_the_known_mean() {
        let found =
            controlled_mean(&[stratum(&[1.0, 4.0, 3.0, 8.0], &[-1.0, 0.0, 1.0, 3.0])]).unwrap();
        // Means 4 and 0.75; sums of products 26, 8.75 and 14.
        let slope = 14.0 / 8.75;
        let left = (26.0 - 14.0 * slope) / 2.0;
        let se = (left * (0.25 + 0.75 * 0.75 / 8.75_f64)).sqrt();
        assert!((found.coefficients[0] - slope).abs() < 1e-12);
        assert!((found.mean.value - (4.0 - 0.75 * slope)).abs() < 1e-12);
        assert!((found.mean.se - se).abs() < 1e-12 && (found.mean.df - 2.0).abs() < 1e-9);
    }

    #[test]
    fn strata_keep_their_own_means() {
        let apart = [
            stratum(&[1.0, 2.1, 2.9, 4.0], &[-1.0, 0.0, 1.0, 2.0]),
            stratum(&[91.0, 92.0, 93.1, 93.9], &[-1.0, 0.0, 1.0, 2.0]),
        ];
        let found = controlled_mean(&apart).unwrap();
        assert!((found.coefficients[0] - 0.99).abs() < 0.02, "{found:?}");
        assert!(found.variance_ratio < 0.02, "{found:?}");
        assert!((found.mean.value - 47.0).abs() < 0.1, "{found:?}");
    }

    #[test]
    fn useless_controls_cost_their_price() {
        assert_eq!(loss_factor(20, 1, 1), Some(18.0 / 17.0));
        assert_eq!((loss_factor(3, 1, 1), loss_factor(0, 1, 1)), (None, None));
        // The control has nothing to do with the value: the ratio is above 1.
        let useless =
            stratum(&[1.0, -1.0, 1.0, -1.0, 2.0, -2.0], &[1.0, 1.0, -1.0, -1.0, 0.0, 0.0]);
        let found = controlled_mean(&[useless]).unwrap();
        assert_eq!(found.coefficients, [0.0]);
        // Squares 12 over 5 and over 4 degrees of freedom, and a loss of 4 / 3.
        assert!((found.variance_ratio - 5.0 / 4.0 * 4.0 / 3.0).abs() < 1e-12);
    }
}
