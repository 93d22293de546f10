//! How often resampled intervals hold the truth, from fixed seeds: turns in whole numbers, in three
//! scenarios of unequal length and size, paired by half of their luck.

use ruleshift_reports::stats::{CountedPairs, Landmark, Resampling, bootstrap, landmark_shifts};

use crate::coverage::{holds, right, told};
use crate::made::Luck;

/// Luck of a game in turns, each equally likely: what both games share, and what each has its own.
const SHARED: [i32; 10] = [-2, -1, -1, 0, 0, 0, 0, 1, 1, 3];
const REFERENCE: [i32; 5] = [-1, 0, 0, 0, 2];
const ARM: [i32; 4] = [-2, -1, 0, 0];
/// Turns of the plain game in each scenario, and its part of all pairs.
const SCENARIOS: [(i32, usize); 3] = [(7, 5), (8, 3), (5, 2)];

fn turns(plain: i32, luck: i32) -> f64 {
    f64::from((plain + luck).max(1))
}

/// So many pairs of games, those of each scenario together.
pub(crate) fn games(luck: &mut Luck, size: usize) -> Vec<Vec<(f64, f64)>> {
    let mut one = |of: &[i32]| of[(luck.unit() * of.len() as f64) as usize];
    let mut pair = |plain| {
        let shared = one(&SHARED);
        (turns(plain, shared + one(&REFERENCE)), turns(plain, shared + one(&ARM)))
    };
    SCENARIOS.map(|(plain, part)| (0..part * size / 10).map(|_| pair(plain)).collect()).to_vec()
}

/// Every pair that can be, as often as it is likely.
fn all() -> Vec<(f64, f64)> {
    let mut all = Vec::new();
    for (plain, part) in SCENARIOS {
        for shared in SHARED {
            for reference in REFERENCE {
                for arm in ARM {
                    let pair = (turns(plain, shared + reference), turns(plain, shared + arm));
                    all.extend(std::iter::repeat_n(pair, part));
                }
            }
        }
    }
    all
}

pub(crate) const LANDMARKS: [Landmark; 4] = [
    Landmark::Quantile(0.5),
    Landmark::Quantile(0.1),
    Landmark::Quantile(0.9),
    Landmark::UpperTail(0.1),
];

pub(crate) fn true_shift(landmark: Landmark) -> f64 {
    let (reference, arm): (Vec<f64>, Vec<f64>) = all().into_iter().unzip();
    landmark.of(&arm).unwrap() - landmark.of(&reference).unwrap()
}

#[test]
fn shifts_of_landmarks_hold_the_truth_95_times_in_100() {
    let truths = LANDMARKS.map(true_shift);
    let what = ["median", "10 % quantile", "90 % quantile", "longest tenth"];
    let mut seed = 0;
    let shares = told(what, (31, 1000), |luck| {
        seed += 1;
        let how = Resampling { resamples: 600, seed, confidence: 0.95 };
        let found = landmark_shifts(&games(luck, 600), &LANDMARKS, &how).unwrap();
        std::array::from_fn(|n| found[n].shift.is_some_and(|s| holds(s.interval, truths[n])))
    });
    right(&shares);
}

/// The worst place for a mid-distribution quantile is the middle of a value whose neighbours are
/// unequally likely, where the straight lines meet at an angle: 1, 2 and 6 with chances 40, 20 and
/// 40 % under both arms, the median at 2, a slope of 3.3 below and 13.3 above. There BCa loses two
/// parts in a hundred (the percentile interval, measured once, none), and more games do not help.
#[test]
fn shifts_at_an_angle_hold_the_truth_95_times_in_100() {
    let length = |u: f64| match u {
        u if u < 0.4 => 1.0,
        u if u < 0.6 => 2.0,
        _ => 6.0,
    };
    let mut seed = 0;
    let shares = told(["median at an angle"], (32, 3000), |luck| {
        seed += 1;
        let how = Resampling { resamples: 600, seed, confidence: 0.95 };
        let games: Vec<(f64, f64)> =
            (0..500).map(|_| (length(luck.unit()), length(luck.unit()))).collect();
        let found = landmark_shifts(&[games], &LANDMARKS[..1], &how).unwrap();
        [found[0].shift.is_some_and(|s| holds(s.interval, 0.0))]
    });
    right(&shares);
}

