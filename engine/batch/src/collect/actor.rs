//! Who does what an event tells.

use ruleshift_game::{Card, Event, MarkerId, Side, State, UnitId};

/// The side that acts on a card; none for those on which nobody has actions.
pub(super) fn acts_on(card: Card, state: &State) -> Option<Side> {
    match card {
        Card::TurnEnd(_) | Card::Shortage(..) | Card::Extra(..) => None,
        Card::Marker(side, _) => Some(side),
        Card::Battery(id, _) => Some(state.batteries()[id as usize].side),
        Card::Group(group, _) => Some(state.groups()[group as usize].side),
        Card::Leader(unit, _) => Some(of_unit(unit, state)),
    }
}

pub(super) fn of_unit(unit: UnitId, state: &State) -> Side {
    state.units()[unit as usize].side
}

/// The side of the unit or, with none, of the marker that looked for something.
fn of_looker(unit: Option<UnitId>, by: Option<MarkerId>, state: &State) -> Option<Side> {
    let marker = || by.map(|marker| state.markers()[marker as usize].side);
    unit.map(|unit| of_unit(unit, state)).or_else(marker)
}

/// The side whose unit, marker or battery takes the action that the event tells; none when it is
/// no action. One that goes with its vehicle, or is thrown out of it, does nothing: `acting` is the
/// unit whose activation it is. Fire that was held counts when it is fired, late fire never.
pub(super) fn acts(
    event: &Event,
    state: &State,
    acting: Option<UnitId>,
    late: bool,
) -> Option<Side> {
    let own = |unit| (acting == Some(unit)).then(|| of_unit(unit, state));
    match *event {
        Event::MarkerMoved { marker, .. } => Some(state.markers()[marker as usize].side),
        Event::SpotTried { unit, by, .. } | Event::Searched { unit, by, .. } => {
            of_looker(unit, by, state)
        }
        Event::UnitMoved { unit, .. }
        | Event::UnitTurned { unit, .. }
        | Event::BogTried { unit, .. }
        | Event::Charged { unit, .. }
        | Event::Dug { unit, .. }
        | Event::Mounted { unit, .. }
        | Event::Fired { unit, late: false, blast: false, .. }
        | Event::Rallied { unit, leader: None, .. } => Some(of_unit(unit, state)),
        Event::GunFired { unit, .. } if !late => Some(of_unit(unit, state)),
        Event::BatteryCalled { battery, .. }
        | Event::BatteryAdjusted { battery, .. }
        | Event::BatteryFired { battery, .. } => Some(state.batteries()[battery as usize].side),
        Event::Dismounted { unit, .. } | Event::UnitLeft { unit, .. } => own(unit),
        _ => None,
    }
}
