//! Shifts that differ from place to place.

use ruleshift_reports::stats::{heterogeneity, random_effects};

use super::close;

/// Thirteen trials of a vaccine (Colditz et al. 1994, Journal of the American Medical Association
/// 271:698-702; counts as in van Houwelingen, Arends & Stijnen 2002, Statistics in Medicine
/// 21:589-624): ill and well with the vaccine, ill and well without.
const TRIALS: [[f64; 4]; 13] = [
    [4.0, 119.0, 11.0, 128.0],
    [6.0, 300.0, 29.0, 274.0],
    [3.0, 228.0, 11.0, 209.0],
    [62.0, 13536.0, 248.0, 12619.0],
    [33.0, 5036.0, 47.0, 5761.0],
    [180.0, 1361.0, 372.0, 1079.0],
    [8.0, 2537.0, 10.0, 619.0],
    [505.0, 87886.0, 499.0, 87892.0],
    [29.0, 7470.0, 45.0, 7232.0],
    [17.0, 1699.0, 65.0, 1600.0],
    [186.0, 50448.0, 141.0, 27197.0],
    [5.0, 2493.0, 3.0, 2338.0],
    [27.0, 16886.0, 29.0, 17825.0],
];

/// Log risk ratios: Q 152.2330, I squared 92.12 %, and by DerSimonian & Laird tau squared 0.3088,
/// mean -0.7141, error 0.1787 (-1.0644 to -0.3638), printed by common software for these data, from
/// memory. Ten digits, the interval of Hartung & Knapp and the prediction interval recomputed only
/// (python 3.11, t of 12 and 11 degrees of freedom 2.178812830 and 2.200985160 from tables).
#[test]
fn vaccine_trials_of_colditz() {
    let shifts: Vec<(f64, f64)> = TRIALS
        .iter()
        .map(|&[a, b, c, d]| {
            let variance = 1.0 / a - 1.0 / (a + b) + 1.0 / c - 1.0 / (c + d);
            ((a / (a + b)).ln() - (c / (c + d)).ln(), variance.sqrt())
        })
        .collect();
    let differ = heterogeneity(&shifts).unwrap();
    close(differ.q, 152.2330081);
    close(differ.i_squared(), 0.9211734685);
    let found = random_effects(&shifts).unwrap();
    close(found.between, 0.3087602629);
    close(found.mean.value, -0.7141172221);
    close(found.plain_se, 0.1787420895);
    close(found.mean.se, 0.1806966283);
    close(found.mean.interval(0.95).low, -1.107821354);
    close(found.mean.interval(0.95).high, -0.32041309);
    let next = found.next.unwrap();
    close(next.interval(0.95).low, -1.998838496);
    close(next.interval(0.95).high, 0.5706040516);
}
