//! What chance may have done: many questions at once, what made the answer sure, and what hardly ever
//! happens.

use ruleshift_record::{Explored, Metric, MetricKind, MetricShift, RareEvent, RunRecord, Saved};

use crate::stats::{CONFIDENCE, Moments, benjamini_hochberg, clopper_pearson, reduction};
use crate::summarise::pairs::Pairs;
use crate::summarise::shifts_of;

/// Games that answer one way below which that answer is rare.
const RARE: u32 = 20;

/// The metrics outside the headline, of all arms as one lot.
pub(super) fn explored(metrics: &[MetricShift]) -> Vec<Explored> {
    let lot: Vec<&MetricShift> = metrics.iter().filter(|m| !m.headline).collect();
    let adjusted = benjamini_hochberg(&lot.iter().map(|m| m.p).collect::<Vec<f64>>());
    let told = |(m, p_discovery): (&MetricShift, f64)| Explored {
        arm: m.arm.clone(),
        metric: m.metric.clone(),
        p: m.p,
        p_holm: m.p_adjusted,
        p_discovery,
    };
    lot.into_iter().zip(adjusted).map(told).collect()
}

/// What made the headline shifts of one arm sure.
pub(super) fn saved(run: &RunRecord, pairs: &Pairs, metrics: &[MetricShift]) -> Vec<Saved> {
    let headline = shifts_of(run, pairs, metrics).filter(|m| m.headline);
    let known = headline.filter_map(|m| Some((m, Metric::by_name(&m.metric)?)));
    known.filter_map(|(shift, metric)| ways(pairs, shift, metric)).collect()
}

fn ways(pairs: &Pairs, shift: &MetricShift, metric: Metric) -> Option<Saved> {
    let (values, margins) = with_margins(pairs, metric);
    let controls: Strata<Vec<f64>> = margins.into_iter().map(|m| vec![centred(m)]).collect();
    let found = reduction(values, controls);
    let known = found.pairing.is_finite() && found.strata.is_finite();
    known.then(|| Saved {
        arm: shift.arm.clone(),
        metric: shift.metric.clone(),
        pairs: shift.pairs,
        luck: found.pairing,
        strata: found.strata,
        margin: found.control.filter(|ratio| ratio.is_finite()),
    })
}

type Strata<T> = Vec<Vec<T>>;

/// The values of every pair and the margin of its reference game, by stratum that has any; a pair
/// that lacks a number is left out.
fn with_margins(pairs: &Pairs, metric: Metric) -> (Strata<(f64, f64)>, Strata<f64>) {
    let mut margins = pairs.strata(pairs.reference_values(Metric::Margin).map(Some));
    let mut values = pairs.all_values(metric);
    for (values, margins) in values.iter_mut().zip(&mut margins) {
        let finite = |(v, m): (&(f64, f64), &f64)| [v.0, v.1, *m].iter().all(|v| v.is_finite());
        let known: Vec<bool> = values.iter().zip(margins.iter()).map(finite).collect();
        let mut of_values = known.iter();
        values.retain(|_| of_values.next() == Some(&true));
        let mut of_margins = known.iter();
        margins.retain(|_| of_margins.next() == Some(&true));
    }
    values.retain(|stratum| !stratum.is_empty());
    margins.retain(|stratum| !stratum.is_empty());
    (values, margins)
}

/// Values less their mean, as if that were the known one.
fn centred(mut values: Vec<f64>) -> Vec<f64> {
    let mean = Moments::of(&values).map_or(0.0, |m| m.mean);
    values.iter_mut().for_each(|v| *v -= mean);
    values
}

/// The rates of every arm that nearly all of its games answer alike.
pub(super) fn rare(run: &RunRecord) -> Vec<RareEvent> {
    let rates = Metric::ALL.iter().filter(|m| m.spec().kind == MetricKind::Rate);
    let arms = move |metric: &'static Metric| run.plan.compared().map(move |arm| (arm, *metric));
    rates.flat_map(arms).filter_map(|(arm, metric)| event(run, arm, metric)).collect()
}

fn event(run: &RunRecord, arm: usize, metric: Metric) -> Option<RareEvent> {
    let scenarios = run.plan.scenarios.len();
    let known = run.games.keys(arm).zip(run.games.column(arm, metric));
    let (mut events, mut games) = (0_u32, 0_u32);
    for (_, value) in known.filter(|((n, _), value)| *n < scenarios && value.is_finite()) {
        events += u32::from(value >= 0.5);
        games += 1;
    }
    let interval = clopper_pearson(events.into(), games.into(), CONFIDENCE)?;
    (events.min(games - events) < RARE).then(|| RareEvent {
        arm: run.plan.arms[arm].name.clone(),
        metric: metric.spec().name.to_owned(),
        events,
        games,
        low: interval.low,
        high: interval.high,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    #[test]
    fn a_lot_bears_more_than_each_by_itself() {
        let with = |(metric, p): (Metric, f64)| MetricShift {
            headline: false,
            p,
            ..sample::shift(metric)
        };
        let lot = [(Metric::Dice, 0.02), (Metric::Rallies, 0.01), (Metric::Bogged, 0.8)].map(with);
        let mut all = lot.to_vec();
        all.push(MetricShift { p: 0.001, ..sample::shift(Metric::Margin) });
        let found = explored(&all);
        let adjusted: Vec<f64> = found.iter().map(|e| e.p_discovery).collect();
        assert_eq!(found.len(), 3, "the headline has a family of its own");
        assert!(adjusted.iter().zip([0.03, 0.03, 0.8]).all(|(a, b)| (a - b).abs() < 1e-12));
    }

    #[test]
    fn each_way_of_being_surer_is_told() {
        let reference = sample::games(400);
        // The arm takes the luck of the reference, turned round by half, and some of its own.
        let arm = reference
            .iter()
            .map(|&(s, g, m)| (s, g, 0.5 * m + f64::from(g * 7 % 11) / 5.0 + s as f64))
            .collect();
        let summary = summarise(&sample::run(&[reference, arm]));
        let saved = summary.closer.saved.iter().find(|s| s.metric == "margin").unwrap();
        let shift = summary.metrics.iter().find(|m| m.metric == "margin").unwrap();
        assert!((saved.luck - shift.variance_ratio).abs() < 1e-12, "{saved:?}");
        // Margins differ by 0.5 times their spread of 3.7, luck of the arm by 0.6, scenarios by 1.
        assert!(saved.strata > 0.9 && saved.strata < 0.97, "{saved:?}");
        assert!(saved.margin.unwrap() < 0.2, "{saved:?}");
    }

    #[test]
    fn what_hardly_ever_happens_has_its_exact_interval() {
        let games = sample::games(400);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for row in rows {
                let often = if row.arm == 0 { 0 } else { 8 };
                let drawn = row.scenario == 0 && row.game < often;
                row.values[Metric::Drawn as usize] = f64::from(u8::from(drawn));
            }
        });
        let rare = summarise(&run).closer.rare;
        assert!(!rare.iter().any(|r| r.metric == "attacker_wins"), "that is no rare event");
        let drawn: Vec<&RareEvent> = rare.iter().filter(|r| r.metric == "drawn").collect();
        assert_eq!((drawn[0].events, drawn[0].low), (0, 0.0));
        // (1 - high)^400 is 0.025.
        assert!((drawn[0].high - (1.0 - 0.025_f64.powf(1.0 / 400.0))).abs() < 1e-12);
        assert_eq!((drawn[1].events, drawn[1].games), (8, 400));
        assert!(drawn[1].low > 0.008 && drawn[1].high < 0.04, "{drawn:?}");
    }
}
