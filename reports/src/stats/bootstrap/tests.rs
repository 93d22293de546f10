use super::*;

const HOW: Resampling = Resampling { resamples: 2000, seed: 1, confidence: 0.95 };

/// The mean of arm less reference.
fn mean_shift(pairs: &CountedPairs) -> impl Fn(&[f64]) -> Vec<f64> {
    let shifts: Vec<f64> = pairs.different().iter().map(|(r, a)| a - r).collect();
    move |weights| {
        let total: f64 = weights.iter().sum();
        vec![weights.iter().zip(&shifts).map(|(w, d)| w * d).sum::<f64>() / total]
    }
}

fn shift_of(strata: &[Vec<(f64, f64)>], how: &Resampling) -> Option<Resampled> {
    let pairs = CountedPairs::of(strata);
    bootstrap(&pairs, how, mean_shift(&pairs))[0]
}

#[test]
fn what_never_varies_has_no_interval() {
    assert_eq!(shift_of(&[vec![(2.0, 3.0); 40]], &HOW), None);
    assert_eq!(shift_of(&[vec![(2.0, 3.0)]], &HOW), None);
    assert_eq!(shift_of(&[], &HOW), None);
    // Between strata alone, nothing is chance.
    assert_eq!(shift_of(&[vec![(0.0, 3.0); 5], vec![(0.0, 1.0); 5]], &HOW), None);
    let none = Resampling { resamples: 0, ..HOW };
    assert_eq!(shift_of(&[vec![(0.0, 0.0), (0.0, 1.0)]], &none), None);
}

#[test]
fn a_value_that_is_not_always_there_has_no_interval() {
    let pairs = CountedPairs::of(&[vec![(0.0, 0.0), (0.0, 1.0), (0.0, 2.0)]]);
    let ratio = |w: &[f64]| vec![w[1] / w[0]];
    assert_eq!(bootstrap(&pairs, &HOW, ratio), [None]);
}

#[test]
fn the_same_seed_gives_the_same_answer() {
    let games = vec![(0..60).map(|n| (0.0, f64::from(n % 7))).collect::<Vec<_>>()];
    let one = shift_of(&games, &HOW).unwrap();
    assert_eq!(Some(one), shift_of(&games, &HOW));
    assert_ne!(Some(one), shift_of(&games, &Resampling { seed: 2, ..HOW }));
}

/// For a mean the bootstrap is known: the error is the plug-in one, the acceleration a sixth of the
/// skewness over the root of the count (Efron 1987).
#[test]
fn a_mean_has_the_error_and_acceleration_of_the_formula() {
    // Values 0 to 6, four of five of them 0, 900 in all: drawn by binomials.
    let values: Vec<f64> =
        (0..900).map(|n| f64::from(if n % 5 == 0 { n % 7 } else { 0 })).collect();
    let how = Resampling { resamples: 20_000, ..HOW };
    let games: Vec<(f64, f64)> = values.iter().map(|v| (0.0, *v)).collect();
    let found = shift_of(&[games], &how).unwrap();
    let mean = values.iter().sum::<f64>() / 900.0;
    let moment = |k: i32| values.iter().map(|v| (v - mean).powi(k)).sum::<f64>() / 900.0;
    let (se, a) = ((moment(2) / 900.0).sqrt(), moment(3) / (6.0 * moment(2).powf(1.5) * 30.0));
    assert!((found.value - mean).abs() < 1e-12);
    // Three standard errors of a deviation from 20,000 values: 1.5 %.
    assert!((found.se / se - 1.0).abs() < 0.015, "{} {se}", found.se);
    assert!((found.correction.unwrap().acceleration / a - 1.0).abs() < 1e-9);
}

#[test]
fn strata_keep_their_sizes() {
    let one: Vec<(f64, f64)> = (0..200).map(|n| (0.0, f64::from(n % 3))).collect();
    let other: Vec<(f64, f64)> = (0..600).map(|n| (0.0, 500.0 + f64::from(n % 4))).collect();
    let found = shift_of(&[one, other], &Resampling { resamples: 20_000, ..HOW }).unwrap();
    // Variances about 2/3 and 5/4, as in a stratified mean without the loss of a degree of freedom.
    let variance = (0.0625 * (2.0 / 3.0) / 200.0 + 0.5625 * 1.25 / 600.0_f64).sqrt();
    assert!((found.se / variance - 1.0).abs() < 0.015, "{} {variance}", found.se);
}

/// Different values, more than are left out one by one, so that pairs are left out in groups.
#[test]
fn groups_left_out_give_about_the_same_acceleration() {
    let mut draws = Draws::new(11);
    let mut skew = || -((draws.bits() >> 11) as f64 / (1_u64 << 53) as f64 + 1e-9).ln();
    let values: Vec<f64> = (0..4000).map(|_| skew()).collect();
    let games: Vec<(f64, f64)> = values.iter().map(|v| (0.0, *v)).collect();
    let a = shift_of(&[games], &HOW).unwrap().correction.unwrap().acceleration;
    let mean = values.iter().sum::<f64>() / 4000.0;
    let moment = |k: i32| values.iter().map(|v| (v - mean).powi(k)).sum::<f64>() / 4000.0;
    let exact = moment(3) / (6.0 * moment(2).powf(1.5) * 4000.0_f64.sqrt());
    // Exact 0.0053; three times the noise of a thousand groups is 0.0019.
    assert!((a - exact).abs() < 0.0019, "{a} {exact}");
}

#[test]
fn a_value_outside_its_resamples_falls_back_on_percentiles() {
    let all: Vec<f64> = (1..=999).map(f64::from).collect();
    let found = answer(5000.0, all.clone(), 0.0, 0.95).unwrap();
    assert_eq!(found.correction, None);
    assert!((found.interval.low - 25.0).abs() < 1e-6 && (found.interval.high - 975.0).abs() < 1e-6);
    let wild = answer(500.0, all, 0.9, 0.95).unwrap();
    assert_eq!((wild.interval, wild.correction), (found.interval, None));
}

/// A median-unbiased value with a constant error: the corrections are nothing.
#[test]
fn without_bias_and_acceleration_bca_is_the_percentile_interval() {
    let all: Vec<f64> = (1..=999).map(f64::from).collect();
    let found = answer(500.0, all, 0.0, 0.95).unwrap();
    assert_eq!(found.correction, Some(Correction { bias: 0.0, acceleration: 0.0 }));
    assert!((found.interval.low - 25.0).abs() < 1e-6 && (found.interval.high - 975.0).abs() < 1e-6);
}
