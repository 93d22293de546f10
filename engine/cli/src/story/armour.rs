//! Vehicles and guns: shots at armour, the ground, mines.

use ruleshift_game::{Damage, Event, State, UnitId};

use super::Story;

impl Story<'_> {
    pub(super) fn gun_fired(&self, event: &Event, state: &State) -> String {
        let Event::GunFired { unit, target, rolled, needed } = *event else {
            return String::new();
        };
        let gun = state.units()[unit as usize].gun;
        let gun = gun.and_then(|gun| self.arena.setup().guns.get(gun as usize));
        let with = gun.map_or_else(String::new, |gun| format!(" with its {}", gun.name));
        let hit = if rolled >= needed { "a hit" } else { "a miss" };
        let (unit, target) = (self.unit(unit), self.units(target, state));
        format!("      {unit} fires{with} at {target}: {rolled}, {needed} needed, {hit}")
    }

    pub(super) fn armour_struck(&self, event: &Event) -> String {
        let Event::ArmourStruck { unit, face, penetration, armour, rolled, needed, .. } = *event
        else {
            return String::new();
        };
        let through = if rolled >= needed { "it goes through" } else { "it does not go through" };
        let plate = format!("{penetration} mm against {armour} mm of armour");
        let unit = self.unit(unit);
        format!("        {unit}, {face}: {plate}: {rolled}, {needed} needed, {through}")
    }

    pub(super) fn vehicle_damaged(&self, unit: UnitId, damage: Damage, state: &State) -> String {
        let what = match damage {
            Damage::Shaken => "has its crew shaken",
            Damage::Immobile => "cannot move any more",
            Damage::KnockedOut => "is knocked out",
        };
        format!("        {} {what}", self.units(unit, state))
    }

    pub(super) fn bogged(&self, unit: UnitId) -> String {
        format!("        {} is stuck in the ground", self.unit(unit))
    }

    pub(super) fn bog_tried(&self, unit: UnitId, rolled: u8, needed: u8) -> String {
        let free = if rolled >= needed { "free" } else { "still stuck" };
        format!("      {} tries to get free: {rolled}, {needed} needed, {free}", self.unit(unit))
    }

    pub(super) fn mine_struck(&self, unit: UnitId, state: &State) -> String {
        let vehicle = state.units()[unit as usize].kind.is_vehicle();
        let how =
            if vehicle { "runs over a mine and cannot move any more" } else { "steps on a mine" };
        format!("        {} {how}", self.units(unit, state))
    }
}
