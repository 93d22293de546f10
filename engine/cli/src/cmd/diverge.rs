//! `ruleshift diverge`: where two games with the same luck part, and what made them.

use ruleshift_batch::GameEnd;
use ruleshift_record::Timing;
use ruleshift_reports::watch::{build_divergence, watch_page};
use ruleshift_reports::{self as reports};

use crate::again::Again;
use crate::args::DivergeArgs;
use crate::diverge::Meeting;
use crate::exit::{Failure, keep, together};
use crate::wire::arm_cast;
use crate::{page, resolve, screen};

pub(crate) fn run(args: &DivergeArgs) -> Result<(), Failure> {
    if let Some(path) = &args.html {
        page::check(path)?;
    }
    let (game, digest) = game(args)?;
    let reference = resolve::stack(&args.base)?;
    if reference.spec() == game.stack.spec() {
        return Err(Failure::Input(format!(
            "both games would be played by the same rules, `{}`: name other rules with --base",
            reference.spec()
        )));
    }
    let meeting = Meeting::of(game, &reference, &Timing::default())?;
    let (GameEnd::Finished(played) | GameEnd::Faulted { digest: played, .. }) = meeting.end();
    if digest.is_some_and(|digest| digest != *played) {
        screen::remark("warning: this is not the game of the ticket any more");
    }
    let Some(path) = &args.html else {
        let report = build_divergence(&meeting.divergence(args.full));
        screen::show(&reports::terminal(&report, screen::width(), screen::colour()));
        return Ok(());
    };
    page::write(path, &watch_page(&meeting.film()))
}

/// The game that was typed, and its digest when a ticket says so.
fn game(args: &DivergeArgs) -> Result<(Again, Option<u64>), Failure> {
    if !args.what.contains('~') {
        return Ok((typed(args)?, None));
    }
    let given = [
        ("--scenario", args.scenario.is_some()),
        ("--attacker", args.attacker.is_some()),
        ("--defender", args.defender.is_some()),
        ("--seed", args.seed.is_some()),
    ];
    let given: Vec<&str> =
        given.iter().filter(|(_, given)| *given).map(|(name, _)| *name).collect();
    if !given.is_empty() {
        return Err(Failure::Input(format!(
            "a ticket names its scenario, players and seed: leave out {}",
            given.join(", ")
        )));
    }
    let ticket = super::replay::ticket(&args.what)?;
    let (again, differs) = Again::of(&ticket)?;
    differs.iter().for_each(|differs| screen::remark(&format!("warning: {differs}")));
    Ok((again, Some(ticket.digest)))
}

fn typed(args: &DivergeArgs) -> Result<Again, Failure> {
    let mut faults = vec![];
    let or = |given: &Option<String>, usual: &str| given.clone().unwrap_or(usual.to_owned());
    let stack = keep(resolve::stack(&args.what), &mut faults);
    let scenario = keep(resolve::scenario(&or(&args.scenario, "hasty-attack")), &mut faults);
    let attacker = keep(resolve::player(&or(&args.attacker, "steady")), &mut faults);
    let defender = keep(resolve::player(&or(&args.defender, "steady")), &mut faults);
    let (Some(stack), Some(scenario), Some(attacker), Some(defender)) =
        (stack, scenario, attacker, defender)
    else {
        return Err(together(faults));
    };
    let rules = arm_cast(&stack)?;
    Ok(Again { scenario, stack, rules, seats: [attacker, defender], seed: args.seed.unwrap_or(1) })
}
