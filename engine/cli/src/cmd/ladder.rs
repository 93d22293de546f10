//! `ruleshift ladder`: everyone plays everyone from both sides, and the results rank them.

use ruleshift_record::Experiment;

use crate::args::LadderArgs;
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::planned::Planned;
use crate::wire::{Seated, Setting};
use crate::{resolve, seating};

pub(crate) fn run(args: &LadderArgs) -> Result<(), Failure> {
    let setting = setting(args)?;
    let pairings = setting.pairings.len() as u32;
    let plan = setting.plan(args.games.saturating_mul(pairings), args.run.seed);
    begin(&setting, &Planned::run(plan), "ladder", &args.run)
}

/// Everything that was typed, with all that is wrong with it at once.
fn setting(args: &LadderArgs) -> Result<Setting, Failure> {
    let mut faults = Vec::new();
    let stack = keep(resolve::stack(&args.rules), &mut faults);
    let scenarios = keep(resolve::scenarios(&args.scenarios), &mut faults);
    let players = seating::named(&args.players, &mut faults);
    if players.as_ref().is_some_and(|players| players.len() == 1) {
        faults.push(Failure::Input("a ladder needs two players or more".to_owned()));
    }
    match (stack, scenarios, players) {
        (Some(stack), Some(scenarios), Some(players)) if faults.is_empty() => Ok(Setting {
            experiment: Experiment::Ladder,
            stacks: vec![stack],
            scenarios,
            pairings: seating::each_against_each(&players).into_iter().filter(differ).collect(),
            roster: players.iter().map(|player| player.spec.to_string()).collect(),
            ..Setting::default()
        }),
        _ => Err(together(faults)),
    }
}

/// Whether two players are not the same one: against himself nobody climbs.
fn differ([attacker, defender]: &[Seated; 2]) -> bool {
    attacker.spec != defender.spec
}
