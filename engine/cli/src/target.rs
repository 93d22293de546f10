//! A value of a metric that is wanted, as it is typed: `attacker_wins=50%`, `minutes=180`.

use ruleshift_record::{Metric, SweepTarget};

use crate::exit::{Failure, keep};
use crate::resolve;

/// The metric and the value that were typed; a share may be a percentage.
///
/// # Errors
/// What is wrong with the text or the name of the metric.
pub(crate) fn target(typed: &str) -> Result<(Metric, f64), Failure> {
    let Some((name, value)) = typed.split_once('=') else {
        return Err(Failure::Input(format!(
            "`{typed}` is no target: write METRIC=VALUE, as in attacker_wins=50% or minutes=180"
        )));
    };
    let metric = resolve::metric(name)?;
    let unit = metric.spec().unit;
    let value = match value.strip_suffix('%') {
        Some(percent) if unit == "share" => percent.parse::<f64>().map(|percent| percent / 100.0),
        _ => value.parse::<f64>(),
    };
    let within =
        |value: &f64| value.is_finite() && (unit != "share" || (0.0..=1.0).contains(value));
    match value.ok().filter(within) {
        Some(value) => Ok((metric, value)),
        None if unit == "share" => Err(Failure::Input(format!(
            "`{typed}`: a share of games is wanted, as in {name}=50% or {name}=0.5"
        ))),
        None => Err(Failure::Input(format!(
            "`{typed}`: a number is wanted, in {unit}, as in minutes=180"
        ))),
    }
}

/// Several of them; what is wrong joins the other faults.
pub(crate) fn targets(typed: &[String], faults: &mut Vec<Failure>) -> Vec<SweepTarget> {
    let found = typed.iter().filter_map(|typed| keep(target(typed), faults));
    found
        .map(|(metric, value)| SweepTarget { metric: metric.spec().name.to_owned(), value })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_may_be_a_percentage_and_other_numbers_may_not() {
        assert_eq!(target("attacker_wins=55%").unwrap(), (Metric::AttackerWins, 0.55));
        assert_eq!(target("attacker_wins=0.5").unwrap(), (Metric::AttackerWins, 0.5));
        assert_eq!(target("margin=-2").unwrap(), (Metric::Margin, -2.0));
        let fault = |typed: &str| target(typed).unwrap_err().to_string();
        assert!(fault("minutes").contains("METRIC=VALUE"));
        assert!(fault("minutes=3%").contains("in minutes"));
        assert!(fault("attacker_wins=50").contains("a share of games is wanted"));
        assert!(fault("minits=3").contains("did you mean `minutes`?"));
    }
}
