//! What the style found gains, in all games and in parts of them.

use ruleshift_record::{HuntEdge, HuntGain, HuntPart, HuntPlan, RunRecord, Seat};

use super::games::{FOUND, Four, USUAL, fours, strata};
use crate::stats::{CONFIDENCE, Estimate, Moments, stratified_mean};

/// What style number `style` of a plan of `hunt` seems to gain from the variant: the lesser of its
/// edge under the variant and of the surplus of that over its edge under the base rules, over all
/// seats. A search makes this as large as it can. 0 without games.
pub fn seeming_gain(hunt: &HuntPlan, run: &RunRecord, style: usize) -> f64 {
    let rows = run.games.rows();
    let fours = fours(hunt, &rows, style);
    let mean = |of: fn(&Four) -> f64| {
        Moments::of(&fours.iter().map(of).collect::<Vec<f64>>()).map_or(0.0, |m| m.mean)
    };
    mean(|four| four.edge(true)).min(mean(|four| four.surplus()))
}

/// What some of the games say; `None` with fewer than two seeds.
pub(super) fn part(name: &str, fours: &[&Four]) -> Option<HuntPart> {
    let edge = |variant: bool| {
        let share = |style| {
            let scores: Vec<f64> = fours.iter().map(|four| four.score(style, variant)).collect();
            Moments::of(&scores).map(|m| m.mean)
        };
        Some(HuntEdge {
            usual: share(USUAL)?,
            found: share(FOUND)?,
            gain: gain(stratified_mean(&strata(fours, |four| four.edge(variant)))?),
        })
    };
    Some(HuntPart {
        part: name.to_owned(),
        seeds: u32::try_from(fours.len()).unwrap_or(u32::MAX),
        base: edge(false)?,
        variant: edge(true)?,
        surplus: gain(stratified_mean(&strata(fours, |four| four.surplus()))?),
    })
}

/// A mean with its interval.
pub(super) fn gain(estimate: Estimate) -> HuntGain {
    let interval = estimate.interval(CONFIDENCE);
    HuntGain { value: estimate.value, low: interval.low, high: interval.high }
}

/// The parts by side, of the sides that were played.
pub(super) fn by_side(fours: &[Four]) -> Vec<HuntPart> {
    let of = |seat| fours.iter().filter(|four| four.seat == seat).collect::<Vec<_>>();
    let sides = [(Seat::Attacker, "attacker"), (Seat::Defender, "defender")];
    sides.into_iter().filter_map(|(seat, name)| part(name, &of(seat))).collect()
}

/// The parts by scenario.
pub(super) fn by_scenario(hunt: &HuntPlan, fours: &[Four]) -> Vec<HuntPart> {
    let of = |n| fours.iter().filter(|four| four.scenario == n).collect::<Vec<_>>();
    let scenarios = hunt.judged.scenarios.iter().enumerate();
    scenarios.filter_map(|(n, scenario)| part(&scenario.name, &of(n))).collect()
}
