//! The answer of a sweep in sentences.

use ruleshift_record::{
    Metric, SweepCrossing, SweepCurve, SweepRange, SweepShape, SweepSummary, Verdict,
};

use super::is_headline;
use crate::format::{and, fixed};
use crate::words::{label, moved, scale};

/// Clear trends named besides the balance.
const NAMED: usize = 3;

/// A sentence for each option, and in a grid one on how they work together.
pub(super) fn headline(summary: &SweepSummary) -> Vec<String> {
    let mut options: Vec<&str> = summary.curves.iter().map(|c| c.option.as_str()).collect();
    options.dedup();
    if options.is_empty() {
        let too_few = "too few values or games were finished for a curve";
        return vec![format!("{}: {too_few}.", summary.plan.option)];
    }
    let mut sentences: Vec<String> = options.iter().map(|o| sentence(summary, o)).collect();
    sentences.extend(together(summary));
    sentences
}

fn sentence(summary: &SweepSummary, option: &str) -> String {
    let curves = summary.curves.iter().filter(|c| c.option == option);
    let curves: Vec<&SweepCurve> = curves.filter(|c| is_headline(summary, &c.metric)).collect();
    let range =
        curves.first().map_or(String::new(), |c| match (c.values.first(), c.values.last()) {
            (Some(first), Some(last)) => format!(" from {} to {}", whole(*first), whole(*last)),
            _ => String::new(),
        });
    let balance = curves.iter().find(|c| c.metric == Metric::AttackerWins.spec().name);
    let mut clear: Vec<&SweepCurve> =
        curves.iter().copied().filter(|c| is_clear(c) && c.metric != "attacker_wins").collect();
    clear.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let named: Vec<String> = clear.iter().take(NAMED).filter_map(|c| phrase(c)).collect();
    let rest = if named.is_empty() { "no other trend is clear".to_owned() } else { and(&named) };
    let parts: Vec<String> = balance.map(|c| chances(c)).into_iter().chain([rest]).collect();
    format!("{option}{range}: {}.{}", parts.join("; "), unnamed(clear.len()))
}

fn is_clear(curve: &SweepCurve) -> bool {
    curve.trend.verdict == Verdict::ClearShift
}

/// A trend in multiples of what is noticed.
fn size(curve: &SweepCurve) -> f64 {
    let notice = Metric::by_name(&curve.metric).map_or(1.0, |m| m.spec().notice);
    (curve.trend.value / notice).abs()
}

fn phrase(curve: &SweepCurve) -> Option<String> {
    let metric = Metric::by_name(&curve.metric)?;
    let t = &curve.trend;
    let fitted = curve.fit.as_ref().map(|fit| &fit.fitted)?;
    let ends = (*fitted.first()?, *fitted.last()?);
    Some(moved(metric, ends, (t.value, t.low, t.high)))
}

/// What the attacker's chances do along an option.
fn chances(curve: &SweepCurve) -> String {
    let scale = scale(Metric::AttackerWins);
    let t = &curve.trend;
    let shift = format!("{}, 95 % {}", scale.shift(t.value), scale.interval(t.low, t.high));
    let at = |n: usize| {
        let mean = curve.means.get(n).map_or(f64::NAN, |m| m.mean);
        let value = curve.values.get(n).map_or(String::new(), |v| whole(*v));
        (scale.value(mean), value)
    };
    let (first, last) = (at(0), at(curve.means.len().saturating_sub(1)));
    let words = match (t.verdict, curve.shape) {
        (_, SweepShape::Turns) => turning(curve),
        (Verdict::ClearShift, _) => format!(
            "the attacker wins {} of games at {} and {} at {} (trend {shift})",
            first.0, first.1, last.0, last.1
        ),
        (Verdict::TooSmall, _) => {
            format!("the attacker's chances shift, but too little to notice (trend {shift})")
        }
        (Verdict::NoDifference, _) => {
            format!("the attacker's chances have no trend worth noticing (trend {shift})")
        }
        (Verdict::Undecided, _) => {
            format!("whether the attacker's chances have a trend is undecided ({shift})")
        }
    };
    let crossings = curve.crossings.iter().map(|c| crossed(curve, c));
    std::iter::once(words).chain(crossings).collect::<Vec<_>>().join("; ")
}

