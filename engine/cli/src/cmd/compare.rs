//! `ruleshift compare`: plays the arms, writes the run, prints the answer.

use ruleshift_record::Stop;

use crate::args::{CompareArgs, Until};
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::field::field;
use crate::folder::stem;
use crate::planned::Planned;
use crate::wire::Setting;
use crate::{probes, resolve, screen};

/// Times at which a run that may stop looks at what it has.
const LOOKS: u32 = 7;

pub(crate) fn run(args: &CompareArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    let plan = setting.plan(args.games, args.run.seed);
    if let Some(cost) = probes::cost(&plan).filter(|_| !args.run.show.quiet) {
        screen::remark(&cost);
    }
    let stem = stem(&plan);
    begin(&setting, &Planned::run(plan), &stem, &args.run)
}

/// Everything that was typed, with all that is wrong with it at once.
fn setting(args: &CompareArgs) -> Result<Setting, Failure> {
    let mut faults = Vec::new();
    let field = field(&args.field, &mut faults);
    let variants: Vec<_> =
        args.variants.iter().filter_map(|typed| keep(resolve::stack(typed), &mut faults)).collect();
    let setting = field.map(|mut setting| {
        setting.stacks.extend(variants);
        setting.stop = stop(args);
        probes::add(args, &mut setting, &mut faults);
        setting
    });
    setting.filter(|_| faults.is_empty()).ok_or_else(|| together(faults))
}

/// When the run is to stop before its last game.
fn stop(args: &CompareArgs) -> Option<Stop> {
    match (args.until, args.precision) {
        (Some(Until::Clear), _) => Some(Stop::Clear { looks: LOOKS }),
        (None, half_width) => half_width.map(|half_width| Stop::Precision { half_width }),
    }
}
