//! A small made-up game, for trying event hooks when their script is loaded.

use crate::cell::Cell;
use crate::deck::Card;
use crate::handle::Handle;
use crate::happening::{EVENT_HOOKS, Happening};
use crate::hook::Domain;
use crate::kinds::{Kind, Quality, Side};
use crate::luck::{Purpose, Stream};
use crate::stage::Stage;
use crate::state::{Place, UnitId};

/// Units of the made-up game: three a side, of which the last of each is hidden.
const UNITS: u8 = 6;
/// Those on the table.
const SHOWN: [i32; 4] = [0, 1, 3, 4];

/// The one that rides in a vehicle when it is activated.
const RIDER: UnitId = 4;

/// A handle on the made-up game at the moment of `happening`: two units a side on the table, one of
/// each side under a marker, turn 1. Games of different `nth` differ in their dice.
pub fn trial_handle(happening: Happening, nth: u64) -> Handle {
    let mut handle = Handle::default();
    let state = &mut *handle.state;
    state.seed = Stream::keyed(nth, Purpose::Script, 0, 0, 0).next();
    state.turn = 1;
    (state.unit_count, state.group_count) = (UNITS, 2);
    for (n, unit) in state.units[..UNITS as usize].iter_mut().enumerate() {
        unit.side = Side::ALL[n / 3];
        unit.group = (n / 3) as u8;
        unit.kind = if n % 3 == 0 { Kind::Leader } else { Kind::Section };
        unit.grade = u8::from(n % 3 == 0);
        unit.quality = Quality::Regular;
        (unit.men, unit.first_men, unit.pins) = (8, 10, (n % 3) as u8);
        unit.place = if n % 3 == 2 { Place::Hidden } else { Place::Table };
        unit.at = Cell::new(10 * n as i32, 20).unwrap_or_default();
    }
    for (n, group) in state.groups[..2].iter_mut().enumerate() {
        (group.side, group.first_unit, group.units) = (Side::ALL[n], 3 * n as u8, 3);
        group.first_men = 30;
    }
    for card in [Card::Group(0, 0), Card::Group(1, 0), Card::TurnEnd(0), Card::Leader(0, 0)] {
        state.deck.add(card);
    }
    state.doing.stage = stage(happening);
    if state.doing.stage == Stage::Cards {
        state.deck.draw();
    }
    if let Some((unit, place)) = elsewhere(happening) {
        let unit = &mut state.units[unit as usize];
        unit.place = place;
        if place != Place::Carried {
            unit.men = 0;
        }
    }
    handle.happening = happening;
    handle
}

fn stage(happening: Happening) -> Stage {
    match happening {
        Happening::GameStart {} | Happening::TurnStart { .. } => Stage::Start,
        Happening::TurnEnd { .. } | Happening::ObjectiveTaken { .. } => Stage::TurnEnd,
        _ => Stage::Cards,
    }
}

/// A unit that is gone by the time the hook is called, or rides in a vehicle.
fn elsewhere(happening: Happening) -> Option<(UnitId, Place)> {
    match happening {
        Happening::UnitActivated { unit: RIDER } => Some((RIDER, Place::Carried)),
        Happening::UnitLost { unit } => Some((unit, Place::Lost)),
        Happening::UnitBroke { unit } => Some((unit, Place::Fled)),
        _ => None,
    }
}

/// Things that may happen in the made-up game to the event hook with that place in
/// [`EVENT_HOOKS`]; `cards` is how many cards of its own the script has.
pub fn trial_happenings(index: usize, cards: u8) -> Vec<Happening> {
    let mut tuples = vec![vec![]];
    for arg in EVENT_HOOKS[index].args {
        let values = values(arg.name, arg.domain, cards);
        let longer = |tuple: &Vec<i32>| {
            let tuple = tuple.clone();
            values.iter().map(move |&value| [&tuple[..], &[value]].concat()).collect::<Vec<_>>()
        };
        tuples = tuples.iter().flat_map(longer).collect();
    }
    let happenings = tuples.iter().map(|tuple| Happening::from_arguments(index, tuple));
    happenings.filter(|&happening| possible(happening)).collect()
}

fn values(name: &str, domain: Domain, cards: u8) -> Vec<i32> {
    match (name, domain) {
        ("unit" | "target" | "leader" | "chosen", _) => SHOWN.into(),
        ("group", _) => vec![0, 1],
        ("objective", _) => vec![0],
        ("card", Domain::Int(..)) => (0..cards.into()).collect(),
        (_, Domain::Int(low, high)) if high - low > 8 => vec![low, low + 1, low + 7, high],
        (_, domain) => (0..domain.len() as i32).map(|n| domain.lowest() + n).collect(),
    }
}

/// Turn-end cards are nobody's, all others but extra ones somebody's; and nobody fires at himself.
fn possible(happening: Happening) -> bool {
    match happening {
        Happening::CardDrawn { card: 0, owner } => owner.is_none(),
        Happening::CardDrawn { card: 1..=5, owner } => owner.is_some(),
        Happening::UnitFired { unit, target, .. } => unit != target,
        Happening::AssaultFought { unit, target, .. } => (unit < 3) != (target < 3),
        Happening::OrderGiven { leader, unit } => leader % 3 == 0 && unit / 3 == leader / 3,
        _ => true,
    }
}
