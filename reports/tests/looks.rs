//! How often answers are right that were looked at along the way, on made luck from fixed seeds.
//!
//! Each bound is the stated rate with three standard errors of the number of trials. More trials,
//! and so narrower bounds: `RULESHIFT_TRIALS=20` has twenty times as many.

use crate::made::Luck;
use ruleshift_reports::stats::{
    Estimate, Monitor, POWER, Seen, Spending, Width, needed_for_width, pairs_for_equivalence,
    pairs_for_shift, stratified_mean, width_step, wilson,
};

const FAMILY: usize = 8;
const LOOKS: [u32; 5] = [100, 200, 400, 800, 1600];

/// Trials of a test: a number of them, times what the environment says.
pub(crate) fn trials(usual: u32) -> u32 {
    let times = std::env::var("RULESHIFT_TRIALS").ok().and_then(|n| n.parse::<u32>().ok());
    usual * times.unwrap_or(1).max(1)
}

/// Three standard errors of a rate in so many trials.
pub(crate) fn slack(rate: f64, trials: u32) -> f64 {
    3.0 * (rate * (1.0 - rate) / f64::from(trials)).sqrt()
}

/// Share of trials in which `hit` holds.
pub(crate) fn rate(trials: u32, hit: impl FnMut(u32) -> bool) -> f64 {
    let hits = (0..trials).map(hit).filter(|hit| *hit).count();
    hits as f64 / f64::from(trials)
}

/// Prints a figure, for whoever runs with `--nocapture`.
#[expect(clippy::print_stdout, reason = "a long run tells what it measured")]
pub(crate) fn told(line: &str) {
    println!("{line}");
}

/// A number of mean 0 and deviation 1, every one of its range alike.
fn flat(luck: &mut Luck) -> f64 {
    (luck.unit() - 0.5) * 12.0_f64.sqrt()
}

/// Shifts of a family, half of whose luck is common to all metrics, in two scenarios.
fn play(luck: &mut Luck, shifts: &[f64], games: u32, family: &mut [Vec<Vec<f64>>]) {
    for game in 0..games {
        let common = flat(luck);
        for (metric, shift) in family.iter_mut().zip(shifts) {
            let own = flat(luck);
            metric[(game % 2) as usize].push(shift + (common + own) * 0.5_f64.sqrt());
        }
    }
}

/// What each look of a run sees of each metric, with the estimates it rests on.
fn watch(
    luck: &mut Luck,
    looks: &[u32],
    shifts: &[f64],
    margin: f64,
) -> (Vec<Vec<Seen>>, Vec<Vec<Estimate>>) {
    let mut family = vec![vec![vec![]; 2]; shifts.len()];
    let (mut seen, mut estimates) = (vec![vec![]; shifts.len()], vec![vec![]; shifts.len()]);
    let mut done = 0;
    for &games in looks {
        play(luck, shifts, games - done, &mut family);
        done = games;
        for (metric, strata) in family.iter().enumerate() {
            let estimate = stratified_mean(strata).unwrap();
            let equivalence_p = estimate.equivalence_p(margin);
            seen[metric].push(Seen { p: estimate.p(), equivalence_p });
            estimates[metric].push(estimate);
        }
    }
    (seen, estimates)
}

#[test]
fn a_family_without_shifts_raises_any_alarm_in_at_most_5_of_100_runs() {
    let (monitor, trials) = (Monitor::new(&LOOKS, FAMILY, Spending::Late).unwrap(), trials(2000));
    let alarms = rate(trials, |trial| {
        let (seen, _) = watch(&mut Luck(u64::from(trial)), &LOOKS, &[0.0; FAMILY], 1.0);
        monitor.decide(&seen).iter().any(|d| d.shift.is_some())
    });
    told(&format!("false alarms, eight metrics without shift: {alarms:.4} of {trials}"));
    // Metrics that share luck raise their alarms together, so the rate stays below the level.
    assert!(alarms < 0.05 + slack(0.05, trials) && alarms > 0.025, "{alarms}");
}

