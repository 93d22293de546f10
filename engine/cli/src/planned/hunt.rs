//! The plan of a hunt: the plan of the games that judge, with a search before it.

use ruleshift_record::{Experiment, HuntPlan, Seat};

use super::{MOST, resolved};
use crate::exit::Failure;
use crate::hunt::USUAL;
use crate::wire::Setting;

/// Fewest styles that the optimiser can go on from.
const FEWEST: u32 = 4;

/// Reads the plan of a hunt; or all its faults, of which there is at least one.
pub(super) fn read(text: &str) -> Result<(Setting, HuntPlan), Vec<Failure>> {
    let written = HuntPlan::from_ron(text).map_err(|fault| vec![Failure::Input(fault)])?;
    let faults = numbers(&written).into_iter().chain(form(&written)).map(Failure::Input);
    let (setting, judged) = resolved(&written.judged, faults.collect())?;
    Ok((setting, HuntPlan { judged, ..written }))
}

/// Numbers that no hunt may have.
fn numbers(hunt: &HuntPlan) -> Vec<String> {
    let search = &hunt.search;
    let sizes = [
        ("budget", search.budget, FEWEST),
        ("games", search.games, 1),
        ("finalists", search.finalists, 1),
        ("finalist_games", search.finalist_games, 1),
    ];
    let wrong = sizes.iter().filter(|(_, size, least)| !(*least..=MOST).contains(size));
    let mut faults: Vec<String> = wrong
        .map(|(name, size, least)| {
            format!("search: {name} is {size}: it must be from {least} to {MOST}")
        })
        .collect();
    if !(0.0..=0.5).contains(&hunt.gain) {
        faults.push(format!("gain is {}: it is a share of the games, from 0 to 0.5", hunt.gain));
    }
    faults
}

/// What the games that judge must be like.
fn form(hunt: &HuntPlan) -> Vec<String> {
    let judged = &hunt.judged;
    let mut faults = vec![];
    if judged.arms.len() != 2 || judged.arms.iter().any(|arm| arm.probe.is_some()) {
        let arms = judged.arms.len();
        faults.push(format!(
            "judged: {arms} arms are listed: a hunt has two, without the variant and with it"
        ));
    }
    if judged.experiment != Experiment::Compare || judged.stop.is_some() {
        faults.push("judged: it must be a comparison that plays all its games".to_owned());
    }
    if judged.pairings.is_empty() || judged.pairings.len() != hunt.seats.len() {
        let (pairings, seats) = (judged.pairings.len(), hunt.seats.len());
        faults.push(format!(
            "seats: {seats} are listed for {pairings} pairings: in each, one is the seat of the styles"
        ));
    }
    for (n, (pairing, seat)) in judged.pairings.iter().zip(&hunt.seats).enumerate() {
        let player = match seat {
            Seat::Attacker => &pairing.attacker.name,
            Seat::Defender => &pairing.defender.name,
        };
        if player != USUAL {
            faults.push(format!(
                "judged: in pairing {} the {} is `{player}`: styles are measured against `{USUAL}`",
                n + 1,
                seat.word()
            ));
        }
    }
    faults
}
