//! The answer of crossed variants in sentences.

use ruleshift_record::{
    CrossEffect, CrossPair, CrossSummary, CrossWord, JudgedShift, Metric, Verdict,
};

use super::named;
use crate::format::{and, counted};
use crate::words::{label, scale};

/// Main effects named besides the balance, and pairs.
const NAMED: (usize, usize) = (3, 2);

pub(super) fn headline(summary: &CrossSummary) -> Vec<String> {
    if summary.effects.is_empty() {
        let names = and(&summary.plan.factors);
        return vec![format!("{names}: too few games were finished in every arm.")];
    }
    let mut sentences: Vec<String> = balance(summary).into_iter().collect();
    sentences.extend(others(summary));
    sentences.extend(pairs(summary));
    sentences
}

fn mains(summary: &CrossSummary) -> impl Iterator<Item = &CrossEffect> {
    summary.effects.iter().filter(|e| e.mask.count_ones() == 1)
}

/// What each variant does to the attacker's chances.
fn balance(summary: &CrossSummary) -> Option<String> {
    let metric = Metric::AttackerWins;
    let own: Vec<&CrossEffect> =
        mains(summary).filter(|e| e.metric == metric.spec().name).collect();
    own.first()?;
    let clear = own.iter().filter(|e| e.effect.verdict == Verdict::ClearShift);
    let clear: Vec<String> = clear
        .map(|e| format!("{} by {}", named(summary, e.mask), told(metric, &e.effect)))
        .collect();
    let of = |verdicts: &[Verdict]| {
        let own = own.iter().filter(|e| verdicts.contains(&e.effect.verdict));
        own.map(|e| named(summary, e.mask)).collect::<Vec<String>>()
    };
    let (open, none) = (of(&[Verdict::Undecided]), of(&[Verdict::TooSmall, Verdict::NoDifference]));
    let mut words = match clear.as_slice() {
        [] => "No variant clearly shifts the attacker's chances".to_owned(),
        some => format!("The attacker's chances are shifted by {}", and(some)),
    };
    if !none.is_empty() {
        words += &format!("; not worth noticing: {}", and(&none));
    }
    if !open.is_empty() {
        words += &format!("; undecided: {}", and(&open));
    }
    Some(format!("{words}. {}", over(summary)))
}

fn over(summary: &CrossSummary) -> String {
    let arms = counted(summary.plan.arms.len() as u64, "arm");
    format!("Each is on in half of the {arms}, the others on and off alike.")
}

/// The largest other main effects, in multiples of what is noticed.
fn others(summary: &CrossSummary) -> Option<String> {
    let size = |e: &CrossEffect| -> f64 {
        let notice = Metric::by_name(&e.metric).map_or(1.0, |m| m.spec().notice);
        (e.effect.value / notice).abs()
    };
    let balance = Metric::AttackerWins.spec().name;
    let mut clear: Vec<&CrossEffect> = mains(summary)
        .filter(|e| e.effect.verdict == Verdict::ClearShift && e.metric != balance)
        .collect();
    clear.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let named: Vec<String> = clear
        .iter()
        .take(NAMED.0)
        .filter_map(|e| {
            let told = told(Metric::by_name(&e.metric)?, &e.effect);
            Some(format!("{} of {} by {told}", label(&e.metric), named(summary, e.mask)))
        })
        .collect();
    let more = clear.len().saturating_sub(named.len()) as u64;
    let more = if more == 0 { String::new() } else { format!(", and {more} more") };
    (!named.is_empty()).then(|| format!("Largest other shifts: {}{more}.", named.join("; ")))
}

/// A shift with its interval.
fn told(metric: Metric, shift: &JudgedShift) -> String {
    let scale = scale(metric);
    format!("{} (95 % {})", scale.shift(shift.value), scale.interval(shift.low, shift.high))
}

