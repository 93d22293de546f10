//! Guns against armour (RULES 13.5-13.8).

use crate::cell::turns_between;
use crate::event::{BreakCause, Event};
use crate::game::Game;
use crate::kinds::{Damage, Face};
use crate::luck::Purpose;
use crate::state::{Place, Unit, UnitId, Who};

impl Game<'_> {
    /// One shot of a gun at an armoured vehicle: two dice to hit, two to go through, one for what
    /// it does. `firing` is the unit as it was before the shot.
    pub(crate) fn fire_gun(&mut self, id: UnitId, firing: &Unit, target: UnitId) {
        let (rules, arena) = (self.table.rules, self.table.arena);
        let Some(gun) = firing.gun else { return };
        let struck = self.state.units[target as usize];
        let range = firing.at.range(struck.at);
        let band = rules.range_band(firing.kind, range);
        let cover = self.state.cover(arena, &struck);
        let needed = rules.gun_hit_number(band, cover, firing.moved, struck.moved) as u8;
        let rolled = self.state.roll(Purpose::Hit, Who::Unit(id), 2).dice(2) as u8;
        self.state.units[target as usize].under_fire = true;
        self.emit(Event::GunFired { unit: id, target, rolled, needed });
        if rolled >= needed {
            let turns = turns_between(struck.facing, struck.at.way_to(firing.at));
            let face = rules.face_struck(i32::from(turns));
            self.strike(id, target, face, arena.penetration(gun, range));
        }
    }

    /// A blow that goes through so many millimetres strikes a vehicle's armour.
    pub(crate) fn strike(&mut self, by: UnitId, id: UnitId, face: Face, penetration: i32) {
        let rules = self.table.rules;
        let armour = self.state.units[id as usize].armour[face as usize];
        let margin = (penetration - i32::from(armour)).clamp(-300, 300);
        let needed = rules.penetration_number(margin) as u8;
        let rolled = self.state.roll(Purpose::Armour, Who::Unit(by), 2).dice(2) as u8;
        let penetration = penetration as u16;
        self.emit(Event::ArmourStruck { by, unit: id, face, penetration, armour, rolled, needed });
        if rolled < needed {
            return self.suffer(id, rules.glancing_pins() as u8, 0);
        }
        let die = self.state.roll(Purpose::Armour, Who::Unit(by), 1).die();
        let damage = rules.damage(die);
        self.emit(Event::VehicleDamaged { unit: id, damage });
        match damage {
            Damage::Shaken => self.suffer(id, rules.shaken_pins() as u8, 0),
            Damage::Immobile => {
                self.state.units[id as usize].immobile = true;
                self.suffer(id, rules.glancing_pins() as u8, 0);
            }
            Damage::KnockedOut => self.knock_out(id),
        }
    }

    /// A vehicle is lost: half its crew is hit, the larger half of an odd number, the rest flees;
    /// whoever it carried gets out (RULES 13.8, 13.9).
    fn knock_out(&mut self, id: UnitId) {
        let men = self.state.units[id as usize].men;
        let pins = self.table.rules.wreck_pins() as u8;
        self.lose_crew(id, men.div_ceil(2), pins);
        if self.state.units[id as usize].place == Place::Table {
            self.break_unit(id, BreakCause::KnockedOut);
        }
        self.empty_wreck(id, pins);
    }
}
