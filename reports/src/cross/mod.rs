//! Variants crossed with each other: what each does, and what they make of each other.
//!
//! [`cross`] turns the games into the answer, [`build_cross`] the answer into a report. Every arm has
//! some of the variants on, and all arms play with the same luck: so an effect has one value in each
//! game, and only games that all arms have finished count.

mod build;
mod caveats;
mod effects;
mod headline;
mod method;
mod pairs;
mod tables;
mod word;

pub use build::build_cross;

use ruleshift_record::{CrossPlan, CrossSummary, Metric, RunRecord, Word, defining_relation};

use crate::summarise::summarise_shifts;

/// The answer of crossed variants for the headline metrics; `run` has the arms of `plan`.
///
/// Without a game that every arm has finished, or with arms in another order than that of
/// [`cross_design`](ruleshift_record::cross_design), there are no effects, and a caveat says so.
pub fn cross(plan: &CrossPlan, run: &RunRecord) -> CrossSummary {
    let mut comparison = summarise_shifts(run);
    comparison.caveats.clear();
    let design = Design::of(plan, run);
    let games = design.as_ref().map(|d| effects::by_game(d, run)).unwrap_or_default();
    let mut summary = CrossSummary {
        headline: vec![],
        plan: plan.clone(),
        comparison,
        games: games.first().map_or(0, |m| m.games()),
        relation: design
            .as_ref()
            .map_or(vec![], |d| d.relation.iter().map(|w| w.letters()).collect()),
        effects: design.as_ref().map_or(vec![], |d| effects::effects(d, &games)),
        pairs: design.as_ref().map_or(vec![], |d| pairs::pairs(d, run, &games)),
        caveats: vec![],
    };
    summary.headline = headline::headline(&summary);
    summary.caveats = caveats::caveats(run, &summary);
    summary
}

/// Arms in standard order of the variants that do not follow from others.
struct Design {
    /// Variants.
    count: usize,
    /// Products with one sign in every arm.
    relation: Vec<Word>,
    arms: usize,
}

impl Design {
    /// `None` when the arms are not those of a design, or not all in the run.
    fn of(plan: &CrossPlan, run: &RunRecord) -> Option<Design> {
        let (count, arms) = (plan.factors.len(), plan.arms.len());
        let low = (arms as u8).wrapping_sub(1);
        let ordered = plan.arms.iter().enumerate().all(|(n, arm)| usize::from(arm & low) == n);
        let known = (1..=6).contains(&count) && arms.is_power_of_two() && (2..=64).contains(&arms);
        let sound = known && ordered && arms == run.plan.arms.len();
        let relation = defining_relation(count, &plan.arms);
        // Arms that are a design have as many words in common as halvings made them.
        let halved = 1_usize.checked_shl(count as u32)? / arms.max(1);
        (sound && relation.len() + 1 == halved).then_some(Design { count, relation, arms })
    }

    /// Whether every combination is played.
    fn is_full(&self) -> bool {
        self.relation.is_empty()
    }
}

/// The headline metrics of a run.
fn headline_metrics(run: &RunRecord) -> Vec<Metric> {
    Metric::ALL.iter().copied().filter(|&m| run.plan.is_headline(m)).collect()
}

/// The variants of a mask as typed: "a", "a and b".
fn named(summary: &CrossSummary, mask: u8) -> String {
    let on = |(n, name): (usize, &String)| (mask >> n & 1 == 1).then(|| name.clone());
    let names: Vec<String> =
        summary.plan.factors.iter().take(8).enumerate().filter_map(on).collect();
    crate::format::and(&names)
}
