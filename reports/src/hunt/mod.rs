//! Can a player abuse a variant? From the games of a hunt to its answer and its report.
//!
//! A hunt asks for a style that gains *from the variant*. The usual style and the one that was
//! found play the same seats against the same opponents with the same luck, under the base rules
//! and under the variant. What the style found wins more than the usual one is its *edge*; the edge
//! under the variant less the edge under the base rules is its *surplus*. A style that is better in
//! both games has an edge and no surplus, so it is no abuse; a bad style that the variant makes a
//! bit less bad has a surplus and no edge, so it is none either. Only both together are.

mod build;
mod caveats;
mod games;
mod habits;
mod parts;
mod tables;
mod tickets;
mod words;

pub use build::build_hunt;
pub use parts::seeming_gain;

use ruleshift_record::{
    FORMAT, HuntPart, HuntPlan, HuntSummary, HuntTrail, HuntVerdict, RunRecord,
};

use crate::stats::{CONFIDENCE, unseen_share};
use games::{FOUND, Four};
use parts::part;

/// Judges the style that a search has found by games that the search has never seen; `run` is of
/// the plan of `hunt` with that one style beside the usual one.
///
/// Of seeds that were not played four times nothing is used. `None` when fewer than two were.
pub fn judge(hunt: &HuntPlan, run: &RunRecord, trail: &HuntTrail) -> Option<HuntSummary> {
    let rows = run.games.rows();
    let fours = games::fours(hunt, &rows, FOUND);
    let whole = part("all", &fours.iter().collect::<Vec<_>>())?;
    let [base, variant] = [0, 1].map(|arm| &hunt.judged.arms[arm]);
    let mut summary = HuntSummary {
        format: FORMAT,
        rules: hunt.judged.rules,
        verdict: verdict(&whole, hunt.gain),
        headline: vec![],
        base: base.name.clone(),
        variant: variant.name.clone(),
        title: variant.title.clone(),
        gain: hunt.gain,
        at_most: at_most(&whole, &fours),
        trail: trail.clone(),
        by_side: parts::by_side(&fours),
        by_scenario: parts::by_scenario(hunt, &fours),
        habits: habits::habits(&fours),
        faults: run.faults.clone(),
        tickets: tickets::tickets(run, &fours),
        caveats: vec![],
        whole,
    };
    summary.headline = words::headline(hunt, &summary);
    summary.caveats = caveats::caveats(run, &summary);
    Some(summary)
}

/// Both lower ends must lie above the smallest gain worth noticing. Each interval is two-sided at
/// 95 %, so a style that gains no more than that from the variant is accused in at most 2.5 % of
/// hunts: both tests must err, or the one that is no error must be right.
fn verdict(whole: &HuntPart, gain: f64) -> HuntVerdict {
    if whole.variant.gain.low > gain && whole.surplus.low > gain {
        HuntVerdict::Exploit
    } else {
        HuntVerdict::NotFound
    }
}

/// The most the style may yet gain: the lesser of two gains is below the lesser of their upper ends.
/// Seeds that never differ have no spread and leave possible that rare ones do, by up to a win of
/// one style under one rules and of the other under the other.
fn at_most(whole: &HuntPart, fours: &[Four]) -> f64 {
    let most = whole.variant.gain.high.min(whole.surplus.high);
    let alike = fours.iter().all(|four| four.surplus() == 0.0);
    let unseen = unseen_share(whole.seeds, CONFIDENCE).filter(|_| alike);
    most.max(2.0 * unseen.unwrap_or(0.0))
}

#[cfg(test)]
mod tests;
