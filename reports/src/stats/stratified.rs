//! What is the mean of paired differences drawn from several scenarios?
//!
//! Each scenario is a stratum, weighted by its number of pairs; the standard error uses only the
//! spread within strata (Cochran 1977, Sampling Techniques, 3rd edition, sections 5.3-5.4), with
//! degrees of freedom by Satterthwaite (1946, Biometrics Bulletin 2:110-114). A stratum of one pair
//! has no spread of its own and is joined with another (Cochran, section 5A.12), which can only
//! widen the interval. With one stratum this is the paired t of Student (1908).

use std::borrow::Cow;

use super::{Estimate, Moments};

/// The mean over all `strata`, or `None` with fewer than two values in all or values so large that
/// their squares are no numbers.
pub fn stratified_mean(strata: &[Vec<f64>]) -> Option<Estimate> {
    let strata = collapsed(strata);
    let moments: Vec<Moments> = strata.iter().filter_map(|s| Moments::of(s)).collect();
    let count: usize = moments.iter().map(|m| m.count).sum();
    if count < 2 {
        return None;
    }
    let (mut value, mut parts) = (0.0, Vec::with_capacity(moments.len()));
    for stratum in &moments {
        let weight = stratum.count as f64 / count as f64;
        value += weight * stratum.mean;
        parts.push(weight * weight * stratum.variance()? / stratum.count as f64);
    }
    let variance: f64 = parts.iter().sum();
    // As shares of the whole, so that neither tiny nor huge variances leave the range of numbers.
    let spread = |(part, m): (&f64, &Moments)| (part / variance).powi(2) / (m.count - 1) as f64;
    let df = match variance {
        0.0 => (count - 1) as f64,
        _ => 1.0 / parts.iter().zip(&moments).map(spread).sum::<f64>(),
    };
    let known = value.is_finite() && variance.is_finite() && df.is_finite();
    known.then(|| Estimate { value, se: variance.sqrt(), df, count })
}

/// The strata with every stratum of a single value joined to another.
pub(super) fn collapsed<T: Clone>(strata: &[Vec<T>]) -> Cow<'_, [Vec<T>]> {
    if strata.iter().all(|s| s.len() > 1) {
        return strata.into();
    }
    let (mut whole, single): (Vec<_>, Vec<_>) =
        strata.iter().filter(|s| !s.is_empty()).cloned().partition(|s| s.len() > 1);
    let mut left = single.concat();
    match whole.first_mut() {
        Some(first) if left.len() == 1 => first.append(&mut left),
        _ if left.is_empty() => {}
        _ => whole.push(left),
    }
    whole.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fewer_than_two_values_give_no_mean() {
        assert_eq!(stratified_mean(&[]), None);
        assert_eq!(stratified_mean(&[vec![], vec![]]), None);
        assert_eq!(stratified_mean(&[vec![], vec![3.0]]), None);
    }

    #[test]
    fn values_beyond_all_measure_give_no_mean() {
        assert_eq!(stratified_mean(&[vec![f64::MAX, -f64::MAX]]), None);
        assert_eq!(stratified_mean(&[vec![1e200, 3e200]]), None);
        let tiny = stratified_mean(&[vec![1e-150, 3e-150]]).unwrap();
        assert_eq!(tiny.df, 1.0);
    }

    #[test]
    fn zeros_give_exactly_zero() {
        let zero = stratified_mean(&[vec![0.0; 3], vec![0.0; 4]]).unwrap();
        assert_eq!((zero.value, zero.se, zero.count), (0.0, 0.0, 7));
    }

    #[test]
    fn what_differs_between_scenarios_is_no_noise() {
        let apart = stratified_mean(&[vec![1.0, 1.0], vec![5.0, 5.0, 5.0, 5.0]]).unwrap();
        assert_eq!((apart.se, apart.count), (0.0, 6));
        assert!((apart.value - 22.0 / 6.0).abs() < 1e-15);
    }

    #[test]
    fn strata_of_equal_size_and_spread_pool_their_freedom() {
        // Both variances are 1: Satterthwaite's sum is then the plain sum 2 + 2.
        let even = stratified_mean(&[vec![1.0, 2.0, 3.0], vec![11.0, 12.0, 13.0]]).unwrap();
        assert_eq!((even.value, even.df), (7.0, 4.0));
        assert!((even.se - (1.0_f64 / 6.0).sqrt()).abs() < 1e-15);
    }

    #[test]
    fn a_lone_value_joins_another_stratum() {
        let joined = stratified_mean(&[vec![4.0], vec![1.0, 2.0]]).unwrap();
        assert_eq!(Some(joined), stratified_mean(&[vec![1.0, 2.0, 4.0]]));
        let pooled = stratified_mean(&[vec![4.0], vec![1.0, 2.0], vec![8.0]]).unwrap();
        assert_eq!(Some(pooled), stratified_mean(&[vec![1.0, 2.0], vec![4.0, 8.0]]));
    }
}
