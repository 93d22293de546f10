//! What the style found does differently.

use ruleshift_record::{HuntHabit, Metric, Seat};

use super::games::{FOUND, Four, USUAL, strata};
use super::parts::gain;
use crate::stats::{LEVEL, Moments, holm, stratified_mean};

/// Most differences that are told.
const MOST: usize = 8;

/// Metrics that say who won and how games end, which is the gain itself and not how it comes about,
/// or tell of the winner and not of the style.
const RESULTS: [Metric; 11] = [
    Metric::AttackerWins,
    Metric::Margin,
    Metric::Drawn,
    Metric::HalfLeaderWins,
    Metric::LeadChanges,
    Metric::NoReturn,
    Metric::WinnerLosses,
    Metric::LoserLosses,
    Metric::EndedByBreak,
    Metric::EndedByAnnihilation,
    Metric::EndedByObjective,
];

/// The metrics that differ most under the variant, in units of the smallest shift worth noticing,
/// side by side: of those that surely differ, by Holm's method over all of them, and noticeably.
pub(super) fn habits(fours: &[Four]) -> Vec<HuntHabit> {
    let told = Metric::ALL.iter().copied().filter(|metric| !RESULTS.contains(metric));
    let (mut habits, p): (Vec<HuntHabit>, Vec<f64>) = told
        .flat_map(|metric| [Seat::Attacker, Seat::Defender].map(|side| (side, metric)))
        .filter_map(|(side, metric)| habit(fours, side, metric))
        .unzip();
    let mut adjusted = holm(&p).into_iter();
    habits.retain(|habit| adjusted.next().is_some_and(|p| p < LEVEL) && size(habit) >= 1.0);
    habits.sort_by(|a, b| size(b).total_cmp(&size(a)));
    habits.truncate(MOST);
    habits
}

/// A shift in units of the smallest worth noticing.
fn size(habit: &HuntHabit) -> f64 {
    let notice = Metric::by_name(&habit.metric).map_or(1.0, |metric| metric.spec().notice);
    habit.shift.value.abs() / notice
}

fn habit(fours: &[Four], side: Seat, metric: Metric) -> Option<(HuntHabit, f64)> {
    let fours: Vec<&Four> = fours.iter().filter(|four| four.seat == side).collect();
    let value = |four: &Four, style| four.game(style, true).get(metric);
    let shift = |four: &Four| value(four, FOUND) - value(four, USUAL);
    let estimate = stratified_mean(&strata(&fours, shift))?;
    let mean = |style| {
        let values: Vec<f64> = fours.iter().map(|four| value(four, style)).collect();
        Moments::of(&values).map(|m| m.mean)
    };
    let habit = HuntHabit {
        side,
        metric: metric.spec().name.to_owned(),
        usual: mean(USUAL)?,
        found: mean(FOUND)?,
        shift: gain(estimate),
    };
    Some((habit, estimate.p()))
}
