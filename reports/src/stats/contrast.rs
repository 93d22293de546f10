//! What do weighted values of one game add up to?
//!
//! Values that cancel in truth may leave the last digit of a sum behind. A game in which that is all
//! there is shows nothing, and must not be taken for a shift that is tiny and very sure; so sums below
//! a million millionth of what went into them are zero.

/// Sums below this share of their parts are rounding.
const ROUNDING: f64 = 1e-12;

/// The sum of `values`, each times its weight.
pub fn contrast(values: &[f64], weights: &[f64]) -> f64 {
    let parts = || values.iter().zip(weights).map(|(value, weight)| value * weight);
    settled(parts().sum(), parts().map(f64::abs).sum())
}

/// A sum of parts of that `size`, zero where it is nothing but rounding.
pub(super) fn settled(sum: f64, size: f64) -> f64 {
    if sum.abs() <= ROUNDING * size { 0.0 } else { sum }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_values_cancel_exactly() {
        let weights = [-0.6, -0.2, 0.1, 0.7];
        assert_ne!([0.3; 4].iter().zip(weights).map(|(v, w)| v * w).sum::<f64>(), 0.0);
        assert_eq!(contrast(&[0.3; 4], &weights), 0.0);
        assert_eq!(contrast(&[1.0, 3.0], &[-1.0, 1.0]), 2.0);
        assert_eq!(contrast(&[], &[]), 0.0);
    }
}
