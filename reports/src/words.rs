//! Metrics in sentences.

use ruleshift_record::Metric;

use crate::format::Scale;

/// The label of a metric; its name when it is not known.
pub(crate) fn label(name: &str) -> String {
    Metric::by_name(name).map_or(name, |m| m.spec().label).to_owned()
}

/// How the values of a metric print.
pub(crate) fn scale(metric: Metric) -> Scale<'static> {
    Scale::new(metric.spec().unit, metric.spec().notice)
}

/// A shift of a metric from one mean to another, with the ends of its interval: "games last 1.2 turns
/// longer (95 % +1.1 to +1.3)".
pub(crate) fn moved(
    metric: Metric,
    (from, to): (f64, f64),
    (shift, low, high): (f64, f64, f64),
) -> String {
    let scale = scale(metric);
    let (amount, up) = (scale.amount(shift), shift > 0.0);
    let either = |yes: &'static str, no: &'static str| if up { yes } else { no };
    let words = match metric {
        Metric::Margin => {
            format!("the margin moves {amount} towards the {}", either("attacker", "defender"))
        }
        Metric::Turns => {
            format!("games {} {amount} {}", either("last", "end"), either("longer", "sooner"))
        }
        Metric::Minutes => format!("the evening takes {amount} {}", either("longer", "less")),
        Metric::LongestWait => {
            format!("the longest wait of a unit gets {amount} {}", either("longer", "shorter"))
        }
        _ if metric.spec().unit == "share" => format!(
            "{} {} from {} to {}",
            subject(metric),
            either("rise", "fall"),
            scale.value(from),
            scale.value(to)
        ),
        _ => format!("{} {} by {amount}", subject(metric), either("rise", "fall")),
    };
    format!("{words} (95 % {})", scale.interval(low, high))
}

/// The metric as the subject of a verb in the plural.
fn subject(metric: Metric) -> String {
    match metric {
        Metric::AttackerWins => "the attacker's wins".to_owned(),
        Metric::IdleUnits => "units left idle".to_owned(),
        _ => format!("the {}", metric.spec().label),
    }
}
