//! How long both sides hold out.
//!
//! A game has ended of itself when a side broke or had nobody left. One that the turn limit ended was
//! cut: nobody knows how long it might have gone on. Scenarios have turn limits of their own, so each
//! has its own curve, and what is told is their mean.

use std::collections::BTreeMap;

use ruleshift_record::{Holding, HoldingCurve, HoldingPoint, HoldingShift, Metric, RunRecord};

use crate::stats::{
    CONFIDENCE, Counted, Length, Step, Survival, by_length, log_rank_counted,
    restricted_mean_shift_of,
};
use crate::summarise::pairs::Pairs;

/// The curves of all arms and the shifts of all but the reference; `None` when no side ever broke.
pub(super) fn holding(run: &RunRecord, pairs: &[Pairs]) -> Option<Holding> {
    let curves: Vec<HoldingCurve> = run.plan.compared().filter_map(|arm| curve(run, arm)).collect();
    let shifts: Vec<HoldingShift> = pairs.iter().filter_map(|p| shift(run, p)).collect();
    let told = !shifts.is_empty() && curves.iter().any(|curve| curve.broke > 0);
    told.then_some(Holding { curves, shifts })
}

/// The length of a game; none when it is no number.
fn length(turns: f64, cut: f64) -> Option<Length> {
    (turns.is_finite() && turns.abs() < 1e6 && cut.is_finite())
        .then_some(Length { time: turns, ended: cut < 0.5 })
}

/// All games of those counted by length.
fn games(counts: &[Counted]) -> f64 {
    counts.iter().map(|(_, ended, cut)| ended + cut).sum()
}

/// The mean of the curves of all scenarios of an arm, each weighing as many games as it has.
fn curve(run: &RunRecord, arm: usize) -> Option<HoldingCurve> {
    let scenarios = by_scenario(run, arm)?;
    let all: f64 = scenarios.iter().map(|own| games(own)).sum();
    let curves: Vec<(f64, Survival)> = scenarios
        .iter()
        .filter_map(|own| Some((games(own) / all, Survival::counted(own)?)))
        .collect();
    let mut turns: Vec<f64> =
        curves.iter().flat_map(|(_, s)| s.steps.iter().map(|step| step.time)).collect();
    turns.sort_by(f64::total_cmp);
    turns.dedup();
    let broke: f64 = scenarios.iter().flatten().map(|(_, ended, _)| ended).sum();
    (all > 0.0).then(|| HoldingCurve {
        arm: run.plan.arms[arm].name.clone(),
        broke: broke as u32,
        cut: (all - broke) as u32,
        points: turns.into_iter().map(|turn| point(&curves, turn)).collect(),
    })
}

/// The games of an arm by length, of each scenario.
fn by_scenario(run: &RunRecord, arm: usize) -> Option<Vec<Vec<Counted>>> {
    let mut sizes = vec![0; run.plan.scenarios.len()];
    for span in run.games.spans(arm) {
        if let Some(size) = sizes.get_mut(span.scenario) {
            *size += span.games.len();
        }
    }
    let turns = run.games.column(arm, Metric::Turns).into_iter();
    // Games stand in the order of their scenarios.
    let mut lengths = turns.zip(run.games.column(arm, Metric::EndedByObjective));
    let counted = |size: usize| {
        by_length(lengths.by_ref().take(size).filter_map(|(turns, cut)| length(turns, cut)))
    };
    sizes.into_iter().map(counted).collect()
}

/// The mean share after `turn`, its variance the sum of those of the scenarios by the square of their
/// weights (Cochran 1977, Sampling Techniques, 3rd edition, section 5.3).
fn point(curves: &[(f64, Survival)], turn: f64) -> HoldingPoint {
    let (mut share, mut variance) = (0.0, 0.0);
    for (weight, curve) in curves {
        let step = curve.at(turn);
        share += weight * step.map_or(1.0, |step| step.going);
        variance += step.map_or(0.0, |step| (weight * step.se()).powi(2));
    }
    // The interval of one curve with the same share and variance.
    let greenwood = if share > 0.0 { variance / (share * share) } else { 0.0 };
    let step = Step { time: turn, at_risk: 0.0, ended: 0.0, going: share, greenwood };
    let (low, high) = step.interval(CONFIDENCE).map_or((share, share), |i| (i.low, i.high));
    HoldingPoint { turn, share, low, high }
}

