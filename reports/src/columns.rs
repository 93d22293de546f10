//! The values of single games, by arm and stratum.
//!
//! A stratum is a scenario with a pairing of players; the pairings of one scenario stand together,
//! as in the pairs of [`summarise`](crate::summarise). Whoever works through sweeps and crossed
//! variants reads games here and nowhere else.

use ruleshift_record::{Metric, RunRecord};

/// The values of `metric` in an arm, by stratum in the order of games, of games whose number is
/// below `before`. A value that is no number is left out.
pub(crate) fn values_before(
    run: &RunRecord,
    arm: usize,
    metric: Metric,
    before: u32,
) -> Vec<Vec<f64>> {
    let mut strata = strata(run);
    for (key, value) in keyed(run, arm, metric).filter(|((_, game), _)| *game < before) {
        strata[stratum(run, key)].push(value);
    }
    strata
}

/// The values of `metric` in two arms, by stratum, in the games that both have.
pub(crate) fn pairs(
    run: &RunRecord,
    (first, second): (usize, usize),
    metric: Metric,
) -> Vec<Vec<(f64, f64)>> {
    let mut strata = strata(run);
    joined(run, &[first, second], metric, |stratum, game| strata[stratum].push((game[0], game[1])));
    strata
}

/// The values of `metric` in several arms, by stratum and then game, in the games that all have.
pub(crate) fn blocks(run: &RunRecord, arms: &[usize], metric: Metric) -> Vec<Vec<Vec<f64>>> {
    let mut strata = strata(run);
    joined(run, arms, metric, |stratum, game| strata[stratum].push(game.to_vec()));
    strata
}

/// Tells stratum and values of every game that all arms have, in the order of games.
fn joined(run: &RunRecord, arms: &[usize], metric: Metric, mut tell: impl FnMut(usize, &[f64])) {
    let games = |&arm: &usize| keyed(run, arm, metric).peekable();
    let mut games: Vec<_> = arms.iter().map(games).collect();
    let Some((first, others)) = games.split_first_mut() else { return };
    let mut values = vec![0.0; arms.len()];
    for (key, value) in first {
        values[0] = value;
        let whole = others.iter_mut().zip(&mut values[1..]).all(|(games, value)| {
            while games.next_if(|(other, _)| *other < key).is_some() {}
            games.next_if(|(other, _)| *other == key).map(|(_, own)| *value = own).is_some()
        });
        if whole {
            tell(stratum(run, key), &values);
        }
    }
}

/// Games of an arm: each has a winner or none, but never lacks the answer.
pub(crate) fn games(run: &RunRecord, arm: usize) -> usize {
    keyed(run, arm, Metric::AttackerWins).count()
}

fn strata<T>(run: &RunRecord) -> Vec<Vec<T>> {
    let strata = run.plan.scenarios.len() * run.plan.pairings.len().max(1);
    std::iter::repeat_with(Vec::new).take(strata).collect()
}

fn stratum(run: &RunRecord, (scenario, game): (usize, u32)) -> usize {
    let pairings = run.plan.pairings.len().max(1);
    scenario * pairings + game as usize % pairings
}

/// Scenario, number and value of every game of an arm, in order. Games of a scenario the plan lacks
/// are left out.
fn keyed(
    run: &RunRecord,
    arm: usize,
    metric: Metric,
) -> impl Iterator<Item = ((usize, u32), f64)> + use<> {
    let scenarios = run.plan.scenarios.len();
    let known = run.games.keys(arm).zip(run.games.column(arm, metric));
    known.filter(move |((scenario, _), value)| *scenario < scenarios && value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn only_games_of_every_arm_stand_together() {
        let run = sample::run(&[
            vec![(0, 0, 1.0), (0, 1, 2.0), (1, 0, 3.0)],
            vec![(1, 0, 5.0), (0, 1, 6.0), (7, 0, 4.0), (0, 2, 9.0)],
            vec![(1, 0, 7.0), (0, 1, f64::NAN)],
        ]);
        assert_eq!(values_before(&run, 1, Metric::Margin, 9), [vec![6.0, 9.0], vec![5.0]]);
        assert_eq!(pairs(&run, (0, 1), Metric::Margin), [vec![(2.0, 6.0)], vec![(3.0, 5.0)]]);
        let all = blocks(&run, &[0, 1, 2], Metric::Margin);
        assert_eq!(all, [vec![], vec![vec![3.0, 5.0, 7.0]]]);
        assert_eq!((games(&run, 1), blocks(&run, &[], Metric::Margin).concat().len()), (3, 0));
    }

    #[test]
    fn strata_are_scenarios_with_pairings() {
        let mut run = sample::run(&[vec![(0, 0, 1.0), (0, 1, 2.0), (0, 2, 3.0), (1, 0, 4.0)]]);
        run.plan.pairings = vec![sample::pairing("bold", "bold"), sample::pairing("bold", "rash")];
        assert_eq!(
            values_before(&run, 0, Metric::Margin, 9),
            [vec![1.0, 3.0], vec![2.0], vec![4.0], vec![]]
        );
    }
}