/// The least and the most of a curve that turns.
fn turning(curve: &SweepCurve) -> String {
    let scale = scale(Metric::AttackerWins);
    let at =
        |n: usize| format!("{} at {}", scale.value(curve.means[n].mean), whole(curve.values[n]));
    let by = |a: &usize, b: &usize| curve.means[*a].mean.total_cmp(&curve.means[*b].mean);
    let ends = (0..curve.means.len()).min_by(by).zip((0..curve.means.len()).max_by(by));
    let ends = ends.map_or(String::new(), |(least, most)| {
        format!(": the least is {}, the most {}", at(least), at(most))
    });
    format!("the attacker's chances go up and down{ends}")
}

/// Where a curve has a target, as the end of a sentence.
pub(super) fn crossed(curve: &SweepCurve, crossing: &SweepCrossing) -> String {
    let Some(metric) = Metric::by_name(&curve.metric) else { return String::new() };
    let target = target(metric, crossing.target);
    let places: Vec<String> = crossing.at.iter().map(|at| place(curve, *at)).collect();
    let possible: Vec<String> = crossing.possible.iter().map(|r| range(curve, r)).collect();
    match (places.is_empty(), possible.is_empty()) {
        (false, false) => format!("{target} at about {} (95 % {})", and(&places), and(&possible)),
        (false, true) => format!("{target} at about {}", and(&places)),
        (true, false) => {
            format!("it is not seen that {target}, but that is possible (95 %) {}", and(&possible))
        }
        (true, true) => {
            let side = if crossing.above { "more" } else { "less" };
            let value = scale(metric).value(crossing.target);
            worded(metric, &format!("{side} than {value} throughout"))
        }
    }
}

/// A target as a sentence: "the attacker wins 50.0 %", "margin is 0.00".
pub(super) fn target(metric: Metric, value: f64) -> String {
    worded(metric, &scale(metric).value(value))
}

fn worded(metric: Metric, value: &str) -> String {
    match metric {
        Metric::AttackerWins => format!("the attacker wins {value}"),
        _ => format!("{} is {value}", metric.spec().label),
    }
}

/// The values at which a target is possible.
pub(super) fn range(curve: &SweepCurve, range: &SweepRange) -> String {
    let (low, high) = (place(curve, range.low), place(curve, range.high));
    match (range.open_below, range.open_above) {
        (false, false) => format!("{low} to {high}"),
        (true, false) => format!("{low} or less to {high}"),
        (false, true) => format!("{low} to {high} or more"),
        (true, true) => format!("{low} or less to {high} or more"),
    }
}

/// A value of an option that need not be whole, with a digit or two more than its steps have.
pub(super) fn place(curve: &SweepCurve, value: f64) -> String {
    let span = curve.values.last().zip(curve.values.first()).map_or(0, |(b, a)| b.abs_diff(*a));
    fixed(value, if span < 20 { 2 } else { usize::from(span < 200) })
}

/// A value of an option as typed, with a true minus sign.
pub(super) fn whole(value: i64) -> String {
    fixed(value as f64, 0)
}

fn unnamed(clear: usize) -> String {
    match clear.saturating_sub(NAMED) {
        0 => String::new(),
        1 => " One more headline metric has a clear trend.".to_owned(),
        n => format!(" {n} more headline metrics have clear trends."),
    }
}

/// Whether the trend along the first option depends on the second.
fn together(summary: &SweepSummary) -> Option<String> {
    let (second, values) = summary.plan.second.as_ref()?;
    let grids = summary.grids.iter().filter(|g| is_headline(summary, &g.metric));
    let (mut clear, mut open) = (Vec::new(), Vec::new());
    for grid in grids {
        let Some((shift, metric)) = grid.interaction.zip(Metric::by_name(&grid.metric)) else {
            continue;
        };
        let words = scale(metric);
        match shift.verdict {
            Verdict::ClearShift => clear.push(format!(
                "{} {} on top (95 % {})",
                label(&grid.metric),
                words.shift(shift.value),
                words.interval(shift.low, shift.high)
            )),
            Verdict::Undecided => open.push(label(&grid.metric)),
            Verdict::TooSmall | Verdict::NoDifference => {}
        }
    }
    let (least, most) = (values.iter().min()?, values.iter().max()?);
    let open = if open.is_empty() { String::new() } else { format!(" Undecided: {}.", and(&open)) };
    let first = &summary.plan.option;
    Some(if clear.is_empty() {
        format!("No trend along {first} clearly depends on {second}.{open}")
    } else {
        format!(
            "Where {second} is {} instead of {}, the trend along {first} is another: {}.{open}",
            whole(*most),
            whole(*least),
            and(&clear)
        )
    })
}
