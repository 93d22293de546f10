//! How often bands, crossings and effects are right, on made luck from fixed seeds.
//!
//! Arms share their luck as games do: a game takes the common throw in most arms and one of its own in
//! the others, so that a rate is exactly what it is planted to be. Bounds are the stated rate plus or
//! minus three standard errors of the number of trials, or wider on the careful side where it is said.

use crate::coverage::{say, told};
use crate::made::Luck;
use ruleshift_reports::stats::{
    Estimate, Interval, Link, NormalDraws, band_confidence, band_crossing, curve, fieller, holm,
    joint, stratified_mean, yates,
};

const TRIALS: u32 = 2000;

/// Three standard errors of a rate of 0.95 among as many trials.
const SLACK: f64 = 0.0147;

/// Share of trials in which `hit` holds, told to whoever runs with `--nocapture`.
fn rate(what: &str, seed: u64, mut hit: impl FnMut(&mut Luck) -> bool) -> f64 {
    let [share] = told([what], (seed, TRIALS), |luck| [hit(luck)]);
    share
}

/// One game in arms that win at those rates: three in four arms take the common throw.
fn wins(luck: &mut Luck, rates: &[f64]) -> Vec<f64> {
    let common = luck.unit();
    let throw = |luck: &mut Luck| if luck.unit() < 0.75 { common } else { luck.unit() };
    rates.iter().map(|rate| f64::from(u8::from(throw(luck) < *rate))).collect()
}

/// One game with a number in each arm, tied by the common luck.
fn numbers(luck: &mut Luck, means: &[f64], spread: f64) -> Vec<f64> {
    let common = luck.bell();
    means.iter().map(|m| m + spread * (0.8 * common + 0.6 * luck.bell())).collect()
}

fn holds(interval: Interval, truth: f64) -> bool {
    interval.low <= truth && truth <= interval.high
}

