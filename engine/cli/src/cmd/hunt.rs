//! `ruleshift hunt`: searches for a style that abuses a variant, judges it, writes the run.

use ruleshift_record::Seat;

use crate::args::{HuntArgs, Side};
use crate::begin::begin;
use crate::exit::{Failure, keep, together};
use crate::folder::hunt_stem;
use crate::hunt::{USUAL, new_plan};
use crate::planned::Planned;
use crate::resolve;
use crate::wire::{Seated, Setting};

pub(crate) fn run(args: &HuntArgs) -> Result<(), Failure> {
    let (setting, seats) = setting(args)?;
    let sizes = (args.budget, args.games, args.judge);
    let hunt = new_plan(&setting, seats, sizes, args.run.seed, f64::from(args.gain) / 100.0);
    let stem = hunt_stem(&hunt);
    begin(&setting, &Planned::Hunt(Box::new(hunt)), &stem, &args.run)
}

/// Everything that was typed, with all that is wrong with it at once; and the side of the styles in
/// each pairing.
fn setting(args: &HuntArgs) -> Result<(Setting, Vec<Seat>), Failure> {
    let mut faults = Vec::new();
    let stacks: Vec<_> = [&args.base, &args.variant]
        .into_iter()
        .filter_map(|typed| keep(resolve::stack(typed), &mut faults))
        .collect();
    let scenarios = keep(resolve::scenarios(&args.scenarios), &mut faults);
    let against: Vec<Seated> =
        args.against.iter().filter_map(|typed| keep(resolve::player(typed), &mut faults)).collect();
    let usual = keep(resolve::player(USUAL), &mut faults);
    let (Some(scenarios), Some(usual), true) = (scenarios, usual, faults.is_empty()) else {
        return Err(together(faults));
    };
    let (mut pairings, mut seats) = (vec![], vec![]);
    for opponent in &against {
        for side in sides(args.side) {
            let (usual, opponent) = (usual.clone(), opponent.clone());
            pairings.push(match side {
                Seat::Attacker => [usual, opponent],
                Seat::Defender => [opponent, usual],
            });
            seats.push(*side);
        }
    }
    Ok((Setting { stacks, scenarios, pairings, ..Setting::default() }, seats))
}

fn sides(side: Option<Side>) -> &'static [Seat] {
    match side {
        Some(Side::Attacker) => &[Seat::Attacker],
        Some(Side::Defender) => &[Seat::Defender],
        None => &[Seat::Attacker, Seat::Defender],
    }
}
