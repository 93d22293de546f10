//! Published examples with known answers: monotone and logistic curves, effects of settings.

use ruleshift_reports::stats::{isotonic, logistic, yates};

#[track_caller]
fn close(found: &[f64], expected: &[f64], tolerance: f64) {
    assert_eq!(found.len(), expected.len());
    for (f, e) in found.iter().zip(expected) {
        assert!((f - e).abs() <= tolerance, "{found:?} is not {expected:?}");
    }
}

/// Reference output of `isoreg` of R, as printed for its own examples; the levels of the second row are
/// recomputed to ten digits where it prints four.
#[test]
fn monotone_curves_of_the_examples_of_isoreg() {
    let first = isotonic(&[1.0, 0.0, 4.0, 3.0, 3.0, 5.0, 4.0, 2.0, 0.0], &[]);
    close(&first, &[0.5, 0.5, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0], 1e-12);
    let third = 10.0 / 3.0;
    let second = isotonic(&[1.0, 0.0, 4.0, 3.0, 3.0, 5.0, 4.0, 2.0, 3.0], &[]);
    close(&second, &[0.5, 0.5, third, third, third, 3.5, 3.5, 3.5, 3.5], 1e-12);
    let last = isotonic(&[5.0, 9.0, 1.0, 2.0, 5.0, 6.0, 7.0, 8.0, 3.0, 8.0], &[]);
    close(&last, &[4.25, 4.25, 4.25, 4.25, 5.0, 6.0, 6.0, 6.0, 6.0, 8.0], 1e-12);
}

/// Beetles killed by a gas, by the logarithm of its dose: Bliss (1935), Annals of Applied Biology
/// 22:134-167.
const DOSES: [(f64, f64, f64); 8] = [
    (1.6907, 59.0, 6.0),
    (1.7242, 60.0, 13.0),
    (1.7552, 62.0, 18.0),
    (1.7842, 56.0, 28.0),
    (1.8113, 63.0, 52.0),
    (1.8369, 59.0, 53.0),
    (1.8610, 62.0, 61.0),
    (1.8839, 60.0, 60.0),
];

/// Fit as in Dobson (1990), An Introduction to Generalized Linear Models, recomputed to ten digits with
/// statsmodels 0.15.0. Known disagreement: a manual page that prints the same fit stops its steps
/// earlier and gives errors of 5.180701 and 2.912134, which agree with these to five digits.
#[test]
fn logistic_curve_through_the_beetles_of_bliss() {
    let fit = logistic(&DOSES).unwrap();
    close(&[fit.intercept, fit.slope], &[-60.717_454_56, 34.270_325_73], 2e-8);
    close(&[fit.deviance], &[11.232_231_1], 1e-7);
    assert_eq!(fit.df, 6);
    let errors = [fit.covariance[0][0].sqrt(), fit.covariance[1][1].sqrt()];
    close(&errors, &[5.180_711_463, 2.912_140_071], 2e-8);
    close(&errors, &[5.180_701, 2.912_134], 2e-5);
    close(&[-fit.intercept / fit.slope], &[1.771_720_964], 1e-9);
}

/// Known disagreement: the data table of that page has 60 killed at dose 1.8610 where its fit has 61.
/// Recomputed with statsmodels 0.15.0.
#[test]
fn the_beetles_with_a_slip_of_one_have_another_curve() {
    let mut slip = DOSES;
    slip[6].2 = 60.0;
    let fit = logistic(&slip).unwrap();
    close(&[fit.intercept, fit.slope], &[-59.517_722_6, 33.586_300_81], 2e-7);
    close(&[fit.deviance], &[9.845_012_808], 1e-8);
}

/// Pilot plant: yield by temperature, concentration and catalyst, two levels of each. Box, Hunter &
/// Hunter (1978), Statistics for Experimenters, tables 10.1 to 10.3; all effects but that of the
/// temperature are from memory, and all follow exactly from the data.
#[test]
fn effects_of_the_pilot_plant_of_box_hunter_and_hunter() {
    let effects = yates(&[60.0, 72.0, 54.0, 68.0, 52.0, 83.0, 45.0, 80.0]);
    // Mean, T, C, TC, K, TK, CK, TCK.
    assert_eq!(effects, [64.25, 23.0, -5.0, 1.5, 1.5, 10.0, 0.0, 0.5]);
    // The sum of squares of an effect in 8 runs is twice its square.
    assert_eq!(2.0 * effects[1] * effects[1], 1058.0);
}
