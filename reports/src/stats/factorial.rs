//! What do settings do, alone and together, when each is on in half of the arms?
//!
//! Yates' way of adding and taking away neighbours (Yates 1937, The Design and Analysis of Factorial
//! Experiments, from memory; Box, Hunter & Hunter 2005, Statistics for Experimenters, 2nd edition,
//! chapter 5): an effect is the mean of the arms of one sign less the mean of those of the other. Done
//! with every game by itself, for all arms share its luck, it gives one value per game and effect.

use statrs::distribution::{ContinuousCDF, Normal};

use super::contrast::settled;

/// The mean of `values`, and then every effect, in standard order: first the first setting, then the
/// second, then both, then the third. `values` stand in standard order too, all off first and the
/// first setting changing fastest; their number is a power of two, else what is beyond the last power
/// is left out.
pub fn yates(values: &[f64]) -> Vec<f64> {
    let settings = values.len().checked_ilog2().unwrap_or(0);
    let mut effects = values[..values.len().min(1 << settings)].to_vec();
    let half = effects.len() / 2;
    for _ in 0..settings {
        let pairs = || effects.chunks_exact(2);
        effects = pairs().map(|p| p[0] + p[1]).chain(pairs().map(|p| p[1] - p[0])).collect();
    }
    let arms = (2 * half).max(1) as f64;
    let size: f64 = values.iter().map(|v| v.abs()).sum();
    effects.iter_mut().for_each(|effect| *effect = settled(*effect, size));
    effects.iter_mut().enumerate().for_each(|(n, e)| *e /= if n == 0 { arms } else { arms / 2.0 });
    effects
}

/// Where each of `sizes`, regardless of sign, would lie among as many if all were chance: quantiles of
/// the half-normal distribution at the middles of equal parts (Daniel 1959, Technometrics 1:311-341).
pub fn half_normal_places(sizes: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    order.sort_by(|&a, &b| sizes[a].abs().total_cmp(&sizes[b].abs()));
    let mut places = vec![0.0; sizes.len()];
    for (rank, &n) in order.iter().enumerate() {
        let part = (rank as f64 + 0.5) / sizes.len() as f64;
        places[n] = Normal::standard().inverse_cdf(0.5 + part / 2.0);
    }
    places
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn few_values_have_few_effects() {
        assert_eq!(yates(&[]), Vec::<f64>::new());
        assert_eq!(yates(&[3.0]), [3.0]);
        assert_eq!(yates(&[3.0, 5.0]), [4.0, 2.0]);
        assert_eq!(yates(&[3.0, 5.0, 9.0]), [4.0, 2.0]);
        assert_eq!(half_normal_places(&[]), Vec::<f64>::new());
    }

    #[test]
    fn places_go_by_size_and_not_by_sign() {
        let places = half_normal_places(&[-5.0, 1.0]);
        assert!(places[0] > places[1], "{places:?}");
        // Quarters of the half-normal: quantiles of the normal at 0.625 and 0.875.
        assert!((places[1] - 0.318_639).abs() < 1e-6 && (places[0] - 1.150_349).abs() < 1e-6);
    }

    proptest! {
        #[test]
        fn arms_that_add_up_have_no_interaction(
            (level, own) in (-9.0..9.0_f64, prop::collection::vec(-5.0..5.0_f64, 1..6)),
        ) {
            let on = |arm: usize| {
                let shifts = own.iter().enumerate().filter(|(n, _)| arm >> n & 1 == 1);
                level + shifts.map(|(_, s)| s).sum::<f64>()
            };
            let effects = yates(&(0..1 << own.len()).map(on).collect::<Vec<f64>>());
            for (mask, effect) in effects.iter().enumerate().skip(1) {
                let expected = if mask.is_power_of_two() { own[mask.ilog2() as usize] } else { 0.0 };
                prop_assert!((effect - expected).abs() < 1e-12, "{} {}", mask, effect);
            }
        }

        #[test]
        fn effects_are_means_of_one_sign_less_means_of_the_other(
            values in prop::collection::vec(-9.0..9.0_f64, 16),
        ) {
            let effects = yates(&values);
            for (mask, effect) in effects.iter().enumerate().skip(1) {
                let minus = |arm: usize| (mask & !arm).count_ones() % 2 == 1;
                let sum: f64 =
                    (0..16).map(|arm| if minus(arm) { -values[arm] } else { values[arm] }).sum();
                prop_assert!((effect - sum / 8.0).abs() < 1e-12);
            }
        }
    }
}
