//! What does skewness add to the error of a test that takes differences for normal?
//!
//! Most pairs of games are alike in a metric and a few differ much, to one side. Then a mean that
//! chance has moved towards zero comes with too small a spread, and more than the level of all shifts
//! on the margin would be said to be nearer to zero. The first term of the Edgeworth expansion of
//! Student's t tells by how much: `P(T < -z)` is the normal tail and `g (2 z^2 + 1) density(z) / 6`,
//! where `g` is the skewness of the mean, that of the differences over the root of their number (Hall
//! 1992, The Bootstrap and Edgeworth Expansion, section 2.6; from memory).

use statrs::distribution::{Continuous, Normal};

use super::{Estimate, Moments};

/// The skewness of the mean over all `strata`, each weighted by its number of values as
/// [`stratified_mean`](super::stratified_mean) does, whose standard error is `se`; 0 without any
/// spread.
pub fn skewness_of_mean(strata: &[Vec<f64>], se: f64) -> f64 {
    let count: usize = strata.iter().map(Vec::len).sum();
    let scale = count as f64 * se;
    if scale == 0.0 {
        return 0.0;
    }
    // Cubes as shares of the whole, so that neither tiny nor huge spreads leave the range of numbers.
    let cubes = |values: &Vec<f64>| {
        let mean = Moments::of(values).map_or(0.0, |moments| moments.mean);
        values.iter().map(|value| ((value - mean) / scale).powi(3)).sum::<f64>()
    };
    strata.iter().map(cubes).sum()
}

/// The p-value of "the mean is at least `margin` away from zero": Student's, as
/// [`Estimate::equivalence_p`] has it, and what the `skewness` of the mean adds to it.
pub fn skew_equivalence_p(estimate: &Estimate, skewness: f64, margin: f64) -> f64 {
    let centred = Estimate { value: 0.0, ..*estimate };
    // At the upper margin a long upper tail misleads, at the lower one a long lower tail.
    let one_sided = |room: f64, towards: f64| {
        centred.equivalence_p(room) + added(room / estimate.se, towards.max(0.0))
    };
    let (above, below) = (margin - estimate.value, margin + estimate.value);
    one_sided(above, skewness).max(one_sided(below, -skewness)).min(1.0)
}

/// How many times the first term is allowed for. A sample that lacks the rare large differences has a
/// mean near zero *and* too little skewness, so once is not enough: it leaves 6 to 8 errors in 100
/// where this leaves 5 (`coverage.rs`). Our choice.
const CARE: f64 = 2.0;

/// The first term, `z` standard errors from the margin.
fn added(z: f64, skewness: f64) -> f64 {
    if skewness == 0.0 {
        return 0.0;
    }
    CARE * skewness * (2.0 * z * z + 1.0) * Normal::standard().pdf(z) / 6.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::stratified_mean;

    fn estimate(value: f64) -> Estimate {
        Estimate { value, se: 1.0, df: 1e6, count: 1_000_000 }
    }

    /// One of four differs by 4: a mean of 1, a variance of 3, a third moment of 6; one of `n` means
    /// has the skewness 6 / 3^1.5 / sqrt(n).
    #[test]
    fn the_mean_is_less_skew_than_its_values_by_the_root_of_their_number() {
        let values: Vec<f64> = (0..400).map(|n| f64::from(u8::from(n % 4 == 0)) * 4.0).collect();
        let se = (3.0_f64 / 400.0).sqrt();
        let skew = 6.0 / 27.0_f64.sqrt() / 20.0;
        assert!((skewness_of_mean(std::slice::from_ref(&values), se) - skew).abs() < 1e-12);
        let less: Vec<f64> = values.iter().map(|value| 1e6 - value).collect();
        assert!((skewness_of_mean(&[less], se) + skew).abs() < 1e-9);
        // Strata that differ in nothing but their mean are no more skew than one.
        let moved = |by: f64| values.iter().map(|value| value + by).collect::<Vec<f64>>();
        let two = [moved(0.0), moved(70.0)];
        let halved = skew / 2.0_f64.sqrt();
        let both = skewness_of_mean(&two, (3.0_f64 / 800.0).sqrt());
        assert!((both - halved).abs() < 1e-12, "{both} {halved}");
    }

    #[test]
    fn what_has_no_spread_or_is_alike_to_both_sides_is_not_skew() {
        assert_eq!(skewness_of_mean(&[vec![2.0; 5], vec![3.0]], 0.0), 0.0);
        assert_eq!(skewness_of_mean(&[vec![1.0, 2.0, 3.0]], 0.3), 0.0);
        assert_eq!(skewness_of_mean(&[], 0.3), 0.0);
        let huge = [vec![-1e150, 2e150, -1e150]];
        let se = stratified_mean(&huge).unwrap().se;
        assert!((0.1..2.0).contains(&skewness_of_mean(&huge, se)));
    }

    /// A tail of 5 % at 1.645 becomes 5 % and twice 0.11 of the skewness; the other tail loses nothing.
    #[test]
    fn a_long_tail_towards_the_margin_is_added_and_no_other() {
        let plain = estimate(1.0).equivalence_p(2.645);
        assert!((plain - 0.05).abs() < 1e-4);
        let more = skew_equivalence_p(&estimate(1.0), 0.2, 2.645) - plain;
        assert!((more - 0.2 * 2.0 * 0.1102).abs() < 1e-4, "{more}");
        assert_eq!(skew_equivalence_p(&estimate(1.0), -0.2, 2.645), plain);
        let below = skew_equivalence_p(&estimate(-1.0), -0.2, 2.645) - plain;
        assert!((below - more).abs() < 1e-12);
        assert_eq!(skew_equivalence_p(&estimate(1.0), 0.0, 2.645), plain);
        assert_eq!(skew_equivalence_p(&estimate(9.0), 40.0, 2.0), 1.0);
    }

    #[test]
    fn without_any_spread_it_is_the_plain_answer() {
        let sure = Estimate { value: 1.0, se: 0.0, df: 9.0, count: 10 };
        assert_eq!([1.0, 1.5].map(|margin| skew_equivalence_p(&sure, 0.0, margin)), [1.0, 0.0]);
    }
}
