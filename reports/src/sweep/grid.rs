//! Each metric over a grid of two options.

use ruleshift_record::{JudgedShift, Metric, RunRecord, SweepGrid, SweepMean, SweepPlan};

use super::axes::left_out;
use super::curves::{means, slope_weights};
use super::{asked, axes};
use crate::answer::{Answer, judged};
use crate::columns;
use crate::stats::{
    CONFIDENCE, DRAWS, NormalDraws, band_confidence, contrast, joint, stratified_mean,
};

/// A grid for each metric; none with one option.
pub(super) fn grids(plan: &SweepPlan, run: &RunRecord) -> Vec<SweepGrid> {
    let Some((_, inner)) = &plan.second else { return vec![] };
    let missing: Vec<usize> = left_out(run).collect();
    let there = |arm: &usize| *arm < run.plan.arms.len() && !missing.contains(arm);
    let arms: Vec<usize> = (1..plan.arms()).filter(there).collect();
    let draws = NormalDraws::new(arms.len(), DRAWS);
    let mut answers = Vec::new();
    let mut grids = Vec::new();
    for metric in asked(plan, run) {
        let Some((games, found)) = cells(run, &arms, metric, &draws) else { continue };
        let cell = |n: usize, k: usize| {
            let place = arms.iter().position(|&arm| arm == plan.arm(n, k))?;
            found.get(place).copied()
        };
        let row = |n: usize| (0..inner.len()).map(|k| cell(n, k)).collect();
        grids.push(SweepGrid {
            metric: metric.spec().name.to_owned(),
            games,
            means: (0..plan.values.len()).map(row).collect(),
            interaction: None,
        });
        answers.push(interaction(plan, run, metric));
    }
    settle(run, &mut grids, &answers);
    grids
}

/// Games behind the means of `arms`, and the means.
fn cells(
    run: &RunRecord,
    arms: &[usize],
    metric: Metric,
    draws: &NormalDraws,
) -> Option<(u32, Vec<SweepMean>)> {
    let joint = joint(&columns::blocks(run, arms, metric))?;
    let level = band_confidence(&joint.covariance, CONFIDENCE, draws);
    let games = u32::try_from(joint.means.first()?.count).unwrap_or(u32::MAX);
    Some((games, means(metric, &joint, level)))
}

/// The trend along the first option at the last value of the second less that at its first value.
fn interaction(plan: &SweepPlan, run: &RunRecord, metric: Metric) -> Option<(Answer, Metric)> {
    let [first, second] = &axes::axes(plan, run)[..] else { return None };
    if first.values.len() < 2 || second.values.len() < 2 {
        return None;
    }
    let place = |value: i64, of: &[i64]| of.iter().position(|&v| v == value);
    let (_, inner) = plan.second.as_ref()?;
    let ends = [*second.values.last()?, *second.values.first()?];
    let columns: Vec<usize> = ends.iter().filter_map(|&v| place(v, inner)).collect();
    let rows: Vec<usize> = first.values.iter().filter_map(|&v| place(v, &plan.values)).collect();
    let arms: Vec<usize> =
        columns.iter().flat_map(|&k| rows.iter().map(move |&n| plan.arm(n, k))).collect();
    let slope = slope_weights(&first.values);
    let weights: Vec<f64> = slope.iter().copied().chain(slope.iter().map(|w| -w)).collect();
    let games: Vec<Vec<f64>> = columns::blocks(run, &arms, metric)
        .iter()
        .map(|stratum| stratum.iter().map(|game| contrast(game, &weights)).collect())
        .collect();
    Some((Answer::of(&stratified_mean(&games)?, run.plan.notice(metric)), metric))
}

/// Puts the judged answers into their grids, over the headline and over all others.
fn settle(run: &RunRecord, grids: &mut [SweepGrid], answers: &[Option<(Answer, Metric)>]) {
    for headline in [true, false] {
        let family: Vec<(usize, (Answer, Metric))> = answers
            .iter()
            .enumerate()
            .filter_map(|(n, answer)| Some((n, (*answer)?)))
            .filter(|(_, (_, metric))| run.plan.is_headline(*metric) == headline)
            .collect();
        let own: Vec<Answer> = family.iter().map(|(_, (answer, _))| *answer).collect();
        let settled: Vec<JudgedShift> = judged(&own);
        for ((n, _), shift) in family.iter().zip(settled) {
            grids[*n].interaction = Some(shift);
        }
    }
}
