//! How wide must intervals be to hold all means at once?
//!
//! By the distribution of the largest of all distances in standard errors (max-t: Hothorn, Bretz &
//! Westfall 2008, Biometrical Journal 50:346-363, from memory) for normal means with the covariance
//! that was seen, drawn from a fixed stream of luck. Arms that share their luck move together, and
//! the values of an option side by side most of all: the correction of Sidak (1967, Journal of the
//! American Statistical Association 62:626-633), which holds for any covariance, takes them for
//! strangers. For ten arms whose means correlate by 0.9 it makes bands one sixth wider, which would
//! take a third more games to make good; for loosely tied arms the two agree. The answer is never
//! outside what one interval and Sidak ask for.

use statrs::distribution::{ContinuousCDF, Normal};

use super::cholesky::{Matrix, semi_factor};
use super::{Draws, normal_quantile};

/// Standard normal draws, the same in every run.
#[derive(Clone, Debug)]
pub struct NormalDraws {
    arms: usize,
    rows: Vec<f64>,
}

/// Draws behind a band in a report: the critical value is then good to about one part in 200.
pub const DRAWS: usize = 20_000;

impl NormalDraws {
    /// `count` draws for as many arms.
    pub fn new(arms: usize, count: usize) -> NormalDraws {
        let mut stream = Draws::new(0x5eed_ba4d);
        let rows = (0..arms * count).map(|_| normal_quantile(unit(&mut stream))).collect();
        NormalDraws { arms, rows }
    }
}

/// A number inside (0, 1).
fn unit(stream: &mut Draws) -> f64 {
    (stream.bits() >> 11) as f64 / (1_u64 << 53) as f64 + 1.0 / (1_u64 << 54) as f64
}

/// The confidence that each single interval must have for all to hold at once with `confidence`.
/// Means without spread are not in question. `draws` must be for at least as many arms.
pub fn band_confidence(covariance: &Matrix, confidence: f64, draws: &NormalDraws) -> f64 {
    let loose: Vec<usize> =
        (0..covariance.len()).filter(|&n| covariance[n][n] > 0.0).take(draws.arms).collect();
    let (arms, rows) = (loose.len(), draws.rows.len() / draws.arms.max(1));
    if arms < 2 || rows == 0 {
        return confidence;
    }
    let se = |n: usize| covariance[n][n].sqrt();
    let correlation: Matrix = loose
        .iter()
        .map(|&i| loose.iter().map(|&j| covariance[i][j] / (se(i) * se(j))).collect())
        .collect();
    let factor = semi_factor(&correlation);
    let furthest = |draw: &[f64]| -> f64 {
        let reach = |line: &Vec<f64>| line.iter().zip(draw).map(|(l, z)| l * z).sum::<f64>().abs();
        factor.iter().map(reach).fold(0.0, f64::max)
    };
    let mut largest: Vec<f64> = draws.rows.chunks_exact(draws.arms).map(furthest).collect();
    let place = ((confidence * rows as f64).ceil() as usize).clamp(1, rows) - 1;
    let critical = *largest.select_nth_unstable_by(place, f64::total_cmp).1;
    let single = 2.0 * Normal::standard().cdf(critical) - 1.0;
    single.clamp(confidence, confidence.powf(1.0 / arms as f64))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tied(arms: usize, correlation: f64) -> Matrix {
        let entry = |i, j| if i == j { 4.0 } else { 4.0 * correlation };
        (0..arms).map(|i| (0..arms).map(|j| entry(i, j)).collect()).collect()
    }

    #[test]
    fn strangers_need_what_sidak_asks() {
        let draws = NormalDraws::new(5, DRAWS);
        let sidak = 0.95_f64.powf(0.2);
        let found = band_confidence(&tied(5, 0.0), 0.95, &draws);
        // The share of draws inside is off by at most three of its standard errors, 0.0046 of 0.95.
        assert!(found <= sidak && (sidak - found) * 5.0 < 0.0048, "{found} {sidak}");
    }

    #[test]
    fn arms_that_are_one_need_one_interval() {
        let draws = NormalDraws::new(5, DRAWS);
        let one = band_confidence(&tied(5, 1.0), 0.95, &draws);
        assert!((one - 0.95).abs() < 0.0046, "{one}");
        assert_eq!(band_confidence(&vec![vec![0.0; 3]; 3], 0.95, &draws), 0.95);
        assert_eq!(band_confidence(&vec![], 0.95, &draws), 0.95);
    }

    /// Ten tied arms: the claim at the head of this file.
    #[test]
    fn tied_arms_need_a_sixth_less_than_sidak() {
        let reach = |confidence: f64| normal_quantile(0.5 + confidence / 2.0);
        let tied = reach(band_confidence(&tied(10, 0.9), 0.95, &NormalDraws::new(10, DRAWS)));
        let sidak = reach(0.95_f64.powf(0.1));
        assert!((0.15..0.19).contains(&(sidak / tied - 1.0)), "{sidak} {tied}");
    }

    #[test]
    fn draws_are_standard_normal() {
        let draws = NormalDraws::new(1, DRAWS).rows;
        let mean = draws.iter().sum::<f64>() / draws.len() as f64;
        let square = draws.iter().map(|z| z * z).sum::<f64>() / draws.len() as f64;
        // Three standard errors of each: 1 and the root of 2 over that of the count.
        assert!(mean.abs() < 0.0212 && (square - 1.0).abs() < 0.03, "{mean} {square}");
    }
}
