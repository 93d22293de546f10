//! Known luck taken out, and luck shared.

use ruleshift_reports::stats::{
    ControlledStratum, controlled_mean, loss_factor, reduction, variance_ratio,
};

use super::{close, near, within};

/// Evenly spaced luck for integrals over (0, 1): the midpoint rule, whose error is below one in
/// ten thousand million here.
fn even(n: u32) -> Vec<f64> {
    (0..n).map(|k| (f64::from(k) + 0.5) / f64::from(n)).collect()
}

/// Ross, Simulation, chapter 9: e^U with U less a half as control. Coefficient 1.690309029 (closed
/// form: covariance 0.1408590858 over 1 / 12), the variance falls by 98.37204824 % (printed 98.4,
/// from memory) from 0.2420356075 to 0.003940222924.
#[test]
fn control_of_ross() {
    let n = 200_000;
    let values: Vec<f64> = even(n).iter().map(|u| u.exp()).collect();
    let control: Vec<f64> = even(n).iter().map(|u| u - 0.5).collect();
    let found = controlled_mean(&[ControlledStratum {
        values: values.clone(),
        controls: vec![control.clone()],
    }])
    .unwrap();
    let sample = f64::from(n);
    within(1e-9, found.mean.value, 1.718281828);
    within(1e-9, found.coefficients[0], 1.690309029);
    // From the sample variance to that of one draw: the residual has n - 2 degrees of freedom.
    let variance = found.mean.se.powi(2) * (sample - 2.0);
    within(1e-8, variance, 0.003940222924);
    // The exact ratio times what it costs to estimate the coefficient.
    let price = loss_factor(n as usize, 1, 1).unwrap() * (sample - 1.0) / (sample - 2.0);
    within(1e-8, found.variance_ratio / price, 1.0 - 0.9837204824);
    let pairs: Vec<(f64, f64)> = values.iter().map(|v| (0.0, *v)).collect();
    let told = reduction(vec![pairs], vec![vec![control]]);
    assert_eq!((told.pairing, told.strata), (1.0, 1.0));
    close(told.control.unwrap(), found.variance_ratio);
}

/// The factor (n - 2) / (n - q - 2) of Lavenberg & Welch (1981) Management Science 27:322-335, from
/// memory.
#[test]
fn price_of_estimated_coefficients() {
    close(loss_factor(20, 1, 1).unwrap(), 1.058823529);
    close(loss_factor(20, 1, 5).unwrap(), 1.384615385);
}

/// A control with correlation r leaves 1 - r^2 of the variance: closed form, on values that have
/// exactly that correlation.
#[test]
fn what_a_control_leaves() {
    // Two columns without correlation, of spread 1 each.
    let (one, other): (Vec<f64>, Vec<f64>) = (0..4000)
        .map(|n| {
            if n % 2 == 0 {
                (1.0, if n % 4 == 0 { 1.0 } else { -1.0 })
            } else {
                (-1.0, if n % 4 == 1 { 1.0 } else { -1.0 })
            }
        })
        .unzip();
    for (r, left) in [(0.5_f64, 0.75), (0.9, 0.19), (0.99, 0.0199)] {
        let rest = (1.0 - r * r).sqrt();
        let values = one.iter().zip(&other).map(|(a, b)| r * a + rest * b).collect();
        let found = controlled_mean(&[ControlledStratum { values, controls: vec![one.clone()] }]);
        let price = loss_factor(4000, 1, 1).unwrap() * 3999.0 / 3998.0;
        close(found.unwrap().variance_ratio / price, left);
    }
}

/// Ross, chapter 9, e^U with e^(1-U): variances 0.2420356075 and covariance -0.2342106136; a pair
/// played one against the other has 0.00391249695 where two of their own have 0.1210178037.
#[test]
fn variances_of_opposite_luck() {
    let u = even(200_000);
    // The second turned round: the variance of the difference is then that of the sum.
    let pairs: Vec<(f64, f64)> = u.iter().map(|u| (u.exp(), -(1.0 - u).exp())).collect();
    let ratio = variance_ratio(&[pairs]);
    within(1e-8, ratio, 0.00391249695 / 0.1210178037);
    within(1e-8, 1.0 - ratio, 0.9676700714);
    near(5e-4, 100.0 * (1.0 - ratio), 96.767);
}
