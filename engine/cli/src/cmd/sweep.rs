//! `ruleshift sweep`: one option over a range, or two as a grid.

use ruleshift_hooks::Stack;
use ruleshift_record::{Experiment, SweepPlan};

use crate::args::SweepArgs;
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::field::field;
use crate::folder::plain;
use crate::planned::Planned;
use crate::span::Span;
use crate::target::targets;
use crate::wire::Setting;

/// Arms of a grid at most.
const MOST: usize = 200;

pub(crate) fn run(args: &SweepArgs) -> Result<(), Failure> {
    let (setting, stem) = setting(args)?;
    let plan = setting.plan(args.games, args.run.seed);
    begin(&setting, &Planned::run(plan), &stem, &args.run)
}

/// Everything that was typed, with all that is wrong with it at once; and a name for the folder.
fn setting(args: &SweepArgs) -> Result<(Setting, String), Failure> {
    let mut faults = Vec::new();
    let field = field(&args.field, &mut faults);
    let spans: Vec<Span> =
        args.options.iter().filter_map(|typed| keep(Span::read(typed), &mut faults)).collect();
    let targets = targets(&args.targets, &mut faults);
    let (Some(mut setting), true) = (field, faults.is_empty()) else {
        return Err(together(faults));
    };
    let first = &spans[0];
    let stacks = stacks(&setting.stacks[0], &spans)?;
    setting.stacks.extend(stacks);
    let stem = plain(&format!("sweep-{}", first.name()));
    setting.experiment = Experiment::Sweep(SweepPlan {
        option: first.name(),
        values: first.values.clone(),
        second: spans.get(1).map(|span| (span.name(), span.values.clone())),
        metrics: vec![],
        targets,
    });
    Ok((setting, stem))
}

/// The stack of every value or, in a grid, of every pair of values, the first option outermost.
fn stacks(base: &Stack, spans: &[Span]) -> Result<Vec<Stack>, Failure> {
    let count: usize = spans.iter().map(|span| span.values.len()).product();
    if count > MOST {
        return Err(Failure::Input(format!(
            "a grid of {count} arms is too large: {MOST} are allowed, so give fewer values"
        )));
    }
    let all = spans[0].values.iter().map(|&value| match spans.get(1) {
        None => Ok(vec![spans[0].stack(base, value)?]),
        Some(other) => {
            let pair = |&second: &i64| spans[0].stack_with(base, value, (other, second));
            other.values.iter().map(pair).collect::<Result<Vec<_>, _>>()
        }
    });
    Ok(all.collect::<Result<Vec<_>, Failure>>()?.concat())
}
