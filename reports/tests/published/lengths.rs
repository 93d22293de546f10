//! Lengths that may be cut: the remission times of Freireich et al. (1963) Blood 21:699-716, as in
//! Gehan (1965) Biometrika 52:203-223. Weeks in remission under a drug and under a placebo.

use ruleshift_reports::stats::{Length, OpenInterval, Survival, log_rank};

use super::close;

fn drug() -> Vec<Length> {
    let ended = [6.0, 6.0, 6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0];
    let cut = [6.0, 9.0, 10.0, 11.0, 17.0, 19.0, 20.0, 25.0, 32.0, 32.0, 34.0, 35.0];
    let length = |ended| move |&time: &f64| Length { time, ended };
    ended.iter().map(length(true)).chain(cut.iter().map(length(false))).collect()
}

fn placebo() -> Vec<Length> {
    let ended = [
        1.0, 1.0, 2.0, 2.0, 3.0, 4.0, 4.0, 5.0, 5.0, 8.0, 8.0, 8.0, 8.0, 11.0, 11.0, 12.0, 12.0,
        15.0, 17.0, 22.0, 23.0,
    ];
    ended.iter().map(|&time| Length { time, ended: true }).collect()
}

/// Kleinbaum & Klein, Survival Analysis, chapter 2: survival .857, .807, .753, .690, .627, .538,
/// .448 and median 23; fractions exact, standard errors recomputed (lifelines 0.30).
#[test]
fn remission_under_the_drug() {
    let survival = Survival::of(&drug()).unwrap();
    let expected = [
        (6.0, 21.0, 3.0, 6.0 / 7.0, 0.07636035483),
        (7.0, 17.0, 1.0, 96.0 / 119.0, 0.08693528518),
        (10.0, 15.0, 1.0, 64.0 / 85.0, 0.09634965299),
        (13.0, 12.0, 1.0, 176.0 / 255.0, 0.1068147078),
        (16.0, 11.0, 1.0, 32.0 / 51.0, 0.1140538653),
        (22.0, 7.0, 1.0, 64.0 / 119.0, 0.1282337517),
        (23.0, 6.0, 1.0, 160.0 / 357.0, 0.1345914568),
    ];
    assert_eq!(survival.steps.len(), expected.len());
    for (step, (time, at_risk, ended, going, se)) in survival.steps.iter().zip(expected) {
        assert_eq!((step.time, step.at_risk, step.ended), (time, at_risk, ended));
        close(step.going, going);
        close(step.se(), se);
    }
    assert_eq!((survival.median(), survival.last), (Some(23.0), 35.0));
}

/// Without a cut, the shares of longer times; exact.
#[test]
fn remission_under_the_placebo() {
    let survival = Survival::of(&placebo()).unwrap();
    let times = [1.0, 2.0, 3.0, 4.0, 5.0, 8.0, 11.0, 12.0, 15.0, 17.0, 22.0, 23.0];
    let going = [19.0, 17.0, 16.0, 14.0, 12.0, 8.0, 6.0, 4.0, 3.0, 2.0, 1.0, 0.0];
    assert_eq!(survival.steps.len(), times.len());
    for (step, (time, going)) in survival.steps.iter().zip(times.into_iter().zip(going)) {
        assert_eq!(step.time, time);
        close(step.going, going / 21.0);
    }
    assert_eq!(survival.median(), Some(8.0));
}

/// Medians 23 (13 to beyond the data) and 8 (4 to 11) by the log(-log) scale: as printed by common
/// software for these data, from memory.
#[test]
fn intervals_of_the_median_remission() {
    let interval = |lengths: &[Length]| Survival::of(lengths).unwrap().median_interval(0.95);
    assert_eq!(interval(&drug()), OpenInterval { low: Some(13.0), high: None });
    assert_eq!(interval(&placebo()), OpenInterval { low: Some(4.0), high: Some(11.0) });
}

/// Chi-squared 16.79294, z -4.097919, p 4.168809e-05 in the documentation of an R package; ten
/// digits recomputed (lifelines 0.30, and exact fractions). Textbooks also print 15.23, which is the
/// sum of (observed - expected)^2 / expected, an approximation on the careful side.
#[test]
fn log_rank_test_of_the_remissions() {
    let found = log_rank(&[(drug(), placebo())]).unwrap();
    assert_eq!(found.observed, (9.0, 21.0));
    close(found.expected.0, 19.25050095);
    close(found.expected.1, 10.74949905);
    close(found.variance, 6.256960574);
    close(found.chi_squared, 16.79294099);
    close((found.observed.0 - found.expected.0) / found.variance.sqrt(), -4.097919105);
    close(found.p, 4.168809109e-5);
    let part = |(o, e): (f64, f64)| (o - e) * (o - e) / e;
    let approximate =
        part((found.observed.0, found.expected.0)) + part((found.observed.1, found.expected.1));
    close(approximate, 15.23285029);
}

/// The same data twice over as two strata: both sums double, and with them chi-squared (Mantel 1966).
#[test]
fn log_rank_test_of_two_equal_strata() {
    let found = log_rank(&[(drug(), placebo()), (drug(), placebo())]).unwrap();
    close(found.variance, 2.0 * 6.256960574);
    close(found.chi_squared, 2.0 * 16.79294099);
}

/// Restricted means by the method of Royston & Parmar (2013) BMC Medical Research Methodology
/// 13:152: recomputed only (exact fractions; errors without a factor for small samples).
#[test]
fn mean_remission_up_to_a_limit() {
    let (drug, placebo) = (Survival::of(&drug()).unwrap(), Survival::of(&placebo()).unwrap());
    let expected = [
        (10.0, 9.277310924, 0.3267691154, 6.619047619, 0.7330122689, 2.658263305, 0.8025490895),
        (20.0, 16.11652661, 1.251560196, 8.428571429, 1.268082683, 7.687955182, 1.781694871),
        (23.0, 17.9092437, 1.553189978, 8.666666667, 1.377390041, 9.242577031, 2.075958197),
        (35.0, 23.28739496, 2.827467623, 8.666666667, 1.377390041, 14.62072829, 3.145119471),
    ];
    for (limit, mean, se, placebo_mean, placebo_se, difference, difference_se) in expected {
        let with = drug.restricted_mean(limit).unwrap();
        let without = placebo.restricted_mean(limit).unwrap();
        let apart = with.less(&without);
        for (found, expected) in [
            (with.value, mean),
            (with.se, se),
            (without.value, placebo_mean),
            (without.se, placebo_se),
            (apart.value, difference),
            (apart.se, difference_se),
        ] {
            close(found, expected);
        }
    }
}
