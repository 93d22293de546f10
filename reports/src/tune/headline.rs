//! The answer of a tuning in sentences.

use ruleshift_record::{Metric, TuneAnswer, TuneSetting, TuneSummary};

use crate::format::{about, fixed};
use crate::words::{label, scale};

/// The answer, then where the crossing lies.
pub(super) fn headline(summary: &TuneSummary) -> Vec<String> {
    let Some(metric) = Metric::by_name(&summary.metric).filter(|_| !summary.settings.is_empty())
    else {
        return vec![format!("{} cannot be tuned to that target.", summary.option)];
    };
    let all = [Some(answer(summary, metric)), crossing(summary)];
    all.into_iter().flatten().collect()
}

fn answer(summary: &TuneSummary, metric: Metric) -> String {
    let goal = goal(summary, metric);
    match summary.answer {
        TuneAnswer::Found { value } => format!(
            "{}{} brings {goal}: {}.",
            setting(summary, value),
            coin(value),
            mean(summary, metric, value)
        ),
        TuneAnswer::Between { nearest } => format!(
            "No setting of {} brings {goal} as near as anyone would notice; the nearest is {}{}: {}.",
            summary.option,
            plain(nearest),
            coin(nearest),
            mean(summary, metric, nearest)
        ),
        TuneAnswer::NoneReaches { below, nearest } => format!(
            "No value of {} that was tried brings {goal}: all leave it {}; the nearest is {}: {}.",
            summary.option,
            if below { "below" } else { "above" },
            plain(nearest),
            mean(summary, metric, nearest)
        ),
        TuneAnswer::Undecided { nearest, more_games } => {
            let more = match more_games {
                0 => "no number of games is known that would settle it".to_owned(),
                games => {
                    format!("about {} more games over all values would settle it", about(games))
                }
            };
            format!(
                "It is open which value of {} brings {goal}; so far the nearest is {}{}: {}; {more}.",
                summary.option,
                plain(nearest),
                coin(nearest),
                mean(summary, metric, nearest)
            )
        }
    }
}

/// "the attacker's wins to 50.0 %".
fn goal(summary: &TuneSummary, metric: Metric) -> String {
    let scale = scale(metric);
    let target = match metric.spec().unit {
        "share" => scale.value(summary.target),
        _ => scale.amount(summary.target),
    };
    format!("\"{}\" to {target}", label(&summary.metric))
}

fn setting(summary: &TuneSummary, value: f64) -> String {
    format!("{}={}", summary.option, plain(value))
}

/// A whole number, or a half.
pub(super) fn plain(value: f64) -> String {
    fixed(value, usize::from(value.fract() != 0.0))
}

/// What a half means at the table.
pub(super) fn coin(value: f64) -> String {
    if value.fract() == 0.0 {
        return String::new();
    }
    let (low, high) = (fixed(value.floor(), 0), fixed(value.ceil(), 0));
    format!(" (a coin before the game decides between {low} and {high})")
}

fn mean(summary: &TuneSummary, metric: Metric, value: f64) -> String {
    let scale = scale(metric);
    let known = |setting: &&TuneSetting| setting.value == value;
    let Some(found) = summary.settings.iter().find(known) else { return "not played".to_owned() };
    let mean = found.mean.map_or("no mean yet".to_owned(), |mean| scale.value(mean));
    match found.interval {
        Some((low, high)) => {
            format!("{mean} (surely within {} to {})", scale.value(low), scale.value(high))
        }
        None => mean,
    }
}

/// Where the mean crosses the target.
fn crossing(summary: &TuneSummary) -> Option<String> {
    let crossing = summary.crossing.as_ref()?;
    let (low, high) = (fixed(crossing.low, 2), fixed(crossing.high, 2));
    let at = match crossing.at {
        Some(at) => format!("The target is met at {}", fixed(at, 2)),
        None => "No two means lie on both sides of the target yet; it is met".to_owned(),
    };
    Some(format!("{at} on the scale of {}, surely between {low} and {high}.", summary.option))
}
