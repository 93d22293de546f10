//! The same luck in both arms is worth games.
//!
//! `variance_ratio` is the variance of the paired shift over that of two unpaired games; below 1,
//! pairing saves games (common random numbers: Law, Simulation Modeling and Analysis, 2015,
//! section 11.2).

use ruleshift_record::METRICS;

use crate::support::Run;

#[test]
fn pairing_saves_games_for_a_mild_rule() {
    let run = Run::fine("kinder-pin-recovery --games 1000 --seed 5");
    let ratios: Vec<(String, f64)> = run
        .summary()
        .metrics
        .into_iter()
        .filter(|shift| shift.headline)
        .map(|shift| (shift.metric, shift.variance_ratio))
        .collect();
    assert_eq!(ratios.len(), METRICS.iter().filter(|metric| metric.headline).count());
    assert!(ratios.iter().all(|(_, ratio)| ratio.is_finite() && *ratio >= 0.0), "{ratios:?}");
    let saved = ratios.iter().filter(|(_, ratio)| *ratio < 1.0).count();
    assert!(saved * 4 >= ratios.len() * 3, "three of four at least: {ratios:?}");
}

/// The ratio is what it says: computed here from the games.
#[test]
fn the_variance_ratio_is_that_of_the_games() {
    let run = Run::fine("no-late-fire --games 400 --scenario meeting-engagement");
    let (base, changed) = (run.arm(0), run.arm(1));
    for shift in run.summary().metrics {
        let metric = ruleshift_record::Metric::by_name(&shift.metric).unwrap();
        let variance = |values: Vec<f64>| {
            let mean = values.iter().sum::<f64>() / values.len() as f64;
            values.iter().map(|value| (value - mean).powi(2)).sum::<f64>()
        };
        let of =
            |games: &[ruleshift_record::GameRow]| games.iter().map(|g| g.get(metric)).collect();
        let shifts =
            base.iter().zip(&changed).map(|(b, c)| c.get(metric) - b.get(metric)).collect();
        let unpaired = variance(of(&base)) + variance(of(&changed));
        let expected = if unpaired == 0.0 { 1.0 } else { variance(shifts) / unpaired };
        assert!((shift.variance_ratio - expected).abs() < 1e-6, "{}: {expected}", shift.metric);
    }
}
