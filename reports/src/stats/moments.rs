//! Count, mean and spread of a column of numbers.
//!
//! Two passes, the second with the correction of Chan, Golub & LeVeque (1983), The American
//! Statistician 37:242-247: the mean is subtracted before squaring, so large means cost no digits.

/// Count, mean and sum of squared distances from the mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moments {
    /// How many values, at least 1.
    pub count: usize,
    /// Their mean.
    pub mean: f64,
    /// Sum of the squared distances from the mean; exactly 0 when all values are equal.
    pub squares: f64,
}

impl Moments {
    /// The moments of `values`; `None` when there are none.
    pub fn of(values: &[f64]) -> Option<Moments> {
        let (&first, rest) = values.split_first()?;
        if rest.iter().all(|v| *v == first) {
            return Some(Moments { count: values.len(), mean: first, squares: 0.0 });
        }
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let (squares, drift) = values.iter().fold((0.0, 0.0), |(squares, drift), v| {
            (squares + (v - mean) * (v - mean), drift + (v - mean))
        });
        Some(Moments { count: values.len(), mean, squares: squares - drift * drift / count })
    }

    /// The sample variance; `None` for a single value.
    pub fn variance(&self) -> Option<f64> {
        (self.count > 1).then(|| self.squares / (self.count - 1) as f64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_value_has_no_moments() {
        assert_eq!(Moments::of(&[]), None);
    }

    #[test]
    fn one_value_has_a_mean_but_no_variance() {
        let one = Moments::of(&[0.1]).unwrap();
        assert_eq!((one.mean, one.variance()), (0.1, None));
    }

    #[test]
    fn equal_values_have_exactly_no_spread() {
        let equal = Moments::of(&[0.1; 7]).unwrap();
        assert_eq!((equal.mean, equal.variance()), (0.1, Some(0.0)));
    }

    #[test]
    fn a_large_mean_costs_no_digits() {
        let far = Moments::of(&[1e9 + 4.0, 1e9 + 7.0, 1e9 + 13.0, 1e9 + 16.0]).unwrap();
        assert_eq!((far.mean, far.variance()), (1e9 + 10.0, Some(30.0)));
    }
}
