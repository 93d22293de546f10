//! The headline shifts with scenarios, or pairings of players, taken as a sample of many.

use ruleshift_record::{Metric, MetricShift, RunRecord, Sample, ShiftSpread};

use crate::stats::{CONFIDENCE, Estimate, heterogeneity, random_effects, stratified_mean};
use crate::summarise::pairs::Pairs;
use crate::summarise::{differences, shifts_of};

/// Fewer tell nothing of another one.
const FEWEST: usize = 3;

/// The share of what shifts differ by that must be more than chance (I²) before another one is
/// foretold. With a half, they truly differ by as much as the typical standard error of one of them
/// (Higgins & Thompson 2002, Statistics in Medicine 21:1539-1558, formula 9); with less, prediction
/// intervals were measured to hold too rarely.
const FORETOLD: f64 = 0.5;

/// The headline shifts of one arm over scenarios, and over pairings where there are several.
pub(super) fn spread(run: &RunRecord, pairs: &Pairs, metrics: &[MetricShift]) -> Vec<ShiftSpread> {
    let headline = shifts_of(run, pairs, metrics).filter(|m| m.headline);
    let known = headline.filter_map(|m| Metric::by_name(&m.metric));
    known.flat_map(|metric| of(run, pairs, metric)).collect()
}

fn of(run: &RunRecord, pairs: &Pairs, metric: Metric) -> Vec<ShiftSpread> {
    let strata = differences(&pairs.values(metric));
    let pairings = pairs.pairings();
    let scenarios: Vec<Estimate> = strata.chunks(pairings).filter_map(stratified_mean).collect();
    let with =
        |n: usize| -> Vec<Vec<f64>> { strata.iter().skip(n).step_by(pairings).cloned().collect() };
    let players: Vec<Estimate> = (0..pairings).filter_map(|n| stratified_mean(&with(n))).collect();
    let told = |(over, shifts): (Sample, Vec<Estimate>)| {
        let shifts: Vec<(f64, f64)> = shifts.iter().map(|e| (e.value, e.se)).collect();
        let found = random_effects(&shifts).filter(|found| found.mean.count >= FEWEST)?;
        let mean = found.mean.interval(CONFIDENCE);
        let differ = heterogeneity(&shifts).is_some_and(|test| test.i_squared() >= FORETOLD);
        let next = found.next.filter(|_| differ).map(|next| next.interval(CONFIDENCE));
        let tau = found.between.sqrt();
        let ends = next.map(|next| (next.low, next.high));
        let numbers = [found.mean.value, mean.low, mean.high, tau];
        let known = numbers.into_iter().chain(ends.map(|e| e.1 - e.0)).all(f64::is_finite);
        known.then(|| ShiftSpread {
            arm: run.plan.arms[pairs.arm].name.clone(),
            metric: metric.spec().name.to_owned(),
            over,
            count: u32::try_from(found.mean.count).unwrap_or(u32::MAX),
            mean: found.mean.value,
            low: mean.low,
            high: mean.high,
            tau,
            next: ends,
        })
    };
    let both = [(Sample::Scenarios, scenarios), (Sample::Pairings, players)];
    both.into_iter().filter_map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;
    use ruleshift_record::PlanScenario;

    /// Four scenarios, whose margins shift by `by` and some luck.
    fn run(by: [f64; 4]) -> RunRecord {
        let games = |arm: bool| -> Vec<sample::Made> {
            let margin = |s: usize, g: u32| {
                let wobble = f64::from(g * 7 % 11) / 5.0 - 1.0;
                f64::from(g % 5) - 2.0 + if arm { by[s] + wobble } else { 0.0 }
            };
            (0..4).flat_map(|s| (0..110).map(move |g| (s, g, margin(s, g)))).collect()
        };
        let mut run = sample::run(&[games(false), games(true)]);
        let named =
            |name: &str| PlanScenario { name: name.into(), ..run.plan.scenarios[0].clone() };
        run.plan.scenarios = ["a", "b", "c", "d"].map(named).to_vec();
        run
    }

    fn margin(run: &RunRecord) -> Vec<ShiftSpread> {
        let spread = summarise(run).closer.spread;
        spread.into_iter().filter(|s| s.metric == "margin").collect()
    }

    #[test]
    fn scenarios_that_differ_foretell_a_wide_range() {
        let found = margin(&run([1.0, 3.0, -1.0, 2.0]));
        assert_eq!((found.len(), found[0].over, found[0].count), (1, Sample::Scenarios, 4));
        assert!((found[0].mean - 1.25).abs() < 0.01, "{found:?}");
        // The standard deviation of the four is 1.71.
        assert!((found[0].tau - 1.71).abs() < 0.01, "{found:?}");
        let (low, high) = found[0].next.unwrap();
        assert!(low < found[0].low - 1.0 && high > found[0].high + 1.0, "{found:?}");
    }

    #[test]
    fn scenarios_that_agree_foretell_nothing() {
        let found = margin(&run([1.0; 4]));
        assert_eq!((found[0].next, found[0].tau), (None, 0.0));
        assert!((found[0].mean - 1.0).abs() < 0.01, "{found:?}");
    }

    #[test]
    fn two_scenarios_are_no_sample_but_nine_pairings_are() {
        let reference = sample::games(1800);
        let by = |g: u32| f64::from(g % 9 % 3) + f64::from(g / 9 * 7 % 11) / 5.0 - 1.0;
        let arm = reference.iter().map(|&(s, g, m)| (s, g, m + by(g))).collect();
        let mut run = sample::run(&[reference.clone(), arm]);
        sample::roster(&mut run, &["steady", "bold", "cautious"]);
        let found = margin(&run);
        assert_eq!((found.len(), found[0].over, found[0].count), (1, Sample::Pairings, 9));
        assert!((found[0].mean - 1.0).abs() < 0.1 && found[0].next.is_some(), "{found:?}");
    }
}
