//! CMA-ES over styles: rounds of styles, each round around what was best in those before.
//!
//! The optimiser draws from a seeded stream and is asked and told by this thread alone, so threads
//! can change nothing.

use fcmaes_core::{Cmaes, CmaesParams, Fitness};
use ruleshift_record::HuntSearch;

use super::style::{AXIS, Space, Style};
use crate::exit::Failure;

/// How far the first round strays: weights four times as large, or a quarter, are common in it.
const STRAY: f64 = AXIS / 5.0;

/// What the search found.
pub(super) struct Found {
    /// The style that did best when it was played again.
    pub(super) style: Style,
    /// Styles tried.
    pub(super) tried: u32,
    /// Mean and best of each round.
    pub(super) rounds: Vec<(f64, f64)>,
    /// What each style that was played again seemed to gain in the search, and then.
    pub(super) finalists: Vec<(f64, f64)>,
}

/// Which games are asked for: each has seeds of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// Those of a round of the search.
    Round(u32),
    /// Those by which one of the finalists is chosen.
    Choice,
    /// Those that judge.
    Judgement,
}

/// Says what each style seems to gain from the variant, by the games of a stage.
pub(super) type Worth<'a> = &'a mut dyn FnMut(Stage, &[Style]) -> Result<Vec<f64>, Failure>;

/// Styles in a round: as many as CMA-ES takes for so many weights (Hansen 2016, "The CMA Evolution
/// Strategy: A Tutorial", table 1), and one, for noise; fewer when the budget has no more.
pub(super) fn styles_in_round(search: &HuntSearch, weights: usize) -> u32 {
    let usual = 5 + (3.0 * (weights as f64).ln()) as u32;
    usual.min(search.budget)
}

/// Rounds of the search: whole ones, at least as many styles as the budget has.
pub(super) fn rounds(search: &HuntSearch, weights: usize) -> u32 {
    search.budget.div_ceil(styles_in_round(search, weights))
}

/// Searches for the style that gains most, then plays the best few again and takes the best.
///
/// # Errors
/// What `worth` reports.
pub(super) fn search(space: &Space, plan: &HuntSearch, worth: Worth<'_>) -> Result<Found, Failure> {
    let mut tried: Vec<(Vec<f64>, f64)> = Vec::new();
    let mut rounds = Vec::new();
    let start = space.start();
    let mut optimiser = optimiser(&start, plan);
    for round in 0..self::rounds(plan, start.len()) {
        let points = optimiser.ask();
        let styles: Vec<Style> = points.iter().map(|point| space.style(point)).collect();
        let gains = worth(Stage::Round(round), &styles)?;
        let best = gains.iter().copied().fold(f64::MIN, f64::max);
        rounds.push((gains.iter().sum::<f64>() / gains.len() as f64, best));
        let costs: Vec<f64> = gains.iter().map(|gain| -gain).collect();
        tried.extend(points.into_iter().zip(gains));
        if optimiser.tell(&costs) != 0 {
            break;
        }
    }
    let finalists = finalists(&tried, plan.finalists as usize, optimiser.popsize());
    let styles: Vec<Style> = finalists.iter().map(|(point, _)| space.style(point)).collect();
    let again = worth(Stage::Choice, &styles)?;
    let best = first_largest(&again);
    Ok(Found {
        style: styles[best].clone(),
        tried: tried.len() as u32,
        rounds,
        finalists: finalists.iter().map(|(_, seemed)| *seemed).zip(again).collect(),
    })
}

fn optimiser(start: &[f64], plan: &HuntSearch) -> Cmaes {
    let weights = start.len();
    let bounds = Fitness::bounded(weights, 1, &vec![0.0; weights], &vec![AXIS; weights]);
    let popsize = styles_in_round(plan, weights);
    let params = CmaesParams {
        popsize: popsize as i32,
        max_evaluations: u64::from(popsize * rounds(plan, weights)),
        seed: plan.seed,
        ..CmaesParams::default()
    };
    Cmaes::new(bounds, start, &[STRAY], &params)
}

/// The most promising points: the middle of the better half of the last round, where the search
/// believes the best style to be, with the mean of what that half seemed to gain; then the points
/// that seemed best.
fn finalists(tried: &[(Vec<f64>, f64)], count: usize, in_round: usize) -> Vec<(Vec<f64>, f64)> {
    let by_gain = |tried: &[(Vec<f64>, f64)]| {
        let mut sorted = tried.to_vec();
        sorted.sort_by(|a, b| b.1.total_cmp(&a.1));
        sorted
    };
    let mut half = by_gain(&tried[tried.len().saturating_sub(in_round)..]);
    half.truncate(in_round.div_ceil(2));
    let share = 1.0 / half.len() as f64;
    let mut middle = (vec![0.0; half[0].0.len()], 0.0);
    for (point, gain) in &half {
        middle.0.iter_mut().zip(point).for_each(|(sum, at)| *sum += share * at);
        middle.1 += share * gain;
    }
    std::iter::once(middle).chain(by_gain(tried)).take(count).collect()
}

/// The place of the first largest number.
fn first_largest(numbers: &[f64]) -> usize {
    let better = |best: usize, n: usize| if numbers[n] > numbers[best] { n } else { best };
    (0..numbers.len()).fold(0, better)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn space() -> Space {
        let steady = ruleshift_players::shipped().into_iter().find(|d| d.name == "steady").unwrap();
        Space::around(&steady).unwrap()
    }

    fn plan(seed: u64) -> HuntSearch {
        HuntSearch { budget: 300, games: 8, finalists: 5, finalist_games: 16, seed }
    }

    /// A made game: the first weight should be 0 and the second as large as can be.
    fn made(_: Stage, styles: &[Style]) -> Result<Vec<f64>, Failure> {
        let gain = |s: &Style| f64::from(s[1] + 1).ln() - f64::from(s[0] + 1).ln();
        Ok(styles.iter().map(gain).collect())
    }

    #[test]
    fn what_gains_is_found_and_the_same_again_from_the_same_seed() {
        let find =
            |seed| search(&space(), &plan(seed), &mut made).unwrap_or_else(|e| panic!("{e}"));
        let found = find(1);
        assert!(found.style[0] <= 1 && found.style[1] >= 500, "{:?}", found.style);
        assert!(found.tried >= 300 && found.tried < 320, "{}", found.tried);
        assert_eq!(found.finalists.len(), 5);
        assert_eq!((find(1).style, find(1).rounds), (found.style.clone(), found.rounds));
        assert_ne!(find(2).style, found.style);
    }

    #[test]
    fn every_stage_is_asked_once_and_nobody_is_judged_yet() {
        let mut stages = vec![];
        let mut worth = |stage, styles: &[Style]| {
            stages.push((stage, styles.len()));
            made(stage, styles)
        };
        let few = HuntSearch { budget: 5, ..plan(1) };
        search(&space(), &few, &mut worth).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(stages, [(Stage::Round(0), 5), (Stage::Choice, 5)]);
    }

    #[test]
    fn a_game_in_which_no_style_gains_still_ends() {
        let mut flat = |_: Stage, styles: &[Style]| Ok(vec![0.0; styles.len()]);
        let found = search(&space(), &plan(1), &mut flat).unwrap_or_else(|e| panic!("{e}"));
        assert!(found.tried <= 320 && found.finalists.iter().all(|f| *f == (0.0, 0.0)));
    }
}
