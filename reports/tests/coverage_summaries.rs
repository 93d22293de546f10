//! How often summaries over scenarios, controls, shares and families are right, from fixed seeds.

use ruleshift_reports::stats::{
    ControlledStratum, benjamini_hochberg, benjamini_yekutieli, clopper_pearson, controlled_mean,
    random_effects, stratified_mean, unpaired_interval,
};
use statrs::distribution::{Binomial, Discrete};

use crate::coverage::{holds, right, say, slack_of, told};
use crate::made::Luck;

/// Eight scenarios of unequal precision whose true shifts have a mean of 1 and that deviation.
fn scenarios(luck: &mut Luck, between: f64) -> Vec<(f64, f64)> {
    [0.2, 0.2, 0.25, 0.3, 0.3, 0.4, 0.4, 0.5]
        .map(|se| (1.0 + between * luck.bell() + se * luck.bell(), se))
        .to_vec()
}

#[test]
fn means_of_scenarios_that_differ_hold_the_truth_95_times_in_100() {
    // The prediction interval is right when scenarios differ by more than each is unsure, as they do
    // in runs of thousands of games. When they are all alike it is too long; in between, where eight
    // scenarios often show no spread at all, it is too short.
    for (between, seed, next_held) in
        [(0.0, 41, 0.98..1.0), (0.3, 42, 0.85..0.91), (1.5, 43, 0.93..0.97)]
    {
        let what = ["mean of scenarios", "next scenario"];
        let [mean, next] = told(what, (seed, 4000), |luck| {
            let found = random_effects(&scenarios(luck, between)).unwrap();
            let one_more = 1.0 + between * luck.bell();
            let next = found.next.unwrap().interval(0.95);
            [holds(found.mean.interval(0.95), 1.0), holds(next, one_more)]
        });
        right(&[mean]);
        assert!(next_held.contains(&next), "{between}: {next}");
    }
}

/// Three scenarios of few games and unequal spread; a good control and a useless one.
fn controlled(luck: &mut Luck) -> Vec<ControlledStratum> {
    [(12, 1.0, 1.0), (20, 3.0, 0.2), (8, 0.5, -2.0)]
        .map(|(n, spread, off)| {
            let good: Vec<f64> = (0..n).map(|_| luck.bell()).collect();
            let useless = (0..n).map(|_| luck.bell()).collect();
            let values = good.iter().map(|c| 0.7 + off + 2.0 * c + spread * luck.bell()).collect();
            ControlledStratum { values, controls: vec![good, useless] }
        })
        .to_vec()
}

#[test]
fn controlled_means_hold_the_truth_95_times_in_100() {
    let (mut with, mut without) = (0.0, 0.0);
    let [held] = told(["controlled mean"], (44, 4000), |luck| {
        let strata = controlled(luck);
        let found = controlled_mean(&strata).unwrap();
        let values: Vec<Vec<f64>> = strata.into_iter().map(|s| s.values).collect();
        with += found.mean.se.powi(2);
        without += stratified_mean(&values).unwrap().se.powi(2);
        [holds(found.mean.interval(0.95), 0.7)]
    });
    right(&[held]);
    assert!(with < 0.75 * without, "{with} {without}");
}

/// With one stratum and normal values the interval is exact (Lavenberg & Welch 1981), however few
/// the games; taking the coefficients for known would not be.
#[test]
fn few_games_with_controls_are_exactly_right() {
    let [held] = told(["controlled mean of ten games"], (45, 4000), |luck| {
        let mut column = || (0..10).map(|_| luck.bell()).collect::<Vec<f64>>();
        let (one, other, noise) = (column(), column(), column());
        let values = (0..10).map(|n| 3.0 + 2.0 * one[n] - other[n] + noise[n]).collect();
        let stratum = ControlledStratum { values, controls: vec![one, other] };
        [holds(controlled_mean(&[stratum]).unwrap().mean.interval(0.95), 3.0)]
    });
    assert!((held - 0.95).abs() < slack_of(4000, 0.95), "{held}");
}

/// The chance that the interval of a share holds it, summed over all counts.
fn exactly(trials: u64, share: f64) -> f64 {
    let binomial = Binomial::new(share, trials).unwrap();
    let held = |x: &u64| holds(clopper_pearson(*x, trials, 0.95).unwrap(), share);
    (0..=trials).filter(held).map(|x| binomial.pmf(x)).sum()
}

#[test]
fn exact_intervals_hold_every_share_at_least_95_times_in_100() {
    for (trials, share) in [(20, 0.1), (200, 0.003), (1000, 0.001), (1000, 0.01)] {
        let held = exactly(trials, share);
        assert!((0.95..1.0).contains(&held), "{share} of {trials}: {held}");
    }
    right(&[exactly(1000, 0.3), exactly(2000, 0.05)]);
}

#[test]
fn unpaired_share_intervals_hold_the_truth_95_times_in_100() {
    let [held] = told(["unpaired shares"], (46, 4000), |luck| {
        let mut won = |games: u64, share| (0..games).filter(|_| luck.unit() < share).count() as u64;
        let interval = unpaired_interval((won(120, 0.45), 120), (won(80, 0.3), 80), 0.95).unwrap();
        [holds(interval, 0.15)]
    });
    right(&[held]);
}

/// Twenty questions, half of them with a real shift. The expected share of false ones among those
/// found is exactly half of 5 % for independent tests (Benjamini & Yekutieli 2001, theorem 5.1).
#[test]
fn few_of_the_shifts_found_are_false() {
    let (mut hochberg, mut yekutieli, mut luck) = (0.0, 0.0, Luck(47));
    let trials = 4000;
    for _ in 0..trials {
        let p: Vec<f64> =
            (0..20).map(|n| if n < 10 { luck.unit() } else { luck.unit().powi(8) }).collect();
        let falsely = |adjusted: Vec<f64>| {
            let found: Vec<usize> = (0..20).filter(|&n| adjusted[n] <= 0.05).collect();
            let wrong = found.iter().filter(|&&n| n < 10).count();
            wrong as f64 / (found.len() as f64).max(1.0)
        };
        hochberg += falsely(benjamini_hochberg(&p)) / f64::from(trials);
        yekutieli += falsely(benjamini_yekutieli(&p)) / f64::from(trials);
    }
    say("expected share of false shifts by Benjamini & Hochberg", hochberg, trials);
    say("the same by Benjamini & Yekutieli", yekutieli, trials);
    // A share of false ones has a deviation of at most 0.16 here: three errors are 0.0076.
    assert!((hochberg - 0.025).abs() < 0.0076, "{hochberg}");
    assert!(yekutieli < 0.02 && yekutieli > 0.0, "{yekutieli}");
}
