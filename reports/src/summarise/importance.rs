//! What each behaviour is worth: a side plays the same games without it, and what its share of wins
//! loses is its importance.
//!
//! The idea is the restricted play of Jaffe, Miller, Andersen, Liu, Karlin and Popović (Evaluating
//! Competitive Game Balance with Restricted Play, AIIDE 2012). There, from memory, a restricted player
//! meets the best opponent in a game small enough to be solved, and the question is what value is left
//! to him. Here a player of fixed style is restricted in a large game of chance and hidden troops; what
//! he loses is measured against the same games with the same luck under the same rules, and compared
//! between rule stacks. It is what the behaviour is worth to this player, not to the best one.

use std::collections::BTreeMap;

use ruleshift_record::{Importance, ImportanceShift, Probe, RunRecord, Seat};

use super::pairs::Pairs;
use crate::stats::{CONFIDENCE, Estimate, Moments, holm, stratified_mean};

/// The games of one probe beside those of its arm.
struct Probed<'a> {
    probe: &'a Probe,
    /// The probe as the reference, and the arm that it is of.
    pairs: Pairs<'a>,
    /// The side's points without and with the behaviour, in every pair.
    points: Vec<(f64, f64)>,
    /// Pairs whose games differ at all.
    differing: usize,
    value: Estimate,
}

/// What every behaviour that was probed is worth, with its shift against the reference arm.
pub(super) fn importance(run: &RunRecord) -> Vec<Importance> {
    let probed: Vec<Probed> = (0..run.plan.arms.len()).filter_map(|arm| probed(run, arm)).collect();
    let shifts: Vec<Option<Estimate>> = probed.iter().map(|p| against(&probed, p)).collect();
    let values = adjusted(probed.iter().map(|p| p.occurs().then_some(p.value)));
    let changes = adjusted(shifts.iter().zip(&probed).map(|(shift, p)| {
        let base = same_under_reference(&probed, p);
        shift.filter(|_| p.occurs() || base.is_some_and(Probed::occurs))
    }));
    let told = |(n, p): (usize, &Probed)| Importance {
        shift: shifts[n].map(|shift| told_shift(shift, changes[n])),
        ..p.told(run, values[n])
    };
    probed.iter().enumerate().map(told).collect()
}

fn probed(run: &RunRecord, arm: usize) -> Option<Probed<'_>> {
    let probe = run.plan.arms[arm].probe.as_ref()?;
    let pairs = Pairs::between(run, arm, probe.of);
    let own = |points: f64| if probe.side == Seat::Attacker { points } else { 1.0 - points };
    // The reference of these pairs is the probe.
    let points: Vec<(f64, f64)> =
        pairs.points().into_iter().map(|(without, with)| (own(without), own(with))).collect();
    let value = stratified_mean(&pairs.strata(points.iter().map(|points| loss(*points))))?;
    let differing = pairs.same_events().into_iter().filter(|same| !same).count();
    Some(Probed { probe, pairs, points, differing, value })
}

/// What a side's points lose without the behaviour.
fn loss((without, with): (f64, f64)) -> Option<f64> {
    Some(with - without).filter(|loss| loss.is_finite())
}

impl Probed<'_> {
    fn occurs(&self) -> bool {
        self.differing > 0
    }

    fn losses(&self) -> BTreeMap<(usize, u32), f64> {
        let all = self.pairs.all().zip(&self.points);
        all.filter_map(|(p, points)| Some(((p.scenario, p.game), loss(*points)?))).collect()
    }

    fn told(&self, run: &RunRecord, p_adjusted: f64) -> Importance {
        let interval = self.value.interval(CONFIDENCE);
        let mean = |of: fn(&(f64, f64)) -> f64| {
            let shares: Vec<f64> = self.points.iter().map(of).collect();
            Moments::of(&shares).map_or(0.0, |m| m.mean)
        };
        Importance {
            arm: run.plan.arms[self.probe.of].name.clone(),
            side: self.probe.side,
            behaviour: self.probe.without.clone(),
            pairs: u32::try_from(self.value.count).unwrap_or(u32::MAX),
            differing: u32::try_from(self.differing).unwrap_or(u32::MAX),
            with: mean(|shares| shares.1),
            without: mean(|shares| shares.0),
            value: self.value.value,
            low: interval.low,
            high: interval.high,
            p: self.value.p(),
            p_adjusted,
            shift: None,
        }
    }
}

/// The probe of the same behaviour under the reference arm.
fn same_under_reference<'p, 'a>(all: &'p [Probed<'a>], p: &Probed) -> Option<&'p Probed<'a>> {
    let same = |other: &&Probed| {
        let (one, two) = (other.probe, p.probe);
        one.of == 0 && one.side == two.side && one.without == two.without
    };
    all.iter().find(same).filter(|_| p.probe.of != 0)
}

