//! What is the integral of a smooth function?
//!
//! Gauss-Legendre quadrature in panels (Davis & Rabinowitz 1984, Methods of Numerical Integration,
//! 2nd edition, sections 2.7 and 2.9; from memory): 16 points in each panel are exact for
//! polynomials up to degree 31, and for a normal density good to twelve digits while a panel is not
//! wider than three standard deviations.

use std::f64::consts::PI;
use std::sync::OnceLock;

const POINTS: usize = 16;

/// Points between `low` and `high` with their weights, in panels no wider than `panel`.
pub(super) fn points(low: f64, high: f64, panel: f64) -> Vec<(f64, f64)> {
    static RULE: OnceLock<Vec<(f64, f64)>> = OnceLock::new();
    let rule = RULE.get_or_init(rule);
    let count = ((high - low) / panel).ceil().max(1.0);
    let half = (high - low) / count / 2.0;
    (0..count as usize)
        .map(|n| low + half * (2.0 * n as f64 + 1.0))
        .flat_map(|middle| rule.iter().map(move |(x, weight)| (middle + half * x, half * weight)))
        .collect()
}

/// Points and weights on the interval from -1 to 1: roots of the Legendre polynomial by Newton's
/// method.
fn rule() -> Vec<(f64, f64)> {
    let root = |n: usize| {
        let mut x = -(PI * (n as f64 + 0.75) / (POINTS as f64 + 0.5)).cos();
        for _ in 0..20 {
            let (value, slope) = legendre(x);
            x -= value / slope;
        }
        let slope = legendre(x).1;
        (x, 2.0 / ((1.0 - x * x) * slope * slope))
    };
    (0..POINTS).map(root).collect()
}

/// The Legendre polynomial of that many points and its slope at `x`, by Bonnet's recursion.
fn legendre(x: f64) -> (f64, f64) {
    let (mut before, mut value) = (1.0, x);
    for n in 2..=POINTS {
        let n = n as f64;
        (before, value) = (value, ((2.0 * n - 1.0) * x * value - (n - 1.0) * before) / n);
    }
    (value, POINTS as f64 * (x * value - before) / (x * x - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn integral(low: f64, high: f64, panel: f64, f: impl Fn(f64) -> f64) -> f64 {
        points(low, high, panel).iter().map(|(x, weight)| weight * f(*x)).sum()
    }

    #[test]
    fn polynomials_are_integrated_exactly() {
        // From 0 to 2, x to the 31st is 2 to the 32nd over 32.
        let found = integral(0.0, 2.0, 5.0, |x| x.powi(31));
        assert!((found / (2.0_f64.powi(32) / 32.0) - 1.0).abs() < 1e-13, "{found}");
    }

    #[test]
    fn a_bell_is_integrated_to_twelve_digits() {
        let found = integral(-9.0, 9.0, 3.0, |x| (-x * x / 2.0).exp());
        assert!((found / (2.0 * PI).sqrt() - 1.0).abs() < 1e-12, "{found}");
    }
}
