//! What the reader of crossed variants must keep in mind.

use ruleshift_record::{CrossSummary, RunRecord, Verdict, resolution};

use super::named;
use crate::format::{about, and, counted};
use crate::summarise::{dependence_caveats, of_games};
use crate::words::label;

/// Joint games below which effects are said to be rough.
const FEW: u32 = 100;

pub(super) fn caveats(run: &RunRecord, summary: &CrossSummary) -> Vec<String> {
    let mut caveats = of_games(run);
    caveats.extend(joint(run, summary));
    caveats.extend(fraction(summary));
    caveats.extend(undecided(summary));
    caveats.extend(dependence_caveats(run, &summary.comparison));
    caveats
}

/// Games that not every arm has finished count for no effect.
fn joint(run: &RunRecord, summary: &CrossSummary) -> Option<String> {
    match summary.games {
        _ if summary.effects.is_empty() => {
            Some("No effects: too few games that every arm has finished.".to_owned())
        }
        n if n < FEW.min(run.plan.games_per_arm) => Some(format!(
            "Effects rest on the {} that every arm has finished, of {}, and are rough.",
            counted(u64::from(n), "game"),
            run.plan.games_per_arm
        )),
        n if n < run.plan.games_per_arm => Some(format!(
            "Effects rest on the {} that every arm has finished, of {}.",
            counted(u64::from(n), "game"),
            run.plan.games_per_arm
        )),
        _ => None,
    }
}

/// What a fraction cannot tell apart.
fn fraction(summary: &CrossSummary) -> Option<String> {
    let count = summary.plan.factors.len();
    let relation = ruleshift_record::defining_relation(count, &summary.plan.arms);
    let words = match resolution(&relation)? {
        ..=3 => {
            "a main effect may in truth be an interaction of two others, and pairs are not judged"
        }
        4 => "interactions of two look like each other, so that pairs are not judged",
        _ => {
            "interactions of three or more are taken to be nothing, and pairs are judged as means over \
             the other variants"
        }
    };
    Some(format!(
        "{} of {} combinations were played ({}): {words}.",
        summary.plan.arms.len(),
        1_u32 << count.min(8),
        summary.plan.generators.join(", ")
    ))
}

fn undecided(summary: &CrossSummary) -> Option<String> {
    let mains = summary.effects.iter().filter(|e| e.mask.count_ones() == 1);
    let open = mains.filter(|e| e.effect.verdict == Verdict::Undecided).map(|e| {
        let what = format!("{} of {}", label(&e.metric), named(summary, e.mask));
        match e.effect.more_games {
            0 => format!("{what} (no number of games would tell)"),
            n => format!("{what} (about {} more games)", about(n)),
        }
    });
    let open: Vec<String> = open.collect();
    (!open.is_empty()).then(|| format!("Main effects undecided so far: {}.", and(&open)))
}
