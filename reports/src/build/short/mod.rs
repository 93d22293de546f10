//! The report in short: what a club asks before it tries a house rule, answered in sentences.

mod next;

use ruleshift_record::{ArmSummary, Balance, Metric, MetricShift, ScenarioShift, Summary, Verdict};

use super::balance::{EVEN, ends, percent};
use super::drawn;
use super::tables::{label, others, reference};
use crate::format::{Scale, and, counted};
use crate::report::{Block, Section};

/// Share of draws from which on they are told.
const DRAWS: f64 = 0.05;

/// The section; without blocks when nothing was played.
pub(super) fn section(summary: &Summary) -> Section {
    let mut blocks = Vec::new();
    let compared = drawn::arms(summary).into_iter().skip(1);
    for arm in compared {
        let notes = notes(summary, arm);
        if notes.is_empty() {
            continue;
        }
        if others(summary).len() > 1 {
            blocks.push(Block::Paragraph(format!("{}:", arm.title)));
        }
        blocks.push(Block::Notes(notes));
        blocks.push(Block::Paragraph("What to try next?".to_owned()));
        blocks.push(Block::Tickets(next::lines(summary, arm)));
    }
    match others(summary) {
        [] => blocks.extend(alone(summary).map(|note| Block::Notes(vec![note]))),
        _ if !blocks.is_empty() && !drawn::told(summary).is_empty() => {
            let told = drawn::told(summary).trim().replace("are drawn", "are told of here");
            blocks.push(Block::Paragraph(told));
        }
        _ => {}
    }
    Section::new("In short", blocks)
}

/// All answers for one arm.
fn notes(summary: &Summary, arm: &ArmSummary) -> Vec<String> {
    let told = [fair(summary, arm), evening(summary, arm), worse(summary, arm), sure(summary, arm)];
    told.into_iter().flatten().collect()
}

/// What a run of the reference alone can say.
fn alone(summary: &Summary) -> Option<String> {
    let all = whole(summary, reference(summary))?;
    Some(format!("Is it fair? {}.", share(all)))
}

/// The balance of an arm over all games.
fn whole<'a>(summary: &'a Summary, arm: &str) -> Option<&'a Balance> {
    let whole = |b: &&Balance| b.arm == arm && b.scenario.is_none() && b.players.is_none();
    summary.balance.iter().find(whole)
}

/// The shift of a metric under an arm.
fn shift<'a>(summary: &'a Summary, arm: &ArmSummary, metric: Metric) -> Option<&'a MetricShift> {
    summary.metrics.iter().find(|m| m.arm == arm.name && m.metric == metric.spec().name)
}

/// Whether a share is surely even.
fn is_even(b: &Balance) -> bool {
    b.low >= EVEN.0 && b.high <= EVEN.1
}

/// Whether a share is surely not even.
fn is_uneven(b: &Balance) -> bool {
    b.high < EVEN.0 || b.low > EVEN.1
}

/// The attacker's wins, and whether they are even.
fn share(all: &Balance) -> String {
    let word = match (is_even(all), is_uneven(all)) {
        (true, _) => "inside the 40 to 60 % of an even game",
        (_, true) => "outside the 40 to 60 % of an even game",
        _ => "which may be inside or outside the 40 to 60 % of an even game",
    };
    let drawn = f64::from(all.drawn) / f64::from(all.games.max(1));
    let draws = match drawn >= DRAWS {
        true => format!("; {} of games are drawn", percent(drawn)),
        false => String::new(),
    };
    format!("The attacker wins {} of games (95 % {}), {word}{draws}", percent(all.share), ends(all))
}

/// Is the tweak fair?
fn fair(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let (all, before) = (whole(summary, &arm.name)?, whole(summary, reference(summary))?);
    let nearer = (all.share - 0.5).abs() < (before.share - 0.5).abs();
    let word = match shift(summary, arm, Metric::AttackerWins)?.verdict {
        Verdict::ClearShift if nearer => "nearer to a half than before",
        Verdict::ClearShift => "further from a half than before",
        Verdict::TooSmall => "a change too small to notice",
        Verdict::NoDifference => "no difference worth noticing",
        Verdict::Undecided => "whether that is a change is undecided",
    };
    Some(format!("Is it fair? {}. It was {}: {word}.", share(all), percent(before.share)))
}

