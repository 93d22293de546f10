//! The usual and the unusual game: medians, tenths and means of the highest tenth.

use ruleshift_record::{Metric, RunRecord, TailPlace, TailShift};

use crate::stats::{CONFIDENCE, Landmark, LandmarkShift, Resampling, grouped_landmark_shifts};
use crate::summarise::pairs::Pairs;

/// Resamples behind each interval.
pub(crate) const RESAMPLES: u32 = 2000;

/// Groups into which more pairs than that are put.
pub(crate) const GROUPS: usize = 400;

/// The shifts of every place of every metric whose tails matter; the luck of resampling follows from
/// the seed of the run.
pub(super) fn tails(run: &RunRecord, pairs: &Pairs) -> Vec<TailShift> {
    let metrics = Metric::ALL.iter().filter(|metric| metric.spec().tail);
    metrics.flat_map(|&metric| of(run, pairs, metric).unwrap_or_default()).collect()
}

fn landmark(place: TailPlace) -> Landmark {
    match place {
        TailPlace::LowTenth => Landmark::Quantile(0.1),
        TailPlace::Half => Landmark::Quantile(0.5),
        TailPlace::HighTenth => Landmark::Quantile(0.9),
        TailPlace::MeanOfHighTenth => Landmark::UpperTail(0.1),
    }
}

fn of(run: &RunRecord, pairs: &Pairs, metric: Metric) -> Option<Vec<TailShift>> {
    let notice = run.plan.notice(metric);
    let rounded = rounding(notice);
    let mut strata = pairs.values(metric);
    strata.iter_mut().flatten().for_each(|v| *v = (rounded(v.0), rounded(v.1)));
    if strata.iter().map(Vec::len).sum::<usize>() < 2 {
        return None;
    }
    let how = Resampling { resamples: RESAMPLES, seed: run.plan.seed, confidence: CONFIDENCE };
    let found = grouped_landmark_shifts(&strata, &TailPlace::ALL.map(landmark), GROUPS, &how)?;
    let arm = &run.plan.arms[pairs.arm].name;
    let told = |(place, found): (TailPlace, LandmarkShift)| {
        let shift = found.arm - found.reference;
        // No resample differs: all games shift alike.
        let (low, high) = found.shift.map_or((shift, shift), |s| (s.interval.low, s.interval.high));
        let known = [found.reference, found.arm, shift, low, high].iter().all(|v| v.is_finite());
        known.then(|| TailShift {
            arm: arm.clone(),
            metric: metric.spec().name.to_owned(),
            place,
            reference: found.reference,
            value: found.arm,
            shift,
            low,
            high,
            noticed: low >= notice || high <= -notice,
        })
    };
    Some(TailPlace::ALL.into_iter().zip(found).filter_map(told).collect())
}

/// Rounds to a tenth of what is noticed or finer, to a round part of one, so that whole numbers stay
/// what they are: the fewer values differ, the faster is resampling.
fn rounding(notice: f64) -> impl Fn(f64) -> f64 {
    let steps = [1.0, 2.0, 5.0];
    let parts = (0..9).flat_map(|n| steps.map(|step| step * 10_f64.powi(n)));
    let parts = parts.into_iter().find(|parts| parts * notice >= 10.0).unwrap_or(f64::INFINITY);
    move |value| {
        let rounded = (value * parts).round() / parts;
        if rounded.is_finite() { rounded } else { value }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    #[test]
    fn values_are_rounded_to_a_tenth_of_what_is_noticed_and_whole_numbers_stay() {
        assert_eq!([rounding(5.0)(144.3), rounding(0.02)(0.2571)], [144.5, 0.258]);
        assert_eq!(
            [rounding(0.3)(7.0), rounding(20.0)(431.0), rounding(20.0)(1.4)],
            [7.0, 431.0, 1.0]
        );
        assert_eq!([rounding(1e-12)(0.3), rounding(5.0)(f64::MAX)], [0.3, f64::MAX]);
    }

    fn run(turns: impl Fn(u32) -> f64) -> RunRecord {
        let games = sample::games(400);
        let mut run = sample::run(&[games.clone(), games]);
        run.games = run.games.changed(|rows| {
            for game in rows {
                let base = f64::from(6 + game.game * 7 % 5);
                let more = if game.arm == 1 { turns(game.game) } else { 0.0 };
                game.values[Metric::Turns as usize] = base + more;
            }
        });
        run
    }

    #[test]
    fn a_long_tail_shows_where_it_is_and_not_in_the_middle() {
        // Every twentieth game, one of the longest, is ten turns longer.
        let summary = summarise(&run(|g| if g % 20 == 2 { 10.0 } else { 0.0 }));
        let found: Vec<&TailShift> =
            summary.closer.tails.iter().filter(|t| t.metric == "turns").collect();
        assert_eq!(found.len(), 4);
        assert_eq!((found[0].shift, found[1].noticed), (0.0, false));
        let tail = found[3];
        assert!(tail.noticed && tail.low > 2.0 && tail.low < tail.shift, "{tail:?}");
    }

    #[test]
    fn what_all_games_share_is_sure() {
        let summary = summarise(&run(|_| 1.0));
        let found = summary.closer.tails.iter().find(|t| t.metric == "turns").unwrap();
        assert_eq!((found.shift, found.low, found.high, found.noticed), (1.0, 1.0, 1.0, true));
    }

    #[test]
    fn the_same_run_says_the_same_again() {
        let tails = || summarise(&run(|g| f64::from(g % 3))).closer.tails;
        assert_eq!(tails(), tails());
    }
}