/// The pairs worth a sentence: those that cancel, then those that change each other, the balance first
/// and larger surpluses before smaller ones.
fn pairs(summary: &CrossSummary) -> Vec<String> {
    let notable = |p: &&CrossPair| {
        !matches!(p.word, CrossWord::Apart | CrossWord::AddUp | CrossWord::Undecided)
    };
    let rank = |p: &CrossPair| {
        let metric = Metric::by_name(&p.metric);
        let notice = metric.map_or(1.0, |m| m.spec().notice);
        let size = (p.surplus.value / notice).abs();
        (p.word != CrossWord::Cancel, metric != Some(Metric::AttackerWins), -size)
    };
    let mut all: Vec<&CrossPair> = summary.pairs.iter().filter(notable).collect();
    all.sort_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2))
    });
    if all.is_empty() {
        return sums(summary).into_iter().collect();
    }
    let more = all.len().saturating_sub(NAMED.1) as u64;
    let mut told: Vec<String> = all.iter().take(NAMED.1).map(|p| pair(summary, p) + ".").collect();
    if let Some(last) = told.last_mut().filter(|_| more > 0) {
        *last += &format!(" {more} more of the kind.");
    }
    told
}

/// What is said where no pair is more or less than its sum.
fn sums(summary: &CrossSummary) -> Option<String> {
    let of = |word| summary.pairs.iter().filter(move |p| p.word == word);
    summary.pairs.first()?;
    let example = of(CrossWord::AddUp).next().map(|p| pair(summary, p) + ". ");
    let open = of(CrossWord::Undecided).count() as u64;
    let open = match open {
        0 => String::new(),
        n => format!(" Undecided: {}.", counted(n, "surplus").replace("surpluss", "surpluses")),
    };
    Some(format!(
        "{}No two of them are seen to do more or less together than the sum.{open}",
        example.unwrap_or_default()
    ))
}

/// What two variants make of each other, in words.
pub(super) fn pair(summary: &CrossSummary, pair: &CrossPair) -> String {
    let Some(metric) = Metric::by_name(&pair.metric) else { return String::new() };
    let [a, b] = [pair.variants.0, pair.variants.1].map(|n| summary.plan.factors[n].as_str());
    let (scale, on) = (scale(metric), label(&pair.metric));
    let alone = format!("{} and {}", scale.shift(pair.first.value), scale.shift(pair.second.value));
    let together = told(metric, &pair.together);
    let shifts = format!("together they shift it by {together}, alone by {alone}");
    let words = match pair.word {
        CrossWord::Cancel => format!("{a} and {b} cancel on {on}"),
        CrossWord::AddUp => format!("{a} and {b} add up on {on}"),
        CrossWord::Stronger => format!("{a} and {b} make each other stronger on {on}"),
        CrossWord::Weaker => format!("{a} and {b} make each other weaker on {on}"),
        CrossWord::FirstStronger => format!("{b} makes {a} stronger on {on}"),
        CrossWord::SecondStronger => format!("{a} makes {b} stronger on {on}"),
        CrossWord::FirstWeaker => format!("{b} makes {a} weaker on {on}"),
        CrossWord::SecondWeaker => format!("{a} makes {b} weaker on {on}"),
        CrossWord::OnlyTogether => format!("{a} and {b} shift {on} only together"),
        CrossWord::Undecided => format!("whether {a} and {b} add up on {on} is undecided"),
        CrossWord::Apart => format!("{a} and {b} do not change each other on {on}"),
    };
    format!("{words}: {shifts}")
}

/// The word of a pair for a table.
pub(super) fn short(word: CrossWord) -> &'static str {
    match word {
        CrossWord::Cancel => "cancel",
        CrossWord::AddUp => "add up",
        CrossWord::Stronger => "make each other stronger",
        CrossWord::Weaker => "make each other weaker",
        CrossWord::FirstStronger => "first is stronger with second",
        CrossWord::SecondStronger => "second is stronger with first",
        CrossWord::FirstWeaker => "first is weaker with second",
        CrossWord::SecondWeaker => "second is weaker with first",
        CrossWord::OnlyTogether => "shift only together",
        CrossWord::Undecided => "undecided",
        CrossWord::Apart => "nothing to tell",
    }
}
