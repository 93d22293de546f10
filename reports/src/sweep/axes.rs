//! Which arms make up a curve.

use ruleshift_record::{RunRecord, SweepPlan};

use crate::columns;

/// An option with the arms of each of its values, rising: one arm, or in a grid all with that value.
pub(super) struct Axis {
    pub(super) option: String,
    pub(super) values: Vec<i64>,
    pub(super) arms: Vec<Vec<usize>>,
}

/// The arms that have too few games to be part of a curve: fewer than half of those of the arm that has
/// most, so that one arm that stopped early does not take the games of all others with it.
pub(super) fn left_out(run: &RunRecord) -> impl Iterator<Item = usize> + '_ {
    let games: Vec<usize> = run.plan.compared().map(|arm| columns::games(run, arm)).collect();
    let most = games.iter().copied().max().unwrap_or(0);
    run.plan.compared().zip(games).filter(move |(_, n)| 2 * n < most).map(|(arm, _)| arm)
}

/// The options of the plan with the arms that the run has; a value of which an arm is left out has no
/// place on a curve.
pub(super) fn axes(plan: &SweepPlan, run: &RunRecord) -> Vec<Axis> {
    let missing: Vec<usize> = left_out(run).collect();
    let there = |arm: &usize| *arm < run.plan.arms.len() && !missing.contains(arm);
    let axis = |option: &str, values: &[i64], arms: &dyn Fn(usize) -> Vec<usize>| {
        let mut points: Vec<(i64, Vec<usize>)> =
            values.iter().enumerate().map(|(n, &value)| (value, arms(n))).collect();
        points.retain(|(_, arms)| !arms.is_empty() && arms.iter().all(there));
        points.sort_by_key(|(value, _)| *value);
        points.dedup_by_key(|(value, _)| *value);
        let (values, arms) = points.into_iter().unzip();
        Axis { option: option.to_owned(), values, arms }
    };
    let Some((name, inner)) = &plan.second else {
        return vec![axis(&plan.option, &plan.values, &|n| vec![plan.arm(n, 0)])];
    };
    let row = |n: usize| (0..inner.len()).map(|k| plan.arm(n, k)).collect();
    let column = |k: usize| (0..plan.values.len()).map(|n| plan.arm(n, k)).collect();
    vec![axis(&plan.option, &plan.values, &row), axis(name, inner, &column)]
}
