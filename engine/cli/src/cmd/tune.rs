//! `ruleshift tune`: the value of an option that brings a metric to a target.

use ruleshift_record::{Experiment, TunePlan, TuneShape};

use crate::args::{Shape, TuneArgs};
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::field::field;
use crate::folder::plain;
use crate::planned::Planned;
use crate::span::Span;
use crate::target::target;
use crate::wire::Setting;

/// Times at which the values in question are judged.
const LOOKS: u32 = 6;

pub(crate) fn run(args: &TuneArgs) -> Result<(), Failure> {
    let (setting, stem) = setting(args)?;
    let plan = setting.plan(args.games, args.run.seed);
    begin(&setting, &Planned::run(plan), &stem, &args.run)
}

/// Everything that was typed, with all that is wrong with it at once; and a name for the folder.
fn setting(args: &TuneArgs) -> Result<(Setting, String), Failure> {
    let mut faults = Vec::new();
    let field = field(&args.field, &mut faults);
    let span = keep(Span::read(&args.option), &mut faults);
    let target = keep(target(&args.target), &mut faults);
    let (Some(mut setting), Some(span), Some((metric, target)), true) =
        (field, span, target, faults.is_empty())
    else {
        return Err(together(faults));
    };
    let base = setting.stacks.remove(0);
    for &value in &span.values {
        setting.stacks.push(span.stack(&base, value)?);
    }
    let stem = plain(&format!("tune-{}", span.name()));
    setting.experiment = Experiment::Tune(TunePlan {
        option: span.name(),
        values: span.values.clone(),
        metric: metric.spec().name.to_owned(),
        target,
        shape: match args.shape {
            Shape::Any => TuneShape::Any,
            Shape::Rising => TuneShape::Rising,
            Shape::Falling => TuneShape::Falling,
        },
        looks: LOOKS,
    });
    Ok((setting, stem))
}
