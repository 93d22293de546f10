//! The sheet on which a club votes on a house rule: one side of paper, with the numbers of the report.

mod shifts;
#[cfg(test)]
mod tests;

use ruleshift_record::{ArmSummary, Metric, MetricShift, ScenarioShift, Summary, Verdict};

use crate::build::facts;
use crate::format::{Scale, and};
use crate::report::{Block, Report, Section};
use shifts::{alike, shifting};

/// Caveats on a sheet; the rest stands in the report.
const CAVEATS: usize = 4;

/// The sheet of an arm other than the reference, by its place in the summary; `None` when there is no
/// such arm.
pub fn build_vote(summary: &Summary, arm: usize) -> Option<Report> {
    let (reference, arm) = (summary.arms.first()?, summary.arms.get(arm).filter(|_| arm > 0)?);
    let own: Vec<&MetricShift> = summary.metrics.iter().filter(|m| m.arm == arm.name).collect();
    let sections = [
        ("The rule", rule(reference, arm)),
        ("What shifts", shifting(&own)),
        ("What does not", alike(&own)),
        ("How long the evening gets", evening(&own)),
        ("Is it fair?", fairness(&own)),
        ("What to watch for", watch(summary, arm)),
    ];
    let sections = sections.into_iter().filter(|(_, blocks)| !blocks.is_empty());
    Some(Report {
        title: arm.title.clone(),
        facts: facts(summary),
        front: sections.map(|(heading, blocks)| Section::new(heading, blocks)).collect(),
        ..Report::default()
    })
}

/// The rule in the words of its script, and with which options it was played.
fn rule(reference: &ArmSummary, arm: &ArmSummary) -> Vec<Block> {
    let options = options(&arm.name);
    let set = if options.is_empty() { String::new() } else { format!(", with {}", and(&options)) };
    let played = format!("Played as {}{set}, and compared with {}.", arm.name, reference.title);
    let summary = Some(arm.summary.clone()).filter(|text| !text.is_empty());
    summary.into_iter().chain([played]).map(Block::Paragraph).collect()
}

/// The options that a name sets: `cards = 3` of `two-cards:cards=3+other`.
fn options(name: &str) -> Vec<String> {
    let set = name
        .split('+')
        .filter_map(|part| part.split_once(':'))
        .flat_map(|(_, set)| set.split([',', ':']));
    set.filter_map(|one| one.split_once('='))
        .map(|(name, value)| format!("{name} = {value}"))
        .collect()
}

fn of<'a>(own: &[&'a MetricShift], metric: Metric) -> Option<&'a MetricShift> {
    own.iter().copied().find(|m| m.metric == metric.spec().name)
}

/// A value after and before: "151.8 minutes instead of 144.5".
fn instead(m: &MetricShift, unit: &str) -> String {
    let scale = Scale::of(m);
    format!("{}{unit} instead of {}", scale.value(m.mean), scale.value(m.reference_mean))
}

/// Minutes and turns, after and before.
fn evening(own: &[&MetricShift]) -> Vec<Block> {
    let minutes = of(own, Metric::Minutes);
    let minutes = minutes
        .map(|m| format!("takes {} at the table ({})", instead(m, " minutes"), m.verdict.word()));
    let turns = of(own, Metric::Turns)
        .map(|m| format!("lasts {} ({})", instead(m, " turns"), m.verdict.word()));
    let parts: Vec<String> = minutes.into_iter().chain(turns).collect();
    let text = format!("On average a game {}.", and(&parts));
    if parts.is_empty() { vec![] } else { vec![Block::Paragraph(text)] }
}

/// The attacker's wins, after and before, and how far scenarios differ in them.
fn fairness(own: &[&MetricShift]) -> Vec<Block> {
    let Some(wins) = of(own, Metric::AttackerWins) else { return vec![] };
    let all =
        format!("The attacker wins {} of games ({}).", instead(wins, ""), wins.verdict.word());
    // The report has the scenarios of headline metrics alone.
    let range = |mean: fn(&ScenarioShift) -> f64| {
        let parts = wins.by_scenario.iter().filter(|_| wins.headline);
        let (low, high) = (
            parts.clone().min_by(|a, b| mean(a).total_cmp(&mean(b)))?,
            parts.max_by(|a, b| mean(a).total_cmp(&mean(b)))?,
        );
        let told =
            |s: &ScenarioShift| format!("{} in {}", Scale::of(wins).value(mean(s)), s.scenario);
        (low.scenario != high.scenario).then(|| format!("from {} to {}", told(low), told(high)))
    };
    let scenarios = range(|s| s.mean).zip(range(|s| s.reference_mean)).map(|(after, before)| {
        format!(" By scenario that is {after}; under the rules before, {before}.")
    });
    vec![Block::Paragraph(all + &scenarios.unwrap_or_default())]
}

/// What to keep in mind of this arm, and that nobody has tried to abuse the rule.
fn watch(summary: &Summary, arm: &ArmSummary) -> Vec<Block> {
    let others = summary.arms.iter().filter(|other| other.title != arm.title);
    let others: Vec<&str> = others.map(|other| other.title.as_str()).collect();
    let of_arm = |text: &str, title: &str| {
        text.strip_prefix(title).is_some_and(|rest| rest.starts_with([':', ' ']))
    };
    let own = |text: &&String| {
        of_arm(text, &arm.title) || !others.iter().any(|title| of_arm(text, title))
    };
    let caveats: Vec<&String> = summary.caveats.iter().filter(own).collect();
    let left = caveats.len().saturating_sub(CAVEATS);
    let mut notes: Vec<String> = caveats.into_iter().take(CAVEATS).cloned().collect();
    if left > 0 {
        notes.push("The report has more to keep in mind than this sheet has room for.".to_owned());
    }
    notes.push(format!(
        "Whether a player can abuse the rule was not searched here; \u{201c}ruleshift hunt {}\u{201d} does.",
        arm.name
    ));
    vec![Block::Notes(notes)]
}

/// Whether a shift has that verdict.
fn is(verdict: Verdict) -> impl Fn(&&&MetricShift) -> bool {
    move |m| m.verdict == verdict
}
