//! Is the shift the same in every scenario, or with every pairing of players?
//!
//! Cochran's Q (Cochran 1954, Biometrics 10:101-129): squared distances of the shifts from their
//! mean, weighted by precision, against chi-squared with one degree of freedom fewer than shifts.
//! How much of their spread is not chance: I squared (Higgins & Thompson 2002, Statistics in Medicine
//! 21:1539-1558).

use statrs::distribution::{ChiSquared, ContinuousCDF};

/// The answer of the test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heterogeneity {
    /// Weighted sum of squares.
    pub q: f64,
    /// Degrees of freedom.
    pub df: f64,
    /// P-value of "the same everywhere".
    pub p: f64,
}

impl Heterogeneity {
    /// The share of the differences that is more than chance, I squared (Higgins & Thompson 2002,
    /// Statistics in Medicine 21:1539-1558, from memory): 0 when they are no larger than expected.
    pub fn i_squared(&self) -> f64 {
        if self.q > self.df { (self.q - self.df) / self.q } else { 0.0 }
    }
}

/// Tests shifts given with their standard errors; those without spread are left out, and fewer
/// than two others give `None`.
pub fn heterogeneity(shifts: &[(f64, f64)]) -> Option<Heterogeneity> {
    let weighed: Vec<(f64, f64)> =
        shifts.iter().filter(|(_, se)| *se > 0.0).map(|(d, se)| (*d, 1.0 / (se * se))).collect();
    if weighed.len() < 2 {
        return None;
    }
    let weight: f64 = weighed.iter().map(|(_, w)| w).sum();
    let mean = weighed.iter().map(|(d, w)| d * w).sum::<f64>() / weight;
    let q = weighed.iter().map(|(d, w)| w * (d - mean) * (d - mean)).sum();
    let df = (weighed.len() - 1) as f64;
    Some(Heterogeneity { q, df, p: ChiSquared::new(df).ok()?.sf(q) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_scenario_cannot_disagree() {
        assert_eq!(heterogeneity(&[]), None);
        assert_eq!(heterogeneity(&[(1.0, 0.1)]), None);
        assert_eq!(heterogeneity(&[(1.0, 0.1), (2.0, 0.0)]), None);
    }

    #[test]
    fn equal_shifts_agree_completely() {
        let same = heterogeneity(&[(0.5, 0.1), (0.5, 0.2), (0.5, 0.3)]).unwrap();
        assert_eq!((same.q, same.df, same.p), (0.0, 2.0, 1.0));
        assert_eq!(same.i_squared(), 0.0);
    }

    #[test]
    fn two_shifts_are_a_z_test_of_their_difference() {
        let two = heterogeneity(&[(1.0, 3.0), (11.0, 4.0)]).unwrap();
        assert!((two.q - 4.0).abs() < 1e-12, "(10 / 5) squared, {}", two.q);
        assert!((two.i_squared() - 0.75).abs() < 1e-12, "3 of 4 is more than expected");
    }
}
