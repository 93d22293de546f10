//! How often intervals from groups of pairs hold the truth, from fixed seeds: those of the report for
//! runs of more than 400 pairs, about 400 groups of which are resampled in place of single pairs.
//!
//! Trials are few in the usual run; `RULESHIFT_TRIALS=20` has twenty times as many. Bounds are exact: a
//! method that holds the truth 93 to 97 times in 100 fails on either side with a chance of 1 in 1,000
//! at the most, one that holds it 90 times in 100 in all but 1 of 1,000 of the longer runs.

use ruleshift_reports::stats::{Landmark, Resampling, grouped_landmark_shifts};
use statrs::distribution::{Binomial, DiscreteCDF};

use crate::coverage::{holds, told};
use crate::coverage_resampled::{
    LANDMARKS, OF_MINUTES, games, minutes, true_shift, true_shifts_of_minutes,
};
use crate::looks::trials;
use crate::made::Luck;

/// As in the report.
const GROUPS: usize = 400;

/// Trials of the usual run.
const USUAL: u32 = 400;

/// Chance to fail on one side at the edge of what is right.
const ERROR: f64 = 0.001;

/// Plays pairs by stratum again and again and fails when intervals of 95 % hold the truth too seldom
/// or too often.
#[track_caller]
fn hold<const N: usize>(
    what: [&str; N],
    (landmarks, truths): (&[Landmark; N], [f64; N]),
    seed: u64,
    mut play: impl FnMut(&mut Luck) -> Vec<Vec<(f64, f64)>>,
) {
    let (trials, mut nth) = (trials(USUAL), 0);
    let shares = told(what, (seed, trials), |luck| {
        nth += 1;
        let how = Resampling { resamples: 600, seed: nth, confidence: 0.95 };
        let found = grouped_landmark_shifts(&play(luck), landmarks, GROUPS, &how).unwrap();
        std::array::from_fn(|n| found[n].shift.is_some_and(|s| holds(s.interval, truths[n])))
    });
    let [fewest, most] = [(0.93, ERROR), (0.97, 1.0 - ERROR)]
        .map(|(share, p)| Binomial::new(share, trials.into()).unwrap().inverse_cdf(p));
    for (what, share) in what.iter().zip(shares) {
        let held = (share * f64::from(trials)).round() as u64;
        assert!((fewest..=most).contains(&held), "{what}: {held} of {trials}");
    }
}

#[test]
fn groups_of_whole_turns_hold_the_truth_95_times_in_100() {
    let what = [
        "median, groups",
        "10 % quantile, groups",
        "90 % quantile, groups",
        "longest tenth, groups",
    ];
    hold(what, (&LANDMARKS, LANDMARKS.map(true_shift)), 41, |luck| games(luck, 4000));
}

#[test]
fn groups_of_minutes_hold_the_truth_95_times_in_100() {
    let what = [
        "median of minutes, groups",
        "longest tenth of minutes, groups",
        "mean of minutes, groups",
    ];
    hold(what, (&OF_MINUTES, true_shifts_of_minutes()), 42, |luck| vec![minutes(luck, 4000)]);
}

/// Twenty scenarios of which each has 25 groups, the least: the spread within each comes out too small
/// by one part in 25.
#[test]
fn groups_of_many_scenarios_hold_the_truth_95_times_in_100() {
    let what = [
        "median, 20 scenarios",
        "10 % quantile, 20 scenarios",
        "90 % quantile, 20 scenarios",
        "longest tenth, 20 scenarios",
    ];
    let play = |luck: &mut Luck| {
        // Each scenario of the three in parts of 100 pairs, so that none is mixed.
        let parts = games(luck, 2000).concat();
        parts.chunks(100).map(<[(f64, f64)]>::to_vec).collect()
    };
    hold(what, (&LANDMARKS, LANDMARKS.map(true_shift)), 43, play);
}
