//! How do the means of arms that share their luck move together?
//!
//! Each arm's mean as in [`stratified_mean`]; the covariance of two means with the same weights,
//! from the products of distances from the means of each stratum (Cochran 1977, Sampling
//! Techniques, 3rd edition, sections 2.9 and 5.3).

use super::cholesky::Matrix;
use super::stratified::collapsed;
use super::wilson::score;
use super::{Estimate, Interval, stratified_mean};

/// Means of several arms over the same games.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// The mean of each arm.
    pub means: Vec<Estimate>,
    /// Variances and covariances of the means: rows of a symmetric matrix.
    pub covariance: Matrix,
}

/// The means over games given by stratum, of each of which there is one value per arm; `None` with
/// fewer than two games, or without an arm.
pub fn joint(strata: &[Vec<Vec<f64>>]) -> Option<Joint> {
    let arms = strata.iter().flatten().map(Vec::len).min()?;
    let column = |arm: usize| -> Vec<Vec<f64>> {
        strata.iter().map(|s| s.iter().map(|game| game[arm]).collect()).collect()
    };
    let means: Vec<Estimate> =
        (0..arms).map(|arm| stratified_mean(&column(arm))).collect::<Option<_>>()?;
    let count = means.first()?.count as f64;
    let mut covariance = vec![vec![0.0; arms]; arms];
    for stratum in collapsed(strata).iter() {
        let n = stratum.len() as f64;
        let mean = |arm: usize| stratum.iter().map(|game| game[arm]).sum::<f64>() / n;
        let centre: Vec<f64> = (0..arms).map(mean).collect();
        // Weight squared over games, over the degrees of freedom of the stratum.
        let scale = (n / count).powi(2) / n / (n - 1.0);
        for game in stratum {
            for i in 0..arms {
                for j in 0..=i {
                    covariance[i][j] += scale * (game[i] - centre[i]) * (game[j] - centre[j]);
                }
            }
        }
    }
    for i in 0..arms {
        // Exactly none where the mean has none: equal values leave no rounding behind.
        covariance[i][i] = means[i].se * means[i].se;
        for j in 0..i {
            let sure = means[i].se == 0.0 || means[j].se == 0.0;
            covariance[i][j] = if sure { 0.0 } else { covariance[i][j] };
            covariance[j][i] = covariance[i][j];
        }
    }
    Some(Joint { means, covariance })
}

impl Estimate {
    /// The interval of a mean of results from 0 to 1: Wilson's score interval at the number of
    /// independent games that would be as sure, at most those played (as for a [`share`]; Korn &
    /// Graubard 1998, Survey Methodology 24:193-201, from memory). It stays within 0 and 1, and a
    /// rate that was never seen to vary is not thought certain.
    ///
    /// [`share`]: super::share
    pub fn rate_interval(&self, confidence: f64) -> Interval {
        let value = self.value.clamp(0.0, 1.0);
        let (even, games) = (value * (1.0 - value), self.count as f64);
        let worth = if self.se > 0.0 { even / (self.se * self.se) } else { games };
        let worth = worth.clamp(1.0, games.max(1.0));
        let Interval { low, high } = score(value * worth, worth, confidence);
        Interval { low: low.max(0.0), high: high.min(1.0) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_variance_of_a_difference_is_that_of_the_paired_differences() {
        let games = |shift: f64| -> Vec<Vec<f64>> {
            [(1.0, 2.0), (4.0, 3.5), (2.0, 7.0), (0.5, 1.0), (3.0, 3.0)]
                .map(|(a, b)| vec![a + shift, b * 2.0])
                .to_vec()
        };
        let strata = [games(0.0), games(9.0)[..3].to_vec(), games(5.0)[..1].to_vec()];
        let joint = joint(&strata).unwrap();
        let differences: Vec<Vec<f64>> =
            strata.iter().map(|s| s.iter().map(|g| g[1] - g[0]).collect()).collect();
        let paired = stratified_mean(&differences).unwrap();
        let v = &joint.covariance;
        let variance = v[0][0] + v[1][1] - v[0][1] - v[1][0];
        assert!((variance - paired.se * paired.se).abs() < 1e-12);
        assert!((joint.means[1].value - joint.means[0].value - paired.value).abs() < 1e-12);
    }

    #[test]
    fn too_few_games_have_no_means() {
        assert_eq!(joint(&[]), None);
        assert_eq!(joint(&[vec![vec![1.0, 2.0]]]), None);
        assert_eq!(joint(&[vec![vec![], vec![]]]), None);
    }

    #[test]
    fn a_rate_never_seen_to_vary_is_not_certain() {
        let sure = |value| Estimate { value, se: 0.0, df: 99.0, count: 100 };
        let (never, always) = (sure(0.0).rate_interval(0.95), sure(1.0).rate_interval(0.95));
        assert_eq!((never.low, always.high), (0.0, 1.0));
        assert!((never.high - 0.037).abs() < 5e-4 && (always.low - 0.963).abs() < 5e-4);
    }
}
