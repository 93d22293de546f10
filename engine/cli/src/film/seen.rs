//! What of an event, a unit or a marker is to be seen on a film.

use ruleshift_game::{Cell, Event as E, Marker, MarkerId, Place, Rules, State, Unit, UnitId};
use ruleshift_reports::watch::{Dice, Happened, Line, MarkerNow, Stroke, UnitNow};

/// How a unit is.
pub(super) fn unit_now(unit: &Unit, rules: &Rules) -> UnitNow {
    let place = match unit.place {
        Place::Hidden => 0,
        Place::Table => 1,
        Place::Carried => 2,
        Place::Lost | Place::Fled | Place::Captured | Place::Left => 3,
    };
    let here = place == 1;
    let flags = [
        here && unit.men > 0 && unit.suppressed(rules),
        unit.dug_in,
        unit.holds_fire,
        unit.immobile || unit.bogged,
        unit.activated,
    ];
    let flags = (0..).zip(flags).map(|(bit, flag)| u8::from(flag) << bit).sum();
    UnitNow(place, unit.at.x, unit.at.y, unit.men, unit.pins, flags, unit.facing)
}

/// How a marker is.
pub(super) fn marker_now(marker: &Marker) -> MarkerNow {
    let place = match (marker.on_table, marker.shows()) {
        (false, _) => 0,
        (true, true) => 1,
        (true, false) => 2,
    };
    MarkerNow(place, marker.at.x, marker.at.y)
}

/// The smoke screens.
pub(super) fn smoke(state: &State, rules: &Rules) -> Vec<[u8; 3]> {
    let radius = rules.smoke_radius() as u8;
    state.screens().iter().map(|screen| [screen.at.x, screen.at.y, radius]).collect()
}

/// What kind of thing an event is. Every event is named: a new one does not compile until it is sorted.
pub(super) fn happened(event: &E) -> Happened {
    match event {
        E::TurnStarted { .. } | E::TurnEnded { .. } | E::LateFireBegan { .. } => Happened::Turn,
        E::CardDrawn { .. } => Happened::Card,
        E::MarkerPlaced { .. }
        | E::MarkerMoved { .. }
        | E::UnitPlaced { .. }
        | E::UnitActivated { .. }
        | E::UnitMoved { .. }
        | E::UnitTurned { .. }
        | E::Mounted { .. }
        | E::Dismounted { .. }
        | E::Dug { .. }
        | E::FellBack { .. }
        | E::Pursued { .. }
        | E::UnitLeft { .. }
        | E::Bogged { .. }
        | E::BogTried { .. }
        | E::ReserveTested { .. } => Happened::Move,
        E::SpotTried { .. } | E::Searched { .. } => Happened::Spot,
        E::MarkerRevealed { group, .. } if group.is_none() => Happened::Spot,
        E::MarkerRevealed { .. } | E::Charged { .. } | E::AssaultFought { .. } => Happened::Contact,
        E::Fired { .. }
        | E::GunFired { .. }
        | E::ArmourStruck { .. }
        | E::BatteryCalled { .. }
        | E::BatteryAdjusted { .. }
        | E::BatteryFired { .. }
        | E::Shelled { .. }
        | E::FireHeld { .. }
        | E::MineStruck { .. } => Happened::Fire,
        E::MenLost { .. }
        | E::UnitLost { .. }
        | E::UnitBroke { .. }
        | E::GroupGone { .. }
        | E::VehicleDamaged { .. }
        | E::Captured { .. } => Happened::Loss,
        E::PinsAdded { .. }
        | E::Suppressed { .. }
        | E::LeaderTested { .. }
        | E::Rallied { .. }
        | E::OrderGiven { .. }
        | E::Recovered { .. }
        | E::GroupTested { .. }
        | E::SideTested { .. } => Happened::Will,
        E::ObjectiveTaken { .. } | E::Scored { .. } | E::GameEnded { .. } | E::FieldHeld { .. } => {
            Happened::Score
        }
        E::AmmunitionShort { .. }
        | E::ScriptActed { .. }
        | E::Noted { .. }
        | E::ActionsChanged { .. }
        | E::MenChanged { .. }
        | E::PointsChanged { .. }
        | E::CardAdded { .. }
        | E::CardRemoved { .. }
        | E::CardSkipped { .. }
        | E::CardPutBack { .. }
        | E::TurnCut { .. }
        | E::ReserveCalled { .. }
        | E::SightLimited { .. }
        | E::CounterSet { .. }
        | E::Asked { .. }
        | E::HookRolled { .. }
        | E::Answered { .. } => Happened::House,
    }
}

/// What an event draws on the table; `units` and `markers` are as before it.
pub(super) fn line(
    event: &E,
    state: &State,
    units: &[UnitNow],
    markers: &[MarkerNow],
) -> Option<Line> {
    let at = |unit: UnitId| state.units()[unit as usize].at;
    let marker_at = |marker: MarkerId| state.markers()[marker as usize].at;
    let looker =
        |unit: Option<UnitId>, by: Option<MarkerId>| unit.map(at).or_else(|| by.map(marker_at));
    let between = |stroke, from: Cell, to: Cell| Some(Line(stroke, from.x, from.y, to.x, to.y));
    match *event {
        E::SpotTried { unit, by, marker, .. } => {
            between(Stroke::Sight, looker(unit, by)?, marker_at(marker))
        }
        E::Fired { unit, target, .. } | E::GunFired { unit, target, .. } => {
            between(Stroke::Fire, at(unit), at(target))
        }
        E::AssaultFought { unit, target, .. } => between(Stroke::Assault, at(unit), at(target)),
        E::OrderGiven { leader, unit } => between(Stroke::Order, at(leader), at(unit)),
        E::Rallied { unit, leader: Some(leader), .. } => {
            between(Stroke::Order, at(leader), at(unit))
        }
        E::BatteryCalled { by, at: aim, .. } => between(Stroke::Sight, at(by), aim),
        E::BatteryFired { at: Some(fell), .. } => between(Stroke::Shells, fell, fell),
        E::UnitMoved { unit, to, .. }
        | E::Charged { unit, to, .. }
        | E::FellBack { unit, to }
        | E::Pursued { unit, to } => {
            let UnitNow(_, x, y, ..) = *units.get(unit as usize)?;
            Some(Line(Stroke::Move, x, y, to.x, to.y))
        }
        E::MarkerMoved { marker, to, .. } => {
            let MarkerNow(_, x, y) = *markers.get(marker as usize)?;
            Some(Line(Stroke::Move, x, y, to.x, to.y))
        }
        _ => None,
    }
}

/// What was rolled in an event.
pub(super) fn dice(event: &E) -> Option<Dice> {
    match *event {
        E::Fired { dice, needed, hits, .. } | E::Shelled { dice, needed, hits, .. } => {
            Some(Dice::Each(dice, needed, hits))
        }
        E::SpotTried { rolled, needed, .. }
        | E::Searched { rolled, needed, .. }
        | E::GunFired { rolled, needed, .. }
        | E::ArmourStruck { rolled, needed, .. }
        | E::LeaderTested { rolled, needed, .. }
        | E::GroupTested { rolled, needed, .. }
        | E::SideTested { rolled, needed, .. }
        | E::ReserveTested { rolled, needed, .. }
        | E::BogTried { rolled, needed, .. } => Some(Dice::Total(rolled, needed)),
        _ => None,
    }
}
