//! What shifts and what does not, in words.

use ruleshift_record::{Metric, MetricShift, Verdict};

use super::is;
use crate::format::{Scale, and};
use crate::report::Block;
use crate::words::{label, moved};

/// Clear shifts outside the headline that have room.
const OTHERS: usize = 3;

/// The clear shifts, those of the headline first, the largest in multiples of what is noticed first.
pub(super) fn shifting(own: &[&MetricShift]) -> Vec<Block> {
    let clear = |headline: bool| {
        let mut clear: Vec<&MetricShift> =
            own.iter().filter(is(Verdict::ClearShift)).copied().collect();
        clear.retain(|m| m.headline == headline);
        clear.sort_by(|a, b| size(b).total_cmp(&size(a)));
        clear
    };
    let (headline, others) = (clear(true), clear(false));
    let told = headline.iter().chain(others.iter().take(OTHERS)).filter_map(|m| phrase(m));
    let mut notes: Vec<String> = told.collect();
    if notes.is_empty() {
        return vec![Block::Paragraph("Nothing shifts clearly.".to_owned())];
    }
    if others.len() > OTHERS {
        notes.push("The report has further clear shifts, outside its headline.".to_owned());
    }
    vec![Block::Notes(notes)]
}

/// The headline metrics that surely do not shift worth noticing.
pub(super) fn alike(own: &[&MetricShift]) -> Vec<Block> {
    let told = |verdict: Verdict, words: &str| {
        let of = own.iter().filter(is(verdict)).filter(|m| m.headline);
        let names: Vec<String> = of.map(|m| label(&m.metric)).collect();
        (!names.is_empty()).then(|| format!("{words}: {}.", and(&names)))
    };
    let told = [
        told(Verdict::NoDifference, "No difference worth noticing"),
        told(Verdict::TooSmall, "A shift, but too small to notice"),
    ];
    told.into_iter().flatten().map(Block::Paragraph).collect()
}

/// How large a shift is, in multiples of what is noticed.
fn size(m: &MetricShift) -> f64 {
    (m.shift / m.notice).abs()
}

/// A shift with its numbers: as a sentence where the headline has words for it.
fn phrase(m: &MetricShift) -> Option<String> {
    let metric = Metric::by_name(&m.metric)?;
    let text = if metric.spec().headline {
        moved(metric, (m.reference_mean, m.mean), (m.shift, m.low, m.high)) + "."
    } else {
        plainly(m)
    };
    let mut letters = text.chars();
    let first = letters.next()?.to_uppercase();
    Some(format!("{first}{}", letters.as_str()))
}

/// A shift without a verb, for labels of any number: "first contact (turn): 6.10 instead of 7.03".
fn plainly(m: &MetricShift) -> String {
    let (scale, name) = (Scale::of(m), label(&m.metric));
    let named = if name == m.unit { name } else { scale.labelled(&name) };
    format!(
        "{}: {} instead of {} ({}, 95 % {}).",
        named,
        scale.value(m.mean),
        scale.value(m.reference_mean),
        scale.shift(m.shift),
        scale.interval(m.low, m.high)
    )
}
