//! Games of two arms that share their luck, brought together.

use ruleshift_record::{GameRow, Metric, Plan, RunRecord};

/// A game of the reference arm and the game of the same number in another arm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pair<'a> {
    pub(super) reference: &'a GameRow,
    pub(super) arm: &'a GameRow,
}

impl Pair<'_> {
    /// Arm minus reference.
    pub(super) fn shift(&self, metric: Metric) -> f64 {
        self.arm.get(metric) - self.reference.get(metric)
    }

    /// The game's scenario.
    pub(super) fn scenario(&self) -> usize {
        self.arm.scenario
    }

    /// The game's number.
    pub(super) fn game(&self) -> u32 {
        self.arm.game
    }

    /// Whether both games say the same in every metric.
    pub(super) fn alike(&self) -> bool {
        self.reference.values == self.arm.values
    }
}

/// The pairs of one arm, by scenario and then game number.
///
/// A stratum is a scenario with a pairing of players; strata stand in that order, the pairings of
/// one scenario together.
#[derive(Debug)]
pub(super) struct Pairs<'a> {
    plan: &'a Plan,
    pub(super) arm: usize,
    pub(super) by_scenario: Vec<Vec<Pair<'a>>>,
}

impl<'a> Pairs<'a> {
    /// Pairs the games of `arm` with those of arm 0; games that lack their partner are left out.
    pub(super) fn of(run: &'a RunRecord, arm: usize) -> Pairs<'a> {
        Pairs::between(run, 0, arm)
    }

    /// Pairs the games of two arms; games that lack their partner are left out.
    pub(super) fn between(run: &'a RunRecord, reference: usize, arm: usize) -> Pairs<'a> {
        let (reference, other) = (games(run, reference), games(run, arm));
        let mut by_scenario = vec![Vec::new(); run.plan.scenarios.len()];
        let mut left = reference.into_iter().peekable();
        for game in other {
            while left.next_if(|r| key(r) < key(game)).is_some() {}
            if let Some(reference) = left.next_if(|r| key(r) == key(game)) {
                by_scenario[game.scenario].push(Pair { reference, arm: game });
            }
        }
        Pairs { plan: &run.plan, arm, by_scenario }
    }

    /// All pairs in order.
    pub(super) fn all(&self) -> impl Iterator<Item = &Pair<'a>> {
        self.by_scenario.iter().flatten()
    }

    /// How many pairs there are.
    pub(super) fn count(&self) -> u32 {
        u32::try_from(self.all().count()).unwrap_or(u32::MAX)
    }

    /// Whether every pair says the same in every metric.
    pub(super) fn alike(&self) -> bool {
        self.all().all(Pair::alike)
    }

    /// Pairings of players.
    pub(super) fn pairings(&self) -> usize {
        self.plan.pairings.len().max(1)
    }

    /// What `of` makes of every pair, by stratum; a pair of which it makes nothing is left out.
    pub(super) fn strata<T>(&self, of: impl Fn(&Pair) -> Option<T>) -> Vec<Vec<T>> {
        let pairings = self.pairings();
        let mut strata: Vec<Vec<T>> = Vec::new();
        strata.resize_with(self.by_scenario.len() * pairings, Vec::new);
        for pair in self.all() {
            let stratum = pair.scenario() * pairings + pair.game() as usize % pairings;
            strata[stratum].extend(of(pair));
        }
        strata
    }

    /// Reference and arm value of `metric` in every pair, by stratum; a pair that lacks a number
    /// is left out.
    pub(super) fn values(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        self.strata(|p| {
            let (reference, arm) = (p.reference.get(metric), p.arm.get(metric));
            (reference.is_finite() && arm.is_finite()).then_some((reference, arm))
        })
    }
}

/// The games of one arm in the order of [`key`]; those of a scenario the plan lacks are left out.
fn games(run: &RunRecord, arm: usize) -> Vec<&GameRow> {
    let known = |g: &&GameRow| g.arm == arm && g.scenario < run.plan.scenarios.len();
    let mut games: Vec<&GameRow> = run.games.iter().filter(known).collect();
    games.sort_by_key(|g| key(g));
    games.dedup_by_key(|g| key(g));
    games
}

fn key(game: &GameRow) -> (usize, u32) {
    (game.scenario, game.game)
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
        let shifts: Vec<f64> = pairs.all().map(|p| p.shift(Metric::Margin)).collect();
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
