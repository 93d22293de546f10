//! The headline of an arm: balance first, then the largest clear shifts, in plain words.

use ruleshift_record::{Metric, MetricShift, RunRecord, Verdict};

use super::pairs::Pairs;
use super::shifts_of;
use crate::format::{Scale, and, counted};
use crate::words::{label, moved};

/// Clear shifts named besides the balance.
const NAMED: usize = 3;

/// The sentence for the arm of `pairs`.
pub(super) fn sentence(run: &RunRecord, pairs: &Pairs, metrics: &[MetricShift]) -> String {
    let title = &run.plan.arms[pairs.arm].title;
    let shifts: Vec<&MetricShift> = shifts_of(run, pairs, metrics).filter(|m| m.headline).collect();
    if shifts.is_empty() {
        return format!("{title}: too few games were finished to compare it.");
    }
    if pairs.alike() {
        let games = counted(u64::from(pairs.count()), "pair");
        return format!("{title}: no metric shifts: in {games} of games nothing differs.");
    }
    let balance = shifts.iter().find(|m| m.metric == Metric::AttackerWins.spec().name);
    let clear = clear(&shifts);
    let named: Vec<String> = clear.iter().take(NAMED).map(|m| phrase(m)).collect();
    let rest = if named.is_empty() { "nothing else shifts clearly".into() } else { and(&named) };
    let parts: Vec<String> = balance.map(|m| chances(m)).into_iter().chain([rest]).collect();
    format!("{title}: {}.{}{}", parts.join("; "), unnamed(clear.len()), undecided(&shifts))
}

/// The clear shifts besides the balance, the largest in multiples of what is noticed first.
fn clear<'a>(shifts: &[&'a MetricShift]) -> Vec<&'a MetricShift> {
    let mut clear: Vec<&MetricShift> = shifts
        .iter()
        .copied()
        .filter(|m| m.verdict == Verdict::ClearShift && m.metric != "attacker_wins")
        .collect();
    let size = |m: &MetricShift| (m.shift / m.notice).abs();
    clear.sort_by(|a, b| size(b).total_cmp(&size(a)));
    clear
}

/// What the attacker's chances do.
fn chances(m: &MetricShift) -> String {
    let scale = Scale::of(m);
    match m.verdict {
        Verdict::ClearShift => format!(
            "the attacker wins {} of games instead of {} ({}, 95 % {})",
            scale.value(m.mean),
            scale.value(m.reference_mean),
            scale.shift(m.shift),
            scale.interval(m.low, m.high)
        ),
        Verdict::TooSmall => format!(
            "the attacker's chances shift, but too little to notice ({}, 95 % {})",
            scale.shift(m.shift),
            scale.interval(m.low, m.high)
        ),
        Verdict::NoDifference => "the attacker's chances do not change worth noticing".to_owned(),
        Verdict::Undecided => format!(
            "whether the attacker's chances change is undecided ({}, 95 % {})",
            scale.shift(m.shift),
            scale.interval(m.low, m.high)
        ),
    }
}

/// A clear shift as part of a sentence.
fn phrase(m: &MetricShift) -> String {
    match Metric::by_name(&m.metric) {
        Some(metric) => moved(metric, (m.reference_mean, m.mean), (m.shift, m.low, m.high)),
        None => format!("the {} shift", m.metric),
    }
}

fn unnamed(clear: usize) -> String {
    match clear.saturating_sub(NAMED) {
        0 => String::new(),
        1 => " One more headline metric shifts clearly.".to_owned(),
        n => format!(" {n} more headline metrics shift clearly."),
    }
}

fn undecided(shifts: &[&MetricShift]) -> String {
    let names: Vec<String> = shifts
        .iter()
        .filter(|m| m.verdict == Verdict::Undecided && m.metric != "attacker_wins")
        .map(|m| label(&m.metric))
        .collect();
    if names.is_empty() { String::new() } else { format!(" Undecided: {}.", and(&names)) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    fn shift(metric: Metric, shift: f64, verdict: Verdict) -> MetricShift {
        let (low, high) = (shift - 0.1, shift + 0.1);
        MetricShift { shift, low, high, mean: 0.4 + shift, verdict, ..sample::shift(metric) }
    }

    #[test]
    fn balance_comes_first_and_larger_shifts_before_smaller() {
        let run = sample::run(&[vec![(0, 0, 1.0), (0, 1, 2.0)], vec![(0, 0, 4.0), (0, 1, 2.0)]]);
        let metrics = [
            shift(Metric::AttackerWins, 0.0, Verdict::NoDifference),
            shift(Metric::Turns, 1.2, Verdict::ClearShift),
            shift(Metric::Minutes, 60.0, Verdict::ClearShift),
            shift(Metric::IdleUnits, -0.01, Verdict::TooSmall),
            shift(Metric::LongestWait, 0.3, Verdict::Undecided),
        ];
        assert_eq!(
            sentence(&run, &Pairs::of(&run, 1), &metrics),
            "Arm 1: the attacker's chances do not change worth noticing; the evening takes \
             60.0 minutes longer (95 % +59.9 to +60.1) and games last 1.20 turns longer (95 % +1.10 to \
             +1.30). Undecided: longest wait of a unit."
        );
    }

    #[test]
    fn each_word_on_balance_has_its_wording() {
        let words = [
            (Verdict::ClearShift, "the attacker wins 50.0 % of games instead of 40.0 % (+10.0 pp"),
            (Verdict::TooSmall, "too little to notice (+10.0 pp, 95 % 0.0 to +20.0)"),
            (Verdict::NoDifference, "do not change worth noticing"),
            (Verdict::Undecided, "change is undecided (+10.0 pp"),
        ];
        for (verdict, expected) in words {
            let text = chances(&shift(Metric::AttackerWins, 0.1, verdict));
            assert!(text.contains(expected), "{text}");
        }
    }

    #[test]
    fn a_fall_is_told_as_a_fall() {
        let told = |metric, by| phrase(&shift(metric, by, Verdict::ClearShift));
        assert!(told(Metric::Turns, -1.0).starts_with("games end 1.00 turns sooner ("));
        assert!(told(Metric::Margin, -1.0).contains("1.00 points towards the defender"));
        assert!(told(Metric::IdleUnits, -0.1).starts_with("units left idle fall from 40.0 % to"));
        assert!(told(Metric::Dice, -30.0).starts_with("the dice fall by 30 dice"));
    }
}
