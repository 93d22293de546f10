//! `ruleshift cross`: variants with and without each other.

use ruleshift_hooks::Stack;
use ruleshift_record::{CrossPlan, Experiment, Fraction, cross_design, cross_generators};

use crate::args::{CrossArgs, Share};
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::field::field;
use crate::folder::plain;
use crate::planned::Planned;
use crate::resolve;
use crate::span::joined;
use crate::wire::Setting;

pub(crate) fn run(args: &CrossArgs) -> Result<(), Failure> {
    let (setting, stem) = setting(args)?;
    let plan = setting.plan(args.games, args.run.seed);
    begin(&setting, &Planned::run(plan), &stem, &args.run)
}

/// Everything that was typed, with all that is wrong with it at once; and a name for the folder.
fn setting(args: &CrossArgs) -> Result<(Setting, String), Failure> {
    let mut faults = Vec::new();
    let field = field(&args.field, &mut faults);
    let factors: Vec<Stack> =
        args.variants.iter().filter_map(|typed| keep(resolve::stack(typed), &mut faults)).collect();
    let (count, fraction) = (args.variants.len(), fraction(args.fraction));
    let Some(arms) = cross_design(count, fraction) else {
        faults.push(Failure::Input(none(count, args.fraction)));
        return Err(together(faults));
    };
    let (Some(mut setting), true) = (field, faults.is_empty()) else {
        return Err(together(faults));
    };
    let names: Vec<String> = factors.iter().map(Stack::spec).collect();
    let base = setting.stacks[0].spec();
    for arm in &arms[1..] {
        let on = names.iter().enumerate().filter(|(n, _)| arm >> n & 1 != 0);
        let typed = on.fold(base.clone(), |stack, (_, name)| joined(&stack, name));
        setting.stacks.push(resolve::stack(&typed)?);
    }
    let stem = plain(&format!("cross-{}", names.join(",")));
    setting.experiment = Experiment::Cross(CrossPlan {
        factors: names,
        arms,
        generators: cross_generators(count, fraction).unwrap_or_default(),
    });
    Ok((setting, stem))
}

fn fraction(share: Share) -> Fraction {
    match share {
        Share::Full => Fraction::Full,
        Share::Half => Fraction::Half,
        Share::Quarter => Fraction::Quarter,
    }
}

/// Why there is no such design.
fn none(count: usize, share: Share) -> String {
    match share {
        Share::Full => format!("two to six variants can be crossed, not {count}"),
        Share::Half => format!(
            "half of the combinations can be played of four to six variants, not of {count}: leave \
             out --fraction to play them all"
        ),
        Share::Quarter => format!(
            "a quarter of the combinations can be played of five or six variants, not of {count}: \
             write --fraction half, or leave it out to play them all"
        ),
    }
}
