//! How often the intervals for lengths that may be cut hold the truth, from fixed seeds.

use ruleshift_reports::stats::{
    Length, Survival, log_rank, restricted_mean_shift, stratified_mean,
};

use crate::coverage::{holds, right, slack_of, told};
use crate::made::Luck;

/// Minutes of a game: exponential with that mean, cut at 180 or, one game in five, when somebody has
/// to leave.
fn evening(luck: &mut Luck, mean: f64) -> Length {
    let (time, leaves) = (-mean * (1.0 - luck.unit()).ln(), luck.unit() < 0.2);
    cut(time, if leaves { 180.0 * luck.unit() } else { 180.0 })
}

fn cut(time: f64, limit: f64) -> Length {
    Length { time: time.min(limit), ended: time <= limit }
}

fn evenings(luck: &mut Luck, games: u32, mean: f64) -> Vec<Length> {
    (0..games).map(|_| evening(luck, mean)).collect()
}

/// The mean up to a limit of an exponential length.
fn up_to(limit: f64, mean: f64) -> f64 {
    mean * (1.0 - (-limit / mean).exp())
}

#[test]
fn intervals_of_cut_lengths_hold_the_truth_95_times_in_100() {
    let what = ["share still going", "median length", "restricted mean", "its difference"];
    let shares = told(what, (21, 4000), |luck| {
        let (one, other) = (evenings(luck, 150, 120.0), evenings(luck, 150, 90.0));
        let (one, other) = (Survival::of(&one).unwrap(), Survival::of(&other).unwrap());
        let going = one.at(100.0).unwrap().interval(0.95).unwrap();
        let median = other.median_interval(0.95);
        let truth = 90.0 * 2.0_f64.ln();
        let (a, b) = (one.restricted_mean(150.0).unwrap(), other.restricted_mean(150.0).unwrap());
        [
            holds(going, (-100.0_f64 / 120.0).exp()),
            // The interval is half open: its upper end is the first length refused.
            median.low.is_some_and(|low| low <= truth) && median.high.is_none_or(|h| truth < h),
            holds(a.interval(0.95), up_to(150.0, 120.0)),
            holds(a.less(&b).interval(0.95), up_to(150.0, 120.0) - up_to(150.0, 90.0)),
        ]
    });
    right(&shares);
}

#[test]
fn the_log_rank_test_raises_5_false_alarms_in_100() {
    // Two scenarios, of which one lasts longer and has more games of one arm.
    let [alarms] = told(["log-rank alarms"], (22, 4000), |luck| {
        let short = (evenings(luck, 60, 60.0), evenings(luck, 60, 60.0));
        let long = (evenings(luck, 40, 150.0), evenings(luck, 80, 150.0));
        [log_rank(&[short, long]).unwrap().p < 0.05]
    });
    assert!((alarms - 0.05).abs() < slack_of(4000, 0.05), "{alarms}");
}

/// Turns of a pair of games that share half of their luck, cut at 8 turns.
fn turns(luck: &mut Luck) -> (Length, Length) {
    let common = 2.0 * luck.bell();
    let mut game = |mean: f64| cut((mean + common + 2.0 * luck.bell()).round().max(1.0), 8.0);
    (game(7.0), game(6.0))
}

/// The mean of turns cut at 8, from the chances of a bell of deviation sqrt 8.
fn mean_turns(mean: f64) -> f64 {
    // Longer than k turns: rounded above k. The bell is twenty-four uniform numbers, near normal
    // enough for a third digit.
    let longer = |k: f64| statrs::function::erf::erfc((k + 0.5 - mean) / 4.0) / 2.0;
    1.0 + (1..8).map(|k| longer(f64::from(k))).sum::<f64>()
}

#[test]
fn paired_shifts_of_cut_lengths_hold_the_truth_95_times_in_100() {
    let truth = mean_turns(6.0) - mean_turns(7.0);
    let mut narrower = 0;
    let [shares] = told(["paired shift of the restricted mean"], (23, 2000), |luck| {
        let pairs: Vec<(Length, Length)> = (0..200).map(|_| turns(luck)).collect();
        let (reference, arm): (Vec<Length>, Vec<Length>) = pairs.iter().copied().unzip();
        let mean = |games: &[Length]| Survival::of(games).unwrap().restricted_mean(8.0).unwrap();
        let shift = restricted_mean_shift(&[pairs], 8.0).unwrap();
        narrower += u32::from(shift.se < mean(&arm).less(&mean(&reference)).se);
        [holds(shift.interval(0.95), truth)]
    });
    right(&[shares]);
    assert!(narrower > 1990, "shared luck makes it surer: {narrower}");
}

/// Some games are cut early, at random: pseudo-values still find the shift of the full lengths.
#[test]
fn paired_shifts_with_early_cuts_hold_the_truth_95_times_in_100() {
    let truth = mean_turns(6.0) - mean_turns(7.0);
    let leave = |luck: &mut Luck, game: Length| {
        let limit = if luck.unit() < 0.4 { (8.0 * luck.unit()).ceil() } else { 8.0 };
        if game.time > limit { Length { time: limit, ended: false } } else { game }
    };
    let what = ["paired shift with early cuts", "cuts taken for ends"];
    let [held, naive] = told(what, (24, 1000), |luck| {
        let pairs: Vec<(Length, Length)> = (0..400)
            .map(|_| {
                let (reference, arm) = turns(luck);
                (leave(luck, reference), leave(luck, arm))
            })
            .collect();
        let plain = pairs.iter().map(|(reference, arm)| arm.time - reference.time).collect();
        let shift = restricted_mean_shift(&[pairs], 8.0).unwrap();
        [
            holds(shift.interval(0.95), truth),
            holds(stratified_mean(&[plain]).unwrap().interval(0.95), truth),
        ]
    });
    right(&[held]);
    assert!(naive < 0.9, "taking cuts for ends is wrong: {naive}");
}
