//! What the reader of a hunt must keep in mind.

use ruleshift_record::{HuntPart, HuntSummary, HuntVerdict, RunRecord};

use super::words::share;
use crate::format::{and, counted};

/// Always said, first.
const PLAYERS: &str = "Computer players are not your club: people may find lines that no weights \
    can express, and may not fall for those that beat a computer.";

pub(super) fn caveats(run: &RunRecord, summary: &HuntSummary) -> Vec<String> {
    let mut caveats = vec![PLAYERS.to_owned()];
    caveats.extend(summary.faults.iter().map(|fault| {
        let line = fault.message.lines().next().unwrap_or_default();
        format!("{} stopped early: {line}", run.plan.arms[fault.arm].name)
    }));
    caveats.extend(missing(run, summary));
    caveats.extend(open(summary));
    caveats.extend(one_side(summary));
    caveats.extend(scenarios(summary));
    caveats.extend(flattered(summary));
    caveats
}

/// Seeds that were planned and not played four times.
fn missing(run: &RunRecord, summary: &HuntSummary) -> Option<String> {
    let (played, planned) = (summary.whole.seeds, run.plan.games_per_arm);
    (played < planned).then(|| {
        format!("Only {} of {planned} that judge were played.", counted(u64::from(played), "seed"))
    })
}

/// A gain that is neither shown nor ruled out.
fn open(summary: &HuntSummary) -> Option<String> {
    let open = summary.verdict == HuntVerdict::NotFound && summary.at_most > summary.gain;
    open.then(|| {
        format!(
            "Whether the style found gains more than {} is open: more seeds to judge it (`--judge`) \
             would tell.",
            share().amount(summary.gain)
        )
    })
}

/// Sides between which the gain is shared unevenly; a hunt for one side alone sees it better.
fn one_side(summary: &HuntSummary) -> Option<String> {
    let [a, b] = &summary.by_side[..] else { return None };
    let (more, less) = if a.surplus.value > b.surplus.value { (a, b) } else { (b, a) };
    let apart = more.surplus.low > less.surplus.high && more.variant.gain.value > 0.0;
    apart.then(|| {
        format!(
            "The variant gives the style {} as the {} and {} as the {}: a hunt with `--side {}` \
             looks for a style of that side alone.",
            share().shift(more.surplus.value),
            more.part,
            share().shift(less.surplus.value),
            less.part,
            more.part
        )
    })
}

/// Scenarios in which an exploit does not show.
fn scenarios(summary: &HuntSummary) -> Option<String> {
    let shows = |part: &&HuntPart| part.variant.gain.value > 0.0 && part.surplus.value > 0.0;
    let names: Vec<String> =
        summary.by_scenario.iter().filter(|p| !shows(p)).map(|p| p.part.clone()).collect();
    let told = summary.verdict == HuntVerdict::Exploit && !names.is_empty();
    told.then(|| format!("It does not show in {}.", and(&names)))
}

/// What the search believed beside what the games that judge say.
fn flattered(summary: &HuntSummary) -> Option<String> {
    let seemed = summary.trail.finalists.iter().map(|(seemed, _)| *seemed).fold(0.0, f64::max);
    let is = summary.whole.variant.gain.value.min(summary.whole.surplus.value);
    (seemed - is > summary.gain).then(|| {
        format!(
            "In the search a style seemed to gain {}; that was mostly luck, which is why other \
             games judge.",
            share().amount(seemed)
        )
    })
}
