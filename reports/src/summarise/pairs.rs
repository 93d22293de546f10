//! Games of two arms that share their luck, brought together.

use std::cell::OnceCell;

use ruleshift_record::{GameRow, Metric, RunRecord};

/// A game that both arms have finished, and its place among the games of each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pair {
    pub(crate) scenario: usize,
    pub(crate) game: u32,
    reference: usize,
    arm: usize,
}

/// The pairs of one arm, by scenario and then game number.
///
/// A stratum is a scenario with a pairing of players; strata stand in that order, the pairings of
/// one scenario together.
pub(crate) struct Pairs<'a> {
    run: &'a RunRecord,
    reference: usize,
    pub(crate) arm: usize,
    pub(crate) by_scenario: Vec<Vec<Pair>>,
    /// Whether both games of each pair say the same in every metric, once that was asked.
    alike: OnceCell<Vec<bool>>,
}

impl<'a> Pairs<'a> {
    /// Pairs the games of `arm` with those of arm 0; games that lack their partner are left out.
    pub(crate) fn of(run: &'a RunRecord, arm: usize) -> Pairs<'a> {
        Pairs::between(run, 0, arm)
    }

    /// Pairs the games of two arms; games that lack their partner are left out, and those of a
    /// scenario the plan lacks.
    pub(crate) fn between(run: &'a RunRecord, reference: usize, arm: usize) -> Pairs<'a> {
        let (first, second) = (run.games.keys(reference), run.games.keys(arm));
        let mut by_scenario = vec![Vec::new(); run.plan.scenarios.len()];
        let mut left = first.into_iter().enumerate().peekable();
        for (place, key) in second.into_iter().enumerate() {
            while left.next_if(|(_, other)| *other < key).is_some() {}
            let same = left.next_if(|(_, other)| *other == key);
            let pairs = by_scenario.get_mut(key.0);
            if let (Some((reference, _)), Some(pairs)) = (same, pairs) {
                pairs.push(Pair { scenario: key.0, game: key.1, reference, arm: place });
            }
        }
        Pairs { run, reference, arm, by_scenario, alike: OnceCell::new() }
    }

    /// All pairs in order.
    pub(crate) fn all(&self) -> impl Iterator<Item = &Pair> {
        self.by_scenario.iter().flatten()
    }

    /// How many pairs there are.
    pub(crate) fn count(&self) -> u32 {
        u32::try_from(self.all().count()).unwrap_or(u32::MAX)
    }

    /// Whether every pair says the same in every metric.
    pub(crate) fn alike(&self) -> bool {
        self.all_alike().iter().all(|&alike| alike)
    }

    /// Whether the pairs that are `chosen` say the same in every metric.
    pub(crate) fn alike_where(&self, chosen: impl Fn(&Pair) -> bool) -> bool {
        self.all().zip(self.all_alike()).all(|(pair, &alike)| alike || !chosen(pair))
    }

    /// Whether both games of each pair say the same in every metric, in order.
    pub(crate) fn all_alike(&self) -> &[bool] {
        self.alike.get_or_init(|| {
            let mut alike = vec![true; self.all().count()];
            for &metric in Metric::ALL {
                if !alike.contains(&true) {
                    break;
                }
                for (alike, (reference, arm)) in alike.iter_mut().zip(self.both(metric)) {
                    *alike &= reference == arm;
                }
            }
            alike
        })
    }

    /// Reference and arm value of `metric` in every pair, in order.
    pub(crate) fn both(&self, metric: Metric) -> Vec<(f64, f64)> {
        let (reference, arm) = (self.column(self.reference, metric), self.column(self.arm, metric));
        // A column that could not be read is empty, which the run remembers.
        let value = |column: &[f64], place| column.get(place).copied().unwrap_or(f64::NAN);
        self.all().map(|p| (value(&reference, p.reference), value(&arm, p.arm))).collect()
    }

    fn column(&self, arm: usize, metric: Metric) -> Vec<f64> {
        self.run.games.column(arm, metric)
    }

    /// What the attacker got in both games of every pair: 1 for a win, a half for a draw.
    pub(crate) fn points(&self) -> Vec<(f64, f64)> {
        let (won, drawn) = (self.both(Metric::AttackerWins), self.both(Metric::Drawn));
        let points =
            |(won, drawn): ((f64, f64), (f64, f64))| (won.0 + 0.5 * drawn.0, won.1 + 0.5 * drawn.1);
        won.into_iter().zip(drawn).map(points).collect()
    }

    /// Whether the events of both games of every pair are the same, in order.
    pub(crate) fn same_events(&self) -> Vec<bool> {
        let (one, other) =
            (self.run.games.digests(self.reference), self.run.games.digests(self.arm));
        self.all().map(|p| one.get(p.reference) == other.get(p.arm)).collect()
    }

    /// Both games of a pair, that of the reference first.
    pub(crate) fn games(&self, pair: &Pair) -> Option<[GameRow; 2]> {
        let row = |arm| self.run.games.row(arm, pair.scenario, pair.game);
        Some([row(self.reference)?, row(self.arm)?])
    }

    /// Pairings of players.
    pub(crate) fn pairings(&self) -> usize {
        self.run.plan.pairings.len().max(1)
    }

    /// Values of the pairs, in order, by stratum; a pair whose value is none is left out.
    pub(crate) fn strata<T>(&self, values: impl IntoIterator<Item = Option<T>>) -> Vec<Vec<T>> {
        let pairings = self.pairings();
        let mut strata: Vec<Vec<T>> = Vec::new();
        strata.resize_with(self.by_scenario.len() * pairings, Vec::new);
        for (pair, value) in self.all().zip(values) {
            strata[pair.scenario * pairings + pair.game as usize % pairings].extend(value);
        }
        strata
    }

    /// Reference and arm value of `metric` in every pair, by stratum; a pair that lacks a number
    /// is left out.
    pub(crate) fn values(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        let number = |&(reference, arm): &(f64, f64)| reference.is_finite() && arm.is_finite();
        self.strata(self.both(metric).into_iter().map(|both| Some(both).filter(number)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn an_arm_without_games_has_no_pairs() {
        let run = sample::run(&[vec![(0, 0, 1.0)], vec![]]);
        assert_eq!(Pairs::of(&run, 1).count(), 0);
    }

    #[test]
    fn only_games_played_in_both_arms_pair_up() {
        let run = sample::run(&[
            vec![(0, 0, 1.0), (0, 1, 2.0), (1, 0, 3.0)],
            vec![(1, 1, 9.0), (1, 0, 5.0), (0, 1, 2.0), (7, 0, 4.0)],
        ]);
        let pairs = Pairs::of(&run, 1);
        let margins = pairs.both(Metric::Margin).into_iter();
        let shifts: Vec<f64> = margins.map(|(reference, arm)| arm - reference).collect();
        assert_eq!(shifts, [0.0, 2.0]);
        assert!(!pairs.alike());
    }

    #[test]
    fn strata_are_scenarios_with_pairings() {
        let games = vec![(0, 0, 1.0), (0, 1, 2.0), (0, 2, 3.0), (1, 0, 4.0)];
        let mut run = sample::run(&[games.clone(), games]);
        run.plan.pairings = vec![sample::pairing("bold", "bold"), sample::pairing("bold", "rash")];
        let strata = Pairs::of(&run, 1).values(Metric::Margin);
        let firsts: Vec<Vec<f64>> =
            strata.iter().map(|s| s.iter().map(|v| v.0).collect()).collect();
        assert_eq!(firsts, [vec![1.0, 3.0], vec![2.0], vec![4.0], vec![]]);
    }

    #[test]
    fn values_that_are_no_numbers_are_left_out() {
        let run =
            sample::run(&[vec![(0, 0, f64::NAN), (0, 1, 2.0)], vec![(0, 0, 1.0), (0, 1, 5.0)]]);
        assert_eq!(Pairs::of(&run, 1).values(Metric::Margin), [vec![(2.0, 5.0)], vec![]]);
    }
}