fn shift(run: &RunRecord, pairs: &Pairs) -> Option<HoldingShift> {
    let Lengths { strata, different } = Lengths::of(pairs);
    let both = |&(one, other): &(u32, u32)| {
        different[one as usize].zip(different[other as usize]).expect("pairs without are left out")
    };
    let arms: Vec<[Vec<Counted>; 2]> = strata
        .iter()
        .map(|own| {
            let (one, other) = (own.iter().map(|p| both(p).0), own.iter().map(|p| both(p).1));
            Some([by_length(one)?, by_length(other)?])
        })
        .collect::<Option<_>>()?;
    let p = log_rank_counted(&arms).map(|test| test.p);
    let limits: Vec<f64> = arms.iter().map(|[one, other]| last(one).min(last(other))).collect();
    let top = limits.iter().copied().reduce(f64::max)?;
    let size: usize = strata.iter().map(Vec::len).sum();
    let mean = |side: usize| -> Option<f64> {
        let mean = |(arms, limit): (&[Vec<Counted>; 2], &f64)| {
            let weight = games(&arms[side]) / size as f64;
            Some(weight * Survival::counted(&arms[side])?.restricted_mean(*limit)?.value)
        };
        arms.iter().zip(&limits).map(mean).sum()
    };
    // Every game of a stratum starts so much later that all limits fall together: a shift is the same.
    let later = strata.iter().zip(&limits).map(|(own, limit)| {
        let by = top - limit;
        let start = move |length: Length| Length { time: length.time + by, ..length };
        own.iter().map(both).map(move |(one, other)| (start(one), start(other)))
    });
    let found = restricted_mean_shift_of(later, top)?;
    let interval = found.interval(CONFIDENCE);
    Some(HoldingShift {
        arm: run.plan.arms[pairs.arm].name.clone(),
        pairs: u32::try_from(size).unwrap_or(u32::MAX),
        reference: mean(0)?,
        mean: mean(1)?,
        shift: found.value,
        low: interval.low,
        high: interval.high,
        p,
    })
}

/// The longest game of those counted by length.
fn last(counts: &[Counted]) -> f64 {
    counts.last().map_or(f64::NEG_INFINITY, |(time, _, _)| *time)
}

/// The lengths of both games of every pair, of which few differ: each pair holds two numbers of them.
struct Lengths {
    /// By stratum that has a pair; a pair that lacks a length is left out.
    strata: Vec<Vec<(u32, u32)>>,
    different: Vec<Option<Length>>,
}

impl Lengths {
    fn of(pairs: &Pairs) -> Lengths {
        let (mut known, mut different) = (BTreeMap::new(), Vec::new());
        let mut number = |(turns, cut): (f64, f64)| -> u32 {
            let found = length(turns, cut);
            *known.entry(found.map(|l| (l.time.to_bits(), l.ended))).or_insert_with(|| {
                different.push(found);
                different.len() as u32 - 1
            })
        };
        let (turns, cut) = (Metric::Turns, Metric::EndedByObjective);
        let reference = pairs.reference_values(turns).zip(pairs.reference_values(cut));
        let reference = pairs.listed(reference.map(&mut number));
        let arm = pairs.arm_values(turns).zip(pairs.arm_values(cut)).map(&mut number);
        let mut strata = pairs.strata(reference.into_iter().zip(arm).map(Some));
        let whole = |number: u32| different[number as usize].is_some();
        strata.iter_mut().for_each(|own| own.retain(|&(one, other)| whole(one) && whole(other)));
        strata.retain(|own| !own.is_empty());
        Lengths { strata, different }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    /// Games of `hill` are cut at 8 turns, those of `meeting` at 12; `turns` says when one breaks.
    fn run(turns: impl Fn(usize, usize, u32) -> f64) -> RunRecord {
        let games = sample::games(200);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for game in rows {
                let limit = [8.0, 12.0][game.scenario];
                let turns = turns(game.arm, game.scenario, game.game);
                game.values[Metric::Turns as usize] = turns.min(limit);
                game.values[Metric::EndedByObjective as usize] = f64::from(u8::from(turns > limit));
            }
        });
        run
    }

    #[test]
    fn the_limit_of_each_scenario_cuts_its_own_games() {
        // Half of the games break after 5 turns, the others never.
        let run = run(|arm, _, game| if game % 2 == 0 { 5.0 + arm as f64 } else { 99.0 });
        let found = summarise(&run).closer.holding.unwrap();
        let curve = &found.curves[0];
        assert_eq!((curve.broke, curve.cut), (100, 100));
        assert_eq!(
            curve.points.iter().map(|p| (p.turn, p.share)).collect::<Vec<_>>(),
            [(5.0, 0.5)]
        );
        assert!(curve.points[0].low > 0.42 && curve.points[0].high < 0.58);
        let shift = &found.shifts[0];
        // Up to 8 and 12 turns: means of 5 and 8, and of 5 and 12.
        assert!((shift.reference - (6.5 + 8.5) / 2.0).abs() < 1e-9, "{shift:?}");
        assert!((shift.shift - 0.5).abs() < 1e-9 && shift.low > 0.4 && shift.high < 0.6);
        assert!((shift.mean - shift.reference - shift.shift).abs() < 1e-9);
    }

    #[test]
    fn a_longer_turn_limit_is_no_longer_game() {
        // The same games, but the arm goes on where the reference is cut.
        let mut run = run(|_, _, game| f64::from(3 + game % 12));
        run.games = run.games.changed(|rows| {
            for row in rows.iter_mut().filter(|row| row.arm == 1) {
                row.values[Metric::Turns as usize] = f64::from(3 + row.game % 12);
                row.values[Metric::EndedByObjective as usize] = 0.0;
            }
        });
        let shift = summarise(&run).closer.holding.unwrap().shifts.remove(0);
        assert!(shift.shift.abs() < 1e-9 && shift.p.unwrap() > 0.99, "{shift:?}");
    }

    #[test]
    fn games_that_are_all_cut_say_nothing() {
        assert_eq!(summarise(&run(|_, _, _| 99.0)).closer.holding, None);
    }
}
