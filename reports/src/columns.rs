//! The values of single games, by arm and stratum.
//!
//! A stratum is a scenario with a pairing of players; the pairings of one scenario stand together,
//! as in the pairs of [`summarise`](crate::summarise). Whoever works through sweeps and crossed
//! variants reads games here and nowhere else.

use std::collections::BTreeMap;

use ruleshift_record::{Metric, RunRecord};

/// The values of `metric` in an arm, by stratum in the order of games. A value that is no number is
/// left out.
pub(crate) fn values(run: &RunRecord, arm: usize, metric: Metric) -> Vec<Vec<f64>> {
    let mut strata = strata(run);
    for (stratum, (_, value)) in keyed(run, arm, metric) {
        strata[stratum].push(value);
    }
    strata
}

/// As [`values`], of games whose number is below `before`.
pub(crate) fn values_before(
    run: &RunRecord,
    arm: usize,
    metric: Metric,
    before: u32,
) -> Vec<Vec<f64>> {
    let mut strata = strata(run);
    let known = keyed(run, arm, metric).into_iter().filter(|(_, (game, _))| *game < before);
    known.for_each(|(stratum, (_, value))| strata[stratum].push(value));
    strata
}

/// The values of `metric` in two arms, by stratum, in the games that both have.
pub(crate) fn pairs(
    run: &RunRecord,
    (first, second): (usize, usize),
    metric: Metric,
) -> Vec<Vec<(f64, f64)>> {
    let both = |game: &Vec<f64>| (game[0], game[1]);
    let blocks = blocks(run, &[first, second], metric);
    blocks.iter().map(|stratum| stratum.iter().map(both).collect()).collect()
}

/// The values of `metric` in several arms, by stratum and then game, in the games that all have.
pub(crate) fn blocks(run: &RunRecord, arms: &[usize], metric: Metric) -> Vec<Vec<Vec<f64>>> {
    let mut games: BTreeMap<(usize, u32), Vec<f64>> = BTreeMap::new();
    for (place, &arm) in arms.iter().enumerate() {
        for (stratum, (game, value)) in keyed(run, arm, metric) {
            let values = games.entry((stratum, game)).or_default();
            // Later arms only add to games that all earlier ones have.
            if values.len() == place {
                values.push(value);
            }
        }
    }
    let mut strata = vec![Vec::new(); strata(run).len()];
    for ((stratum, _), values) in games {
        if values.len() == arms.len() && !values.is_empty() {
            strata[stratum].push(values);
        }
    }
    strata
}

/// Games of an arm: each has a winner or none, but never lacks the answer.
pub(crate) fn games(run: &RunRecord, arm: usize) -> usize {
    values(run, arm, Metric::AttackerWins).iter().map(Vec::len).sum()
}

fn strata(run: &RunRecord) -> Vec<Vec<f64>> {
    vec![Vec::new(); run.plan.scenarios.len() * run.plan.pairings.len().max(1)]
}

/// Stratum, number and value of every game of an arm, in the order of games. Games of a scenario the
/// plan lacks are left out.
fn keyed(run: &RunRecord, arm: usize, metric: Metric) -> Vec<(usize, (u32, f64))> {
    let pairings = run.plan.pairings.len().max(1);
    let keys = run.games.keys(arm).into_iter();
    let known = keys.zip(run.games.column(arm, metric));
    let mut games: Vec<(usize, (u32, f64))> = known
        .filter(|((scenario, _), value)| *scenario < run.plan.scenarios.len() && value.is_finite())
        .map(|((scenario, game), value)| {
            (scenario * pairings + game as usize % pairings, (game, value))
        })
        .collect();
    games.sort_by_key(|(stratum, (game, _))| (*stratum, *game));
    games
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
        assert_eq!(values(&run, 1, Metric::Margin), [vec![6.0, 9.0], vec![5.0]]);
        assert_eq!(pairs(&run, (0, 1), Metric::Margin), [vec![(2.0, 6.0)], vec![(3.0, 5.0)]]);
        let all = blocks(&run, &[0, 1, 2], Metric::Margin);
        assert_eq!(all, [vec![], vec![vec![3.0, 5.0, 7.0]]]);
        assert_eq!((games(&run, 1), blocks(&run, &[], Metric::Margin).concat().len()), (3, 0));
    }

    #[test]
    fn strata_are_scenarios_with_pairings() {
        let mut run = sample::run(&[vec![(0, 0, 1.0), (0, 1, 2.0), (0, 2, 3.0), (1, 0, 4.0)]]);
        run.plan.pairings = vec![sample::pairing("bold", "bold"), sample::pairing("bold", "rash")];
        assert_eq!(values(&run, 0, Metric::Margin), [vec![1.0, 3.0], vec![2.0], vec![4.0], vec![]]);
    }
}