/// Minutes without ties, skew: the arm is the reference and half as much again, with luck of its own.
pub(crate) fn minutes(luck: &mut Luck, size: usize) -> Vec<(f64, f64)> {
    let mut time = |mean: f64| -mean * (1.0 - luck.unit()).ln();
    let mut pair = || {
        let reference = time(60.0);
        (reference, reference + time(30.0))
    };
    (0..size).map(|_| pair()).collect()
}

pub(crate) const OF_MINUTES: [Landmark; 3] =
    [Landmark::Quantile(0.5), Landmark::UpperTail(0.1), Landmark::UpperTail(1.0)];

/// The true shifts of [`OF_MINUTES`] between [`minutes`].
pub(crate) fn true_shifts_of_minutes() -> [f64; 3] {
    // The sum of both times has the density of two exponentials in a row.
    let longer = |t: f64| 2.0 * (-t / 60.0).exp() - (-t / 30.0).exp();
    let quantile = |p: f64| {
        let (mut low, mut high) = (0.0, 2000.0);
        (0..60).for_each(|_| {
            let middle = (low + high) / 2.0;
            if longer(middle) > 1.0 - p { low = middle } else { high = middle }
        });
        low
    };
    // The mean beyond a quantile: the quantile and what is left of the survival, per chance.
    let q = quantile(0.9);
    let tail = q + (120.0 * (-q / 60.0).exp() - 30.0 * (-q / 30.0).exp()) / 0.1;
    let reference_tail = 60.0 * (1.0 + 10.0_f64.ln());
    [quantile(0.5) - 60.0 * 2.0_f64.ln(), tail - reference_tail, 30.0]
}

/// Quantiles of minutes as those of Hazen, and a mean. The longest tenth must be
/// many games: of 1,000 it holds the truth 94 times in 100, of 800 and of 300 it was measured at 92.
#[test]
fn shifts_of_minutes_hold_the_truth_95_times_in_100() {
    let what = ["median of minutes", "longest tenth of minutes", "mean of minutes"];
    let truths = true_shifts_of_minutes();
    let mut seed = 0;
    let shares = told(what, (20_261_126, 500), |luck| {
        seed += 1;
        let how = Resampling { resamples: 600, seed, confidence: 0.95 };
        let found = landmark_shifts(&[minutes(luck, 1000)], &OF_MINUTES, &how).unwrap();
        std::array::from_fn(|n| found[n].shift.is_some_and(|s| holds(s.interval, truths[n])))
    });
    // Three standard errors of 500 trials below 94 and above 95 of 100: of three shares that are right,
    // one lies outside in 4 of 1,000 seeds at most.
    assert!(shares.iter().all(|share| (0.908..=0.979).contains(share)), "{shares:?}");
}

/// A rare and large shift: one pair in fifty moves by 1 to 12 turns. The middle of resamples is off,
/// and BCa is nearer to its promise than the percentile interval.
#[test]
fn means_of_rare_shifts_hold_the_truth_95_times_in_100() {
    let mut seed = 0;
    let shares = told(["mean of rare shifts"], (34, 1000), |luck| {
        seed += 1;
        let how = Resampling { resamples: 600, seed, confidence: 0.95 };
        let mut moved = || {
            let (rare, far) = (luck.unit() < 0.02, (12.0 * luck.unit()).ceil());
            if rare { far } else { 0.0 }
        };
        let pairs = CountedPairs::of(&[(0..2000).map(|_| (0.0, moved())).collect()]);
        let mean = |w: &[f64]| {
            let sum: f64 = pairs.different().iter().zip(w).map(|(p, w)| p.1 * w).sum();
            vec![sum / 2000.0]
        };
        [bootstrap(&pairs, &how, mean)[0].is_some_and(|s| holds(s.interval, 0.02 * 6.5))]
    });
    right(&shares);
}

/// The size of a usual run: 100,000 pairs, 2,000 resamples, four landmarks.
#[test]
fn a_hundred_thousand_pairs_are_no_burden() {
    let how = Resampling { resamples: 2000, seed: 5, confidence: 0.95 };
    let found = landmark_shifts(&games(&mut Luck(35), 100_000), &LANDMARKS, &how).unwrap();
    for (found, landmark) in found.iter().zip(LANDMARKS) {
        let shift = found.shift.unwrap();
        let width = (shift.interval.high - shift.interval.low) / shift.se;
        let off = (shift.value - true_shift(landmark)) / shift.se;
        // Nearly normal by now: twice 1.96 errors wide.
        assert!((3.7..4.15).contains(&width) && off.abs() < 3.0, "{found:?}: {width} {off}");
    }
}
