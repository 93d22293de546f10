//! The effects of variants and of their products, one value per game.

use ruleshift_record::{CrossEffect, Metric, RunRecord, Word, aliases, letters};

use super::{Design, headline_metrics};
use crate::answer::{Answer, judged};
use crate::columns;
use crate::stats::{Estimate, contrast, half_normal_places, stratified_mean, yates};

/// All effects of a metric in every game.
pub(super) struct ByGame {
    pub(super) metric: Metric,
    /// The smallest shift of it worth noticing.
    pub(super) notice: f64,
    /// By stratum and game: the mean of all arms, then the effects in standard order of the variants
    /// that do not follow from others.
    strata: Vec<Vec<Vec<f64>>>,
}

/// A product of variants as the arms show it: its place in standard order and its sign there.
#[derive(Clone, Copy)]
struct Column {
    word: Word,
    place: usize,
}

impl ByGame {
    /// Games that every arm has finished.
    pub(super) fn games(&self) -> u32 {
        u32::try_from(self.strata.iter().map(Vec::len).sum::<usize>()).unwrap_or(u32::MAX)
    }

    /// The mean of a sum of effects, each with a weight; `None` with fewer than two games.
    pub(super) fn contrast(&self, design: &Design, weights: &[(u8, f64)]) -> Option<Estimate> {
        let places: Vec<Column> = weights.iter().map(|(mask, _)| design.column(*mask)).collect();
        let sign = |column: &Column| if column.word.minus { -1.0 } else { 1.0 };
        let weights: Vec<f64> =
            places.iter().zip(weights).map(|(column, (_, weight))| sign(column) * weight).collect();
        let value = |game: &Vec<f64>| {
            let effects: Vec<f64> = places.iter().map(|column| game[column.place]).collect();
            contrast(&effects, &weights)
        };
        let strata: Vec<Vec<f64>> =
            self.strata.iter().map(|stratum| stratum.iter().map(value).collect()).collect();
        stratified_mean(&strata)
    }
}

impl Design {
    /// The column of a product: itself where it holds no variant that follows from others, else the
    /// alias that does not, with the sign between them.
    fn column(&self, mask: u8) -> Column {
        let own = Word { mask, minus: false };
        let free = |word: &Word| usize::from(word.mask) < self.arms;
        let alias = std::iter::once(own).chain(aliases(mask, &self.relation)).find(free);
        let found = alias.unwrap_or(own);
        Column {
            word: Word { mask, minus: found.minus },
            place: usize::from(found.mask) % self.arms,
        }
    }

    /// Of each set of products that the arms cannot tell apart, the one with the fewest letters.
    fn words(&self) -> Vec<u8> {
        let size = |mask: u8| (mask.count_ones(), letters(mask));
        let mut words: Vec<u8> = (1..self.arms as u8)
            .map(|mask| {
                let all = aliases(mask, &self.relation).into_iter().map(|w| w.mask).chain([mask]);
                all.min_by_key(|&word| size(word)).unwrap_or(mask)
            })
            .collect();
        words.sort_by_key(|&mask| size(mask));
        words
    }
}

/// The effects of every headline metric in the games that all arms have finished.
pub(super) fn by_game(design: &Design, run: &RunRecord) -> Vec<ByGame> {
    let arms: Vec<usize> = (0..design.arms).collect();
    let all = |metric| {
        let blocks = columns::blocks(run, &arms, metric);
        let strata = blocks.iter().map(|s| s.iter().map(|game| yates(game)).collect()).collect();
        ByGame { metric, notice: run.plan.notice(metric), strata }
    };
    headline_metrics(run).into_iter().map(all).collect()
}

/// The effects, judged over all of them.
pub(super) fn effects(design: &Design, games: &[ByGame]) -> Vec<CrossEffect> {
    let words = design.words();
    let mut found: Vec<(CrossEffect, Answer)> = Vec::new();
    for of in games {
        let known =
            words.iter().filter_map(|&mask| Some((mask, of.contrast(design, &[(mask, 1.0)])?)));
        let known: Vec<(u8, Estimate)> = known.collect();
        let errors = |e: &Estimate| (e.se > 0.0).then(|| e.value / e.se);
        let sizes: Vec<f64> = known.iter().map(|(_, e)| errors(e).unwrap_or(0.0)).collect();
        for ((mask, estimate), half_normal) in known.iter().zip(half_normal_places(&sizes)) {
            let answer = Answer::of(estimate, of.notice);
            let aliases = aliases(*mask, &design.relation);
            let effect = CrossEffect {
                metric: of.metric.spec().name.to_owned(),
                mask: *mask,
                letters: letters(*mask),
                aliases: aliases.iter().map(|word| word.letters()).collect(),
                effect: judged(&[answer])[0],
                half_normal,
                errors: errors(estimate),
            };
            found.push((effect, answer));
        }
    }
    let answers: Vec<Answer> = found.iter().map(|(_, answer)| *answer).collect();
    let judged = judged(&answers);
    found.into_iter().zip(judged).map(|((e, _), effect)| CrossEffect { effect, ..e }).collect()
}
