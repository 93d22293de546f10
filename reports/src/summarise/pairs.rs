//! Games of two arms that share their luck, brought together.

use ruleshift_record::{GameRow, Metric, RunRecord};

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

    /// Whether both games say the same in every metric.
    pub(super) fn alike(&self) -> bool {
        self.reference.values == self.arm.values
    }
}

/// The pairs of one arm, by scenario and then game number.
#[derive(Debug)]
pub(super) struct Pairs<'a> {
    pub(super) arm: usize,
    pub(super) by_scenario: Vec<Vec<Pair<'a>>>,
}

impl<'a> Pairs<'a> {
    /// Pairs the games of `arm` with those of arm 0; games that lack their partner are left out.
    pub(super) fn of(run: &'a RunRecord, arm: usize) -> Pairs<'a> {
        let (reference, other) = (games(run, 0), games(run, arm));
        let mut by_scenario = vec![Vec::new(); run.plan.scenarios.len()];
        let mut left = reference.into_iter().peekable();
        for game in other {
            while left.next_if(|r| key(r) < key(game)).is_some() {}
            if let Some(reference) = left.next_if(|r| key(r) == key(game)) {
                by_scenario[game.scenario].push(Pair { reference, arm: game });
            }
        }
        Pairs { arm, by_scenario }
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

    /// Reference and arm value of `metric` in every pair, by scenario; a pair that lacks a number
    /// is left out.
    pub(super) fn values(&self, metric: Metric) -> Vec<Vec<(f64, f64)>> {
        let value = |p: &Pair| (p.reference.get(metric), p.arm.get(metric));
        self.by_scenario
            .iter()
            .map(|s| s.iter().map(value).filter(|v| v.0.is_finite() && v.1.is_finite()).collect())
            .collect()
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
    fn values_that_are_no_numbers_are_left_out() {
        let run =
            sample::run(&[vec![(0, 0, f64::NAN), (0, 1, 2.0)], vec![(0, 0, 1.0), (0, 1, 5.0)]]);
        assert_eq!(Pairs::of(&run, 1).values(Metric::Margin), [vec![(2.0, 5.0)], vec![]]);
    }
}
