//! `ruleshift compare`: plays the arms, writes the run, prints the answer.

use std::num::NonZero;
use std::thread::available_parallelism;

use ruleshift_record::Stop;

use crate::args::{CompareArgs, Until};
use crate::conduct::conduct;
use crate::exit::Failure;
use crate::field::field;
use crate::folder::{Folder, stem};
use crate::wire::Setting;
use crate::{probes, resolve, screen};

/// Times at which a run that may stop looks at what it has.
const LOOKS: u32 = 7;

pub(crate) fn run(args: &CompareArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    let plan = setting.plan(args.games, args.run.seed);
    let folder = Folder::make(args.run.out.as_deref(), &stem(&plan), &plan.to_ron())?;
    if let Some(cost) = probes::cost(&plan).filter(|_| !args.run.show.quiet) {
        screen::remark(&cost);
    }
    conduct(&setting, &plan, &folder, &args.run.show)
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

/// What came of looking something up; what is wrong with it joins the other faults.
pub(crate) fn keep<T>(result: Result<T, Failure>, faults: &mut Vec<Failure>) -> Option<T> {
    result.map_err(|failure| faults.push(failure)).ok()
}

/// One failure out of several: what was typed wrongly weighs more than what cannot be read.
pub(crate) fn together(mut faults: Vec<Failure>) -> Failure {
    if faults.len() == 1 {
        return faults.remove(0);
    }
    let text = faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n");
    if faults.iter().all(|f| matches!(f, Failure::File(_))) {
        Failure::File(text)
    } else {
        Failure::Input(text)
    }
}

pub(crate) fn cores() -> usize {
    available_parallelism().map_or(1, NonZero::get)
}