fn logit(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

#[test]
fn a_band_of_numbers_holds_all_means_95_times_in_100() {
    let means = [1.0, 1.4, 1.5, 2.5, 2.6];
    let draws = NormalDraws::new(5, 4000);
    let held = rate("bands of numbers hold all means", 11, |luck| {
        let strata: Vec<Vec<Vec<f64>>> = [(60, 1.0), (40, 2.5)]
            .map(|(n, spread)| (0..n).map(|_| numbers(luck, &means, spread)).collect())
            .to_vec();
        let joint = joint(&strata).unwrap();
        let level = band_confidence(&joint.covariance, 0.95, &draws);
        joint.means.iter().zip(means).all(|(m, truth)| holds(m.interval(level), truth))
    });
    assert!((held - 0.95).abs() < SLACK, "{held}");
}

/// Wilson's interval at the worth of the games, at most those played: on the careful side where
/// scenarios differ, so up to 98 in 100 are allowed.
#[test]
fn a_band_of_rates_holds_all_of_them_at_least_94_times_in_100() {
    let rates = [[0.2, 0.3, 0.45, 0.5, 0.62], [0.35, 0.42, 0.5, 0.61, 0.8]];
    let draws = NormalDraws::new(5, 4000);
    let held = rate("bands of rates hold all rates", 12, |luck| {
        let strata: Vec<Vec<Vec<f64>>> =
            rates.iter().map(|r| (0..100).map(|_| wins(luck, r)).collect()).collect();
        let joint = joint(&strata).unwrap();
        let level = band_confidence(&joint.covariance, 0.95, &draws);
        let truth = |n: usize| (rates[0][n] + rates[1][n]) / 2.0;
        joint.means.iter().enumerate().all(|(n, m)| holds(m.rate_interval(level), truth(n)))
    });
    assert!(held > 0.95 - SLACK && held < 0.98, "{held}");
}

/// A crossing of a logistic curve at 2.6 by Fieller's interval, and by the band, which answers for all
/// values at once and is therefore right more often: at least 95 times.
#[test]
fn a_crossing_is_held_95_times_in_100_by_the_curve_and_more_often_by_the_band() {
    let x = [1.0, 2.0, 3.0, 4.0, 5.0];
    let rates = x.map(|x| logit(0.5 * (x - 2.6)));
    let draws = NormalDraws::new(5, 4000);
    let (mut by_band, mut refused) = (0_u32, 0_u32);
    let held = rate("Fieller's interval holds the crossing", 13, |luck| {
        let strata: Vec<Vec<Vec<f64>>> =
            (0..2).map(|_| (0..90).map(|_| wins(luck, &rates)).collect()).collect();
        let joint = joint(&strata).unwrap();
        let fit = curve(Link::LogOdds, &x, &joint).unwrap();
        refused += u32::from(fit.lack.unwrap().p < 0.05);
        let reach = Estimate { value: 0.0, se: 1.0, ..joint.means[0] }.interval(0.95).high;
        let found = fieller(&fit, &x, 0.5, reach).unwrap();
        let level = band_confidence(&joint.covariance, 0.95, &draws);
        let band: Vec<Interval> = joint.means.iter().map(|m| m.rate_interval(level)).collect();
        let means: Vec<f64> = joint.means.iter().map(|m| m.value).collect();
        let read = band_crossing(&x, &means, &band, 0.5);
        by_band += u32::from(read.possible.iter().any(|p| holds(p.range, 2.6)));
        found.possible.iter().any(|p| holds(p.range, 2.6))
    });
    assert!((held - 0.95).abs() < SLACK, "{held}");
    let by_band = f64::from(by_band) / f64::from(TRIALS);
    say("a band of rates holds the crossing", by_band, TRIALS);
    assert!(by_band > 0.95 && by_band <= 1.0, "{by_band}");
    // A true curve is refused 5 times in 100.
    let refused = f64::from(refused) / f64::from(TRIALS);
    say("true logistic curves refused", refused, TRIALS);
    assert!((refused - 0.05).abs() < SLACK + 0.005, "{refused}");
}

#[test]
fn a_straight_line_that_is_true_is_refused_5_times_in_100() {
    let x = [0.0, 1.0, 2.0, 5.0];
    let means = x.map(|x| 3.0 - 0.2 * x);
    let refused = rate("true straight lines refused", 14, |luck| {
        let games = (0..150).map(|_| numbers(luck, &means, 1.0)).collect();
        curve(Link::Plain, &x, &joint(&[games]).unwrap()).unwrap().lack.unwrap().p < 0.05
    });
    // Chi-squared where a little more than that is exact: 150 games leave half a point.
    assert!((refused - 0.05).abs() < SLACK + 0.005, "{refused}");
}

/// Wins in the eight arms of three settings, of which the first shifts and none changes another.
#[test]
fn effects_on_wins_are_held_95_times_and_false_alarms_are_rare() {
    let rates = [0.4, 0.55, 0.4, 0.55, 0.4, 0.55, 0.4, 0.55];
    let (mut alarms, mut held_all) = (0_u32, 0_u32);
    let held = rate("effects on wins are held", 15, |luck| {
        let games: Vec<Vec<f64>> = (0..120).map(|_| yates(&wins(luck, &rates))).collect();
        let effect = |n: usize| -> Estimate {
            stratified_mean(&[games.iter().map(|game| game[n]).collect()]).unwrap()
        };
        let p: Vec<f64> = (2..8).map(|n| effect(n).p()).collect();
        alarms += u32::from(holm(&p).iter().any(|p| *p < 0.05));
        held_all += u32::from(holds(effect(3).interval(0.95), 0.0));
        holds(effect(1).interval(0.95), 0.15)
    });
    assert!((held - 0.95).abs() < SLACK, "{held}");
    let share = |n: u32| f64::from(n) / f64::from(TRIALS);
    say("an effect of nothing is held", share(held_all), TRIALS);
    say("families of six effects of nothing with a false alarm", share(alarms), TRIALS);
    assert!((share(held_all) - 0.95).abs() < SLACK, "{held_all}");
    // Six true nulls of one game each: at most 5 in 100 families.
    assert!(share(alarms) < 0.05 + SLACK && share(alarms) > 0.02, "{alarms}");
}
