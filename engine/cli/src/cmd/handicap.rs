//! `ruleshift handicap`: what brings the attacker's wins in a scenario to a half.

use ruleshift_record::{Experiment, HandicapPlan, Seat};
use ruleshift_scenarios::Scenario;

use crate::args::{HandicapArgs, Side};
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::folder::plain;
use crate::planned::Planned;
use crate::wire::Setting;
use crate::{resolve, screen};

pub(crate) fn run(args: &HandicapArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    if !args.run.show.quiet && !setting.scenarios[1..].iter().any(adds_support) {
        screen::remark(
            "The side's forces tell no nation, so only break points are tried: `--nation german`, for \
             one, adds support.",
        );
    }
    let scenarios = setting.scenarios.len() as u32;
    let plan = setting.plan(args.games.saturating_mul(scenarios), args.run.seed);
    let stem = plain(&format!("handicap-{}", args.scenario));
    begin(&setting, &Planned::run(plan), &stem, &args.run)
}

/// Whether a choice adds more than a higher break point.
fn adds_support(choice: &Scenario) -> bool {
    !choice.name.contains(":break-point:")
}

/// Everything that was typed, with all that is wrong with it at once.
fn setting(args: &HandicapArgs) -> Result<Setting, Failure> {
    let mut faults = Vec::new();
    let side = match args.side {
        Side::Attacker => Seat::Attacker,
        Side::Defender => Seat::Defender,
    };
    let nation = args.nation.as_deref();
    let choices = resolve::choices(&args.scenario, side.word(), nation);
    let scenarios = keep(choices, &mut faults);
    let stack = keep(resolve::stack(&args.rules), &mut faults);
    let attacker = keep(resolve::player(&args.attacker), &mut faults);
    let defender = keep(resolve::player(&args.defender), &mut faults);
    match (scenarios, stack, attacker, defender) {
        (Some(scenarios), Some(stack), Some(attacker), Some(defender)) => Ok(Setting {
            experiment: Experiment::Handicap(HandicapPlan { side }),
            stacks: vec![stack],
            scenarios,
            pairings: vec![[attacker, defender]],
            ..Setting::default()
        }),
        _ => Err(together(faults)),
    }
}
