//! What commands that ask about rules have in common: the rules to compare with, scenarios, players,
//! metrics, and how long things take.

use std::path::Path;

use ruleshift_record::Timing;

use crate::args::FieldArgs;
use crate::exit::{Failure, keep};
use crate::wire::Setting;
use crate::{resolve, seating, text};

/// The setting that was typed, with the reference as its only arm; what is wrong joins the other
/// faults.
pub(crate) fn field(args: &FieldArgs, faults: &mut Vec<Failure>) -> Option<Setting> {
    let base = keep(resolve::stack(&args.base), faults);
    let scenarios = keep(resolve::scenarios(&args.scenarios), faults);
    let seating = seating::seating(args, faults);
    for name in &args.metrics {
        keep(resolve::metric(name), faults);
    }
    let notice = args.notice.iter().filter_map(|typed| keep(notice(typed), faults)).collect();
    let timing = args.timing.as_deref().map_or_else(|| Ok(Timing::default()), timing);
    let timing = keep(timing, faults);
    let seating = seating?;
    Some(Setting {
        stacks: vec![base?],
        scenarios: scenarios?,
        pairings: seating.pairings,
        roster: seating.roster,
        restricted: seating.restricted,
        headline: args.metrics.clone(),
        notice,
        timing: timing?,
        ..Setting::default()
    })
}

/// `METRIC=SIZE`.
fn notice(typed: &str) -> Result<(String, f64), Failure> {
    let Some((name, size)) = typed.split_once('=') else {
        return Err(Failure::Input(format!(
            "`{typed}` is no size to notice: write --notice METRIC=SIZE, as in minutes=10"
        )));
    };
    let spec = resolve::metric(name)?.spec();
    let size = size.parse::<f64>().ok().filter(|size| size.is_finite() && *size > 0.0);
    let size = size.ok_or_else(|| {
        Failure::Input(format!(
            "`{typed}`: the smallest shift worth noticing is a number above 0, in {}, as in {name}={}",
            spec.unit, spec.notice
        ))
    })?;
    Ok((name.to_owned(), size))
}

/// The timing table of a file.
fn timing(path: &Path) -> Result<Timing, Failure> {
    let text = text::read(path)?;
    Timing::from_ron(&text).map_err(|faults| {
        Failure::Input(format!("timing {}:\n  {}", path.display(), faults.join("\n  ")))
    })
}
