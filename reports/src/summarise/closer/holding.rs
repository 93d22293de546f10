//! How long both sides hold out.
//!
//! A game has ended of itself when a side broke or had nobody left. One that the turn limit ended was
//! cut: nobody knows how long it might have gone on. Scenarios have turn limits of their own, so each
//! has its own curve, and what is told is their mean.

use ruleshift_record::{Holding, HoldingCurve, HoldingPoint, HoldingShift, Metric, RunRecord};

use crate::stats::{CONFIDENCE, Length, Step, Survival, log_rank, restricted_mean_shift};
use crate::summarise::pairs::Pairs;

/// The curves of all arms and the shifts of all but the reference; `None` when no side ever broke.
pub(super) fn holding(run: &RunRecord, pairs: &[Pairs]) -> Option<Holding> {
    let curves: Vec<HoldingCurve> = run.plan.compared().filter_map(|arm| curve(run, arm)).collect();
    let shifts: Vec<HoldingShift> = pairs.iter().filter_map(|p| shift(run, p)).collect();
    let told = !shifts.is_empty() && curves.iter().any(|curve| curve.broke > 0);
    told.then_some(Holding { curves, shifts })
}

/// Games of the reference, and of the arm.
type Both = (Vec<Length>, Vec<Length>);

/// The length of a game; none when it is no number.
fn length(turns: f64, cut: f64) -> Option<Length> {
    (turns.is_finite() && turns.abs() < 1e6 && cut.is_finite())
        .then_some(Length { time: turns, ended: cut < 0.5 })
}

/// The mean of the curves of all scenarios of an arm, each weighing as many games as it has.
fn curve(run: &RunRecord, arm: usize) -> Option<HoldingCurve> {
    let mut scenarios = vec![Vec::new(); run.plan.scenarios.len()];
    let (turns, cut) =
        (run.games.column(arm, Metric::Turns), run.games.column(arm, Metric::EndedByObjective));
    for ((scenario, _), (turns, cut)) in
        run.games.keys(arm).into_iter().zip(turns.into_iter().zip(cut))
    {
        if let Some(games) = scenarios.get_mut(scenario) {
            games.extend(length(turns, cut));
        }
    }
    let games: Vec<Length> = scenarios.concat();
    let curves: Vec<(f64, Survival)> = scenarios
        .iter()
        .filter_map(|own| Some((own.len() as f64 / games.len() as f64, Survival::of(own)?)))
        .collect();
    let mut turns: Vec<f64> =
        curves.iter().flat_map(|(_, s)| s.steps.iter().map(|step| step.time)).collect();
    turns.sort_by(f64::total_cmp);
    turns.dedup();
    let broke = games.iter().filter(|length| length.ended).count();
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    (!games.is_empty()).then(|| HoldingCurve {
        arm: run.plan.arms[arm].name.clone(),
        broke: count(broke),
        cut: count(games.len() - broke),
        points: turns.into_iter().map(|turn| point(&curves, turn)).collect(),
    })
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
    let ends = pairs.both(Metric::EndedByObjective).into_iter();
    let lengths = pairs.both(Metric::Turns).into_iter().zip(ends);
    let both = lengths.map(|(turns, cut)| Some((length(turns.0, cut.0)?, length(turns.1, cut.1)?)));
    let mut strata = pairs.strata(both);
    strata.retain(|stratum| !stratum.is_empty());
    let arms: Vec<Both> = strata.iter().map(|stratum| stratum.iter().copied().unzip()).collect();
    let p = log_rank(&arms).map(|test| test.p);
    let limits: Vec<f64> = arms.iter().map(|(one, other)| last(one).min(last(other))).collect();
    let top = limits.iter().copied().reduce(f64::max)?;
    let count: usize = strata.iter().map(Vec::len).sum();
    let mean = |of: fn(&Both) -> &Vec<Length>| -> Option<f64> {
        let mean = |(games, limit): (&Both, &f64)| {
            let weight = of(games).len() as f64 / count as f64;
            Some(weight * Survival::of(of(games))?.restricted_mean(*limit)?.value)
        };
        arms.iter().zip(&limits).map(mean).sum()
    };
    // Every game of a stratum starts so much later that all limits fall together: a shift is the same.
    for (stratum, limit) in strata.iter_mut().zip(&limits) {
        for (one, other) in stratum {
            one.time += top - limit;
            other.time += top - limit;
        }
    }
    let found = restricted_mean_shift(&strata, top)?;
    let interval = found.interval(CONFIDENCE);
    Some(HoldingShift {
        arm: run.plan.arms[pairs.arm].name.clone(),
        pairs: u32::try_from(count).unwrap_or(u32::MAX),
        reference: mean(|arms| &arms.0)?,
        mean: mean(|arms| &arms.1)?,
        shift: found.value,
        low: interval.low,
        high: interval.high,
        p,
    })
}

/// The longest game.
fn last(games: &[Length]) -> f64 {
    games.iter().map(|game| game.time).fold(f64::NEG_INFINITY, f64::max)
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