/// How much more a behaviour is worth than under the reference arm, game by game.
fn against(all: &[Probed], p: &Probed) -> Option<Estimate> {
    let base = same_under_reference(all, p)?.losses();
    let own = p.pairs.all().zip(&p.points);
    let more =
        own.map(|(pair, points)| Some(loss(*points)? - base.get(&(pair.scenario, pair.game))?));
    stratified_mean(&p.pairs.strata(more))
}

fn told_shift(shift: Estimate, p_adjusted: f64) -> ImportanceShift {
    let interval = shift.interval(CONFIDENCE);
    ImportanceShift {
        games: u32::try_from(shift.count).unwrap_or(u32::MAX),
        shift: shift.value,
        low: interval.low,
        high: interval.high,
        p: shift.p(),
        p_adjusted,
    }
}

/// P-values by Holm's method over those that ask a question; 1 for the others.
fn adjusted(questions: impl Iterator<Item = Option<Estimate>>) -> Vec<f64> {
    let p: Vec<Option<f64>> = questions.map(|e| e.map(|e| e.p())).collect();
    let mut adjusted = holm(&p.iter().flatten().copied().collect::<Vec<f64>>()).into_iter();
    p.into_iter().map(|p| p.and_then(|_| adjusted.next()).unwrap_or(1.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;
    use crate::summarise::summarise;

    /// Base and one variant of 300 games, and probes of the defender without `rally` and without
    /// `orders` under each. Without rallying he loses every third of his games under base and none
    /// under the variant; orders never occur.
    fn run() -> RunRecord {
        let plain = sample::games(300);
        let lost = |games: &[sample::Made]| -> Vec<sample::Made> {
            let lose = |&(s, g, m): &sample::Made| (s, g, if g % 3 == 0 { 3.0 } else { m });
            games.iter().map(lose).collect()
        };
        let first = |games: &[sample::Made]| -> Vec<sample::Made> {
            games.iter().copied().filter(|(_, g, _)| *g < 90).collect()
        };
        let stirred: Vec<sample::Made> =
            plain.iter().map(|&(s, g, m)| (s, g, if g % 7 == 0 { 1.0 } else { m })).collect();
        let mut run = sample::run(&[
            plain.clone(),
            stirred.clone(),
            first(&lost(&plain)),
            first(&plain),
            first(&stirred),
            first(&stirred),
        ]);
        for (arm, (of, without)) in
            (2..).zip([(0, "rally"), (0, "orders"), (1, "rally"), (1, "orders")])
        {
            let probe = Probe { of, side: Seat::Defender, without: without.into(), games: 180 };
            run.plan.arms[arm].probe = Some(probe);
        }
        // What is another game has another digest.
        let other =
            |game: &&mut ruleshift_record::GameRow| game.arm == 2 && game.game.is_multiple_of(3);
        run.games = run
            .games
            .changed(|rows| rows.iter_mut().filter(other).for_each(|game| game.digest = 2));
        run
    }

    #[test]
    fn a_behaviour_is_worth_what_is_lost_without_it() {
        let summary = summarise(&run());
        let [rally, orders, rally_there, orders_there] = &summary.importance[..] else {
            panic!("{:?}", summary.importance);
        };
        assert_eq!((rally.arm.as_str(), rally.pairs, rally.differing), ("base", 180, 60));
        let lost = rally.with - rally.without;
        assert!((rally.value - lost).abs() < 1e-12 && lost > 0.1, "{rally:?}");
        assert!(rally.low > 0.05 && rally.p_adjusted < 0.001 && rally.shift.is_none());
        assert_eq!((orders.value, orders.low, orders.high, orders.differing), (0.0, 0.0, 0.0, 0));
        assert_eq!((rally_there.value, rally_there.p_adjusted), (0.0, 1.0));
        let shift = rally_there.shift.as_ref().unwrap();
        assert!((shift.shift + rally.value).abs() < 1e-12 && shift.high < -0.05, "{shift:?}");
        assert!(shift.p_adjusted < 0.001 && shift.games == 180);
        assert_eq!(orders_there.shift.as_ref().map(|s| (s.shift, s.p_adjusted)), Some((0.0, 1.0)));
    }

    #[test]
    fn probes_are_no_arms_to_compare() {
        let summary = summarise(&run());
        assert_eq!(summary.arms.len(), 2);
        assert!(summary.metrics.iter().all(|m| m.arm == "arm-1"));
        assert_eq!(summary.headline.len(), 1);
    }
}