#[test]
fn shifts_of_others_raise_no_alarms() {
    let (monitor, trials) = (Monitor::new(&LOOKS, FAMILY, Spending::Late).unwrap(), trials(2000));
    let shifts = [0.0, 0.5, 0.5, 0.5, 0.5, 0.5, 0.12, 0.0];
    let alarms = rate(trials, |trial| {
        let (seen, _) = watch(&mut Luck(u64::from(trial) + (1 << 32)), &LOOKS, &shifts, 1.0);
        let decided = monitor.decide(&seen);
        assert!(decided[1..6].iter().all(|d| d.shift.is_some()), "half a deviation is found");
        decided[0].shift.is_some() || decided[7].shift.is_some()
    });
    told(&format!("false alarms, two without shift among eight: {alarms:.4} of {trials}"));
    // The level is that of two open metrics once all others have left.
    assert!(alarms < 0.05 + slack(0.05, trials) && alarms > 0.03, "{alarms}");
}

/// Without care the same looks raise far more, which is what the limits are for.
#[test]
fn looking_without_care_would_raise_many() {
    let trials = trials(1000);
    let alarms = rate(trials, |trial| {
        let (seen, _) = watch(&mut Luck(u64::from(trial) + (2 << 32)), &LOOKS, &[0.0], 1.0);
        seen[0].iter().any(|seen| seen.p < 0.05)
    });
    assert!(alarms > 0.1, "{alarms}");
}

/// Looks at doubling numbers of games, the last of which is `most`.
fn doubling(most: f64) -> Vec<u32> {
    [16.0, 8.0, 4.0, 2.0, 1.0].map(|part| (most / part).ceil() as u32).to_vec()
}

#[test]
fn a_shift_of_the_planned_size_is_found_as_often_as_promised() {
    let trials = trials(2000);
    for family in [1, FAMILY] {
        let plain = pairs_for_shift(0.12, 1.0, 0.05 / family as f64, POWER).unwrap();
        let inflation = Monitor::new(&doubling(1e6), family, Spending::Late).unwrap();
        let looks = doubling(plain * inflation.inflation(POWER));
        let monitor = Monitor::new(&looks, family, Spending::Late).unwrap();
        let none = vec![Seen { p: 1.0, equivalence_p: 1.0 }; looks.len()];
        let (mut games, mut found) = (0, 0);
        for trial in 0..trials {
            let luck = &mut Luck(u64::from(trial) + ((3 + family as u64) << 32));
            let (mut seen, _) = watch(luck, &looks, &[0.12], 1.0);
            seen.resize(family, none.clone());
            let shift = monitor.decide(&seen)[0].shift;
            found += u32::from(shift.is_some());
            games += looks[shift.unwrap_or(looks.len() - 1)];
        }
        let power = f64::from(found) / f64::from(trials);
        let mean = f64::from(games) / f64::from(trials) / plain;
        told(&format!(
            "power in a family of {family}: {power:.4}; games {mean:.3} of a plain test"
        ));
        assert!((power - POWER).abs() < slack(POWER, trials) + 0.01, "{family}: {power}");
        assert!(mean < 1.0, "looks save games: {mean}");
    }
}

#[test]
fn a_shift_on_the_margin_is_said_to_be_none_in_at_most_5_of_100_runs() {
    let (monitor, trials) = (Monitor::new(&LOOKS, 1, Spending::Late).unwrap(), trials(4000));
    let claims = rate(trials, |trial| {
        let (seen, _) = watch(&mut Luck(u64::from(trial) + (20 << 32)), &LOOKS, &[0.2], 0.2);
        monitor.decide(&seen)[0].equivalent.is_some()
    });
    told(&format!("claims of no difference on the margin: {claims:.4} of {trials}"));
    assert!(claims < 0.05 + slack(0.05, trials) && claims > 0.05 - slack(0.05, trials), "{claims}");
}

#[test]
fn no_shift_is_said_to_be_none_as_often_as_promised() {
    let trials = trials(2000);
    let plain = pairs_for_equivalence(0.0, 1.0, 0.12, 0.05, POWER).unwrap();
    let inflation = Monitor::new(&doubling(1e6), 1, Spending::Late).unwrap().inflation(POWER);
    let looks = doubling(plain * inflation);
    let monitor = Monitor::new(&looks, 1, Spending::Late).unwrap();
    let claims = rate(trials, |trial| {
        let (seen, _) = watch(&mut Luck(u64::from(trial) + (21 << 32)), &looks, &[0.0], 0.12);
        monitor.decide(&seen)[0].equivalent.is_some()
    });
    told(&format!("claims of no difference without one: {claims:.4} of {trials}"));
    assert!((claims - POWER).abs() < slack(POWER, trials) + 0.01, "{claims}");
}

