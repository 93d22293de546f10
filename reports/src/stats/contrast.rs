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
    fn what_cancels_is_zero() {
        // As numbers of a computer, 0.1 and 0.2 do not quite make 0.3.
        assert_ne!(0.1 + 0.2 - 0.3, 0.0);
        assert_eq!(contrast(&[0.1, 0.2, 0.3], &[1.0, 1.0, -1.0]), 0.0);
        assert_eq!(contrast(&[1.0, 3.0], &[-1.0, 1.0]), 2.0);
        assert_eq!(contrast(&[], &[]), 0.0);
    }
}