/// Does it lengthen the evening?
fn evening(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let m = shift(summary, arm, Metric::Minutes)?;
    let scale = Scale::of(m);
    let word = match (m.verdict, m.shift > 0.0) {
        (Verdict::ClearShift, true) => "Yes",
        (Verdict::ClearShift, false) => "No, it gets shorter",
        (Verdict::TooSmall, true) => "By too little to notice",
        (Verdict::TooSmall, false) => "No, it gets shorter by too little to notice",
        (Verdict::NoDifference, _) => "No, by nothing worth noticing",
        (Verdict::Undecided, _) => "That is undecided",
    };
    Some(format!(
        "Does it lengthen the evening? {word}: {} minutes at the table instead of {} ({}, 95 % {}).",
        scale.value(m.mean),
        scale.value(m.reference_mean),
        scale.shift(m.shift),
        scale.interval(m.low, m.high)
    ))
}

/// For whom is it worse, and does that depend on the scenario?
fn worse(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let wins = shift(summary, arm, Metric::AttackerWins)?;
    let clear = |m: &&MetricShift| m.verdict == Verdict::ClearShift;
    let loser = if wins.shift > 0.0 { "defender" } else { "attacker" };
    let men = [(Metric::AttackerLosses, "attacker"), (Metric::DefenderLosses, "defender")];
    let men = men.into_iter().filter_map(|(metric, side)| {
        let m = shift(summary, arm, metric).filter(clear).filter(|m| m.shift > 0.0)?;
        let scale = Scale::of(m);
        let (now, before) = (scale.value(m.mean), scale.value(m.reference_mean));
        Some(format!("of the {side}'s {now} instead of {before}"))
    });
    let men: Vec<String> = men.collect();
    let word = match (clear(&wins), men.is_empty()) {
        (true, _) => format!("For the {loser}, who wins less often."),
        (false, true) => "Neither side wins clearly less or loses clearly more men.".to_owned(),
        (false, false) => "Neither side wins clearly less.".to_owned(),
    };
    let lost = match men.is_empty() {
        true => String::new(),
        false => format!(" More men are lost: {}.", and(&men)),
    };
    Some(format!("For whom is it worse? {word}{lost}{}", differs(wins)))
}

/// The two scenarios furthest apart, when they differ surely and worth noticing.
fn differs(wins: &MetricShift) -> String {
    let by_shift = |a: &&ScenarioShift, b: &&ScenarioShift| a.shift.total_cmp(&b.shift);
    let ends =
        wins.by_scenario.iter().min_by(by_shift).zip(wins.by_scenario.iter().max_by(by_shift));
    let apart =
        ends.filter(|(low, high)| high.shift - low.shift >= wins.notice && low.high < high.low);
    apart.map_or(String::new(), |(low, high)| {
        let scale = Scale::of(wins);
        format!(
            " It differs by scenario: the attacker's wins shift by {} in {} and by {} in {}.",
            scale.shift(low.shift),
            low.scenario,
            scale.shift(high.shift),
            high.scenario
        )
    })
}

/// How sure is it?
fn sure(summary: &Summary, arm: &ArmSummary) -> Option<String> {
    let headline = || summary.metrics.iter().filter(|m| m.headline && m.arm == arm.name);
    let pairs = headline().map(|m| m.pairs).max()?;
    let open: Vec<String> = headline()
        .filter(|m| m.verdict == Verdict::Undecided)
        .map(|m| label(m).to_owned())
        .collect();
    let clear = headline().filter(|m| m.verdict == Verdict::ClearShift).count();
    let all = headline().count();
    let word = match open.is_empty() {
        true => format!("all {all} headline metrics are decided"),
        false => format!(
            "{} of {all} headline metrics are decided, not {}",
            all - open.len(),
            and(&open)
        ),
    };
    let pairs = counted(u64::from(pairs), "pair");
    Some(format!(
        "How sure is it? {pairs} of games with the same luck: {word}; {clear} shift clearly."
    ))
}

#[cfg(test)]
mod tests;
