//! Vehicles, and the guns against them.

use ruleshift_game::{BreakCause, BySide, Damage, Event, State, UnitId};
use ruleshift_record::Metric;

use super::sheet::Sheet;

/// Vehicles and what is shot at them.
///
/// - Armour lost, by side: vehicles knocked out or left by a crew that broke; a count from 0, the
///   sides' add up to all.
/// - Hits of guns, blows through the armour: over all shots and all blows; shares, 0 to 1, and 0
///   without any.
/// - Vehicles stuck, mines struck: counts from 0.
///
/// Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Armour {
    lost: BySide<u32>,
    shots: u32,
    hits: u32,
    blows: u32,
    pierced: u32,
    bogged: u32,
    mines: u32,
}

impl Armour {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::GunFired { rolled, needed, .. } => {
                self.shots += 1;
                self.hits += u32::from(rolled >= needed);
            }
            Event::ArmourStruck { rolled, needed, .. } => {
                self.blows += 1;
                self.pierced += u32::from(rolled >= needed);
            }
            Event::VehicleDamaged { unit, damage: Damage::KnockedOut } => self.out(unit, state),
            // One that was knocked out has been counted with the blow that did it.
            Event::UnitBroke { unit, cause, .. }
                if cause != BreakCause::KnockedOut && state.units()[unit as usize].armoured() =>
            {
                self.out(unit, state);
            }
            Event::Bogged { .. } => self.bogged += 1,
            Event::MineStruck { .. } => self.mines += 1,
            _ => {}
        }
    }

    fn out(&mut self, unit: UnitId, state: &State) {
        self.lost[state.units()[unit as usize].side] += 1;
    }

    pub(super) fn report(&self, to: &mut Sheet) {
        let sides = [Metric::AttackerVehiclesLost, Metric::DefenderVehiclesLost];
        to.sides(Metric::VehiclesLost, sides, self.lost.0);
        to.ratio(Metric::GunHits, self.hits, self.shots);
        to.ratio(Metric::ArmourPierced, self.pierced, self.blows);
        to.count(Metric::Bogged, self.bogged);
        to.count(Metric::MinesStruck, self.mines);
    }
}