#[test]
fn intervals_where_a_run_stops_hold_the_shift_at_least_95_times_in_100() {
    let (monitor, trials) = (Monitor::new(&LOOKS, 1, Spending::Late).unwrap(), trials(2000));
    for (n, shift) in [0.0, 0.05, 0.1, 0.2, 0.4].into_iter().enumerate() {
        let mut plain = 0;
        let held = rate(trials, |trial| {
            let luck = &mut Luck(u64::from(trial) + ((30 + n as u64) << 32));
            let (seen, estimates) = watch(luck, &LOOKS, &[shift], 0.2);
            let decided = monitor.decide(&seen)[0];
            let first = decided.shift.into_iter().chain(decided.equivalent).min();
            let stop = first.unwrap_or(LOOKS.len() - 1);
            let estimate = &estimates[0][stop];
            let naive = estimate.interval(0.95);
            plain += u32::from(naive.low <= shift && shift <= naive.high);
            let interval = monitor.interval(stop, estimate).unwrap();
            interval.low <= shift && shift <= interval.high
        });
        let plain = f64::from(plain) / f64::from(trials);
        told(&format!("intervals at the stop, shift {shift}: {held:.4}; without care {plain:.4}"));
        assert!(held > 0.95 - slack(0.95, trials), "{shift}: {held}");
        assert!(held > plain, "wider than without care");
    }
}

/// Plays until an interval is as narrow as wanted; whether it holds `truth`, and the games.
fn narrow(luck: &mut Luck, wanted: f64, truth: f64, is_rate: bool) -> (bool, u32) {
    let mut values: Vec<f64> = Vec::new();
    let interval = |values: &[f64]| match is_rate {
        true => wilson(values.iter().sum::<f64>() as u64, values.len() as u64, 0.95).unwrap(),
        false => stratified_mean(&[values.to_vec()]).unwrap().interval(0.95),
    };
    loop {
        let done = values.len() as u32;
        let found = (done > 0).then(|| interval(&values));
        let reach = found.map_or(f64::INFINITY, |i| (i.high - i.low) / 2.0);
        match width_step(done, reach, wanted, 1_000_000) {
            Width::Play(games) => values.resize_with(games as usize, || {
                let lucky = luck.unit();
                // A rate, or waiting times: skewed, as many small numbers as can be.
                if is_rate {
                    f64::from(u8::from(lucky < truth))
                } else {
                    -truth * (1.0 - lucky).ln()
                }
            }),
            Width::Reached => {
                return (found.is_some_and(|i| i.low <= truth && truth <= i.high), done);
            }
            Width::Capped(needed) => panic!("{needed} games"),
        }
    }
}

#[test]
fn intervals_of_a_wanted_width_hold_the_truth_93_to_97_times_in_100() {
    let trials = trials(3000);
    let cases = [(0.04, 0.5, true), (0.03, 0.1, true), (0.02, 0.03, true), (0.1, 1.0, false)];
    for (n, (wanted, truth, is_rate)) in cases.into_iter().enumerate() {
        let mut games = 0.0;
        let held = rate(trials, |trial| {
            let luck = &mut Luck(u64::from(trial) + ((50 + n as u64) << 32));
            let (held, done) = narrow(luck, wanted, truth, is_rate);
            games += f64::from(done) / f64::from(trials);
            held
        });
        let sd = if is_rate { (truth * (1.0 - truth)).sqrt() } else { truth };
        let needed = needed_for_width(1, 1.96 * sd, wanted).unwrap();
        told(&format!(
            "width {wanted} about {truth}: {held:.4}; {games:.0} games, {needed:.0} by plan"
        ));
        assert!((0.93..=0.97).contains(&held), "{wanted} {truth}: {held}");
        assert!(games < 1.2 * needed + 20.0, "{games} of {needed}");
    }
}
