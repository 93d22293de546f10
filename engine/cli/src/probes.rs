//! Further arms that show what behaviours are worth: which, and what they cost.

use indicatif::HumanCount;
use ruleshift_players::{Behaviour, behaviours};
use ruleshift_record::{Plan, Seat};

use crate::args::CompareArgs;
use crate::exit::{Failure, keep};
use crate::wire::{Probing, Setting};

/// Adds the arms that `args` ask for: one for each rule stack, side and behaviour that is not
/// forbidden already. What is wrong joins the other faults.
pub(crate) fn add(args: &CompareArgs, setting: &mut Setting, faults: &mut Vec<Failure>) {
    let most = args.importance_games.filter(|&games| games > args.games);
    if let Some(games) = most {
        faults.push(Failure::Input(format!(
            "--importance-games {games} is more than --games {}: the further arms play the first games of the others",
            args.games
        )));
    }
    let Some(asked) = keep(asked(args.importance.as_deref()), faults) else { return };
    let games = args.importance_games.unwrap_or_else(|| args.games.div_ceil(10));
    let may = |side: Seat, behaviour: Behaviour| {
        setting.pairings.iter().any(|players| !players[side as usize].strategy.lacks(behaviour))
    };
    let kinds = Seat::ALL.into_iter().flat_map(|side| asked.iter().map(move |b| (side, *b)));
    let kinds: Vec<(Seat, Behaviour)> = kinds.filter(|&(side, b)| may(side, b)).collect();
    let of = |of: usize| {
        kinds.iter().map(move |&(side, behaviour)| Probing { of, side, behaviour, games })
    };
    setting.probes = (0..setting.stacks.len()).flat_map(of).collect();
}

/// The behaviours of a list, or all.
fn asked(typed: Option<&str>) -> Result<Vec<Behaviour>, Failure> {
    match typed {
        None => Ok(vec![]),
        Some("all") => Ok(Behaviour::ALL.to_vec()),
        Some(list) => Ok(behaviours(list)?),
    }
}

/// What the further arms of a plan cost; none without any.
pub(crate) fn cost(plan: &Plan) -> Option<String> {
    let compared = plan.compared().count() as u64 * u64::from(plan.games_per_arm);
    let probes = plan.arms.len() - plan.compared().count();
    let probe = plan.arms.last()?.probe.as_ref()?;
    Some(format!(
        "To say what behaviours are worth, {probes} further arms of {} games are played:\n\
         {} games besides the {} that are compared.",
        HumanCount(probe.games.into()),
        HumanCount(plan.games() - compared),
        HumanCount(compared)
    ))
}
