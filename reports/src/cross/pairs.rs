//! What two variants do alone and together.
//!
//! Where every combination is played, alone is the arm with that variant and no other, and together
//! the arm with both and no other, each against the arm without any. In a fraction that can tell
//! interactions of two from each other, the same shifts are put together from effects, and so are
//! means over the other variants: with main effects a and b and an interaction i, the first alone
//! shifts by a - i, both together by a + b, and the surplus is 2 i.

use ruleshift_record::{CrossPair, JudgedShift, Metric, RunRecord, resolution};

use super::Design;
use super::effects::ByGame;
use super::word::word;
use crate::answer::{Answer, answer, judged};
use crate::columns;
use crate::stats::{contrast, stratified_mean};

/// The least resolution in which interactions of two are told apart.
const TOLD_APART: u32 = 5;

/// One pair in one metric before the families of its tests are known.
struct Draft {
    metric: Metric,
    variants: (usize, usize),
    first: Answer,
    second: Answer,
    together: Answer,
    surplus: Answer,
}

/// The pairs by metric; none where the arms cannot tell pairs apart.
pub(super) fn pairs(design: &Design, run: &RunRecord, games: &[ByGame]) -> Vec<CrossPair> {
    if resolution(&design.relation).is_some_and(|letters| letters < TOLD_APART) {
        return vec![];
    }
    let all = (0..design.count).flat_map(|a| (a + 1..design.count).map(move |b| (a, b)));
    let all: Vec<(usize, usize)> = all.collect();
    let draft = |of: &ByGame, pair| match design.is_full() {
        true => by_arm(run, design, of, pair),
        false => by_effect(design, of, pair),
    };
    let drafts: Vec<Draft> =
        games.iter().flat_map(|of| all.iter().filter_map(move |&pair| draft(of, pair))).collect();
    settle(&drafts, design)
}

/// From the arms with one variant, with the other and with both.
fn by_arm(run: &RunRecord, design: &Design, of: &ByGame, (a, b): (usize, usize)) -> Option<Draft> {
    let metric = of.metric;
    let (one, other) = (1 << a, 1 << b);
    let against_none = |arm: usize| {
        let pairs = columns::pairs(run, (0, arm), metric);
        answer(&pairs, (metric, of.notice), false)
    };
    // Four arms are a small design of their own.
    let four = columns::blocks(run, &[0, one, other, one | other], metric);
    let surplus = |game: &Vec<f64>| contrast(game, &[1.0, -1.0, -1.0, 1.0]);
    let strata: Vec<Vec<f64>> = four.iter().map(|s| s.iter().map(surplus).collect()).collect();
    let surplus = Answer::of(&stratified_mean(&strata)?, of.notice);
    debug_assert!(one | other < design.arms, "every combination has its arm");
    Some(Draft {
        metric,
        variants: (a, b),
        first: against_none(one)?,
        second: against_none(other)?,
        together: against_none(one | other)?,
        surplus,
    })
}

/// From effects, as means over the other variants.
fn by_effect(design: &Design, of: &ByGame, (a, b): (usize, usize)) -> Option<Draft> {
    let metric = of.metric;
    let (one, other) = (1_u8 << a, 1_u8 << b);
    let ask = |weights: &[(u8, f64)]| Some(Answer::of(&of.contrast(design, weights)?, of.notice));
    Some(Draft {
        metric,
        variants: (a, b),
        first: ask(&[(one, 1.0), (one | other, -1.0)])?,
        second: ask(&[(other, 1.0), (one | other, -1.0)])?,
        together: ask(&[(one, 1.0), (other, 1.0)])?,
        surplus: ask(&[(one | other, 2.0)])?,
    })
}

/// Judges what variants do alone, what they do together, and surpluses as three families. Where every
/// combination is played, a variant alone is asked once and not once for each pair.
fn settle(drafts: &[Draft], design: &Design) -> Vec<CrossPair> {
    let family = |of: &dyn Fn(&Draft) -> Answer| judged(&drafts.iter().map(of).collect::<Vec<_>>());
    let (together, surplus) = (family(&|d| d.together), family(&|d| d.surplus));
    // Which question about one variant alone each pair asks: metric, variant, and the other one where
    // that makes a difference.
    let alone = |d: &Draft| {
        let (a, b) = d.variants;
        let key = |own, other| (d.metric, own, if design.is_full() { own } else { other });
        [(key(a, b), d.first), (key(b, a), d.second)]
    };
    let mut keys = Vec::new();
    let mut asked = Vec::new();
    for (key, question) in drafts.iter().flat_map(alone) {
        if !keys.contains(&key) {
            keys.push(key);
            asked.push(question);
        }
    }
    let answers = judged(&asked);
    let known = |key| -> Option<JudgedShift> {
        keys.iter().position(|known| *known == key).map(|place| answers[place])
    };
    let pair = |(n, draft): (usize, &Draft)| {
        let [first, second] = alone(draft).map(|(key, _)| known(key));
        let (first, second) = (first?, second?);
        Some(CrossPair {
            metric: draft.metric.spec().name.to_owned(),
            variants: draft.variants,
            word: word(&first, &second, &together[n], &surplus[n]),
            first,
            second,
            together: together[n],
            surplus: surplus[n],
        })
    };
    drafts.iter().enumerate().filter_map(pair).collect()
}
