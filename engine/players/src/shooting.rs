//! What fire, turning to fire, close assault and batteries are worth.

use ruleshift_game::cell::turns_between;
use ruleshift_game::{Cell, Unit};

use crate::batteries::{screening, shelling};
use crate::close::assault_harm;
use crate::forecast::dice;
use crate::guns::{Mark, Piece, gun_harm};
use crate::utility::{Judge, MOVE_COST};

impl Judge<'_> {
    /// Harm a shot may be expected to do, weighted.
    pub(crate) fn shot(&self, target: u8) -> i32 {
        let (Some(unit), Some(target)) = (self.acting(), self.view.unit(target)) else { return 0 };
        if target.armoured() {
            return 1 + self.gun_shot(unit, target) * self.weights.shoot / 25;
        }
        let late = self.view.doing().unit.is_none();
        let mut rolled = dice(self.view.rules(), unit);
        if late {
            rolled = self.view.rules().late_fire_dice(rolled.min(24));
        }
        let range = unit.at.range(target.at);
        let harm =
            self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.unit_cover(target));
        let suppressed = if target.suppressed(self.view.rules()) { 6 } else { 8 };
        1 + harm * self.weights.shoot / 25 * suppressed / 8
    }

    /// Harm a gun may be expected to do to armour.
    pub(crate) fn gun_shot(&self, unit: &Unit, target: &Unit) -> i32 {
        let piece = |gun| Piece { kind: unit.kind, gun, at: unit.at, moved: unit.moved };
        unit.gun.map_or(0, |gun| gun_harm(self.view, piece(gun), Mark::of(target)))
    }

    /// Harm that a shot of a unit may be expected to do to an enemy.
    pub(crate) fn harm(&self, unit: &Unit, foe: &Unit) -> i32 {
        if foe.armoured() {
            return self.gun_shot(unit, foe);
        }
        let (rolled, range) = (dice(self.view.rules(), unit), unit.at.range(foe.at));
        self.forecast.harm(unit.kind, rolled, range, unit.moved, self.view.unit_cover(foe))
    }

    /// What going for an enemy hand to hand is worth.
    pub(crate) fn assaulting(&self, target: u8) -> i32 {
        let (Some(unit), Some(enemy)) = (self.acting(), self.view.unit(target)) else { return 0 };
        let harm = assault_harm(self.view, unit, enemy, self.weights.caution);
        harm * self.weights.shoot / 25 * self.weights.assault / 10
    }

    /// What turning is worth: the better shot it gives, and the better armour it shows to guns.
    pub(crate) fn turning(&self, way: u8) -> i32 {
        let Some(unit) = self.acting() else { return 0 };
        let arc = self.view.rules().fire_arc(unit.kind);
        let seen = || self.view.enemy_units().filter(|(_, foe)| self.view.sees(unit.at, foe.at));
        let best_shot = |facing: u8| {
            let bears =
                |foe: &Unit| i32::from(turns_between(facing, unit.at.way_to(foe.at))) <= arc;
            let shots = seen().filter(|(_, foe)| bears(foe)).map(|(_, foe)| self.harm(unit, foe));
            shots.max().unwrap_or(0)
        };
        let risk = |facing: u8| {
            let mark = Mark { facing, ..Mark::of(unit) };
            let threat = |foe: &Unit| {
                let piece = |gun| Piece { kind: foe.kind, gun, at: foe.at, moved: false };
                foe.gun.map_or(0, |gun| gun_harm(self.view, piece(gun), mark))
            };
            seen().map(|(_, foe)| threat(foe)).sum::<i32>()
        };
        let shot =
            if arc < 4 && unit.shots > 0 { best_shot(way) - best_shot(unit.facing) } else { 0 };
        let safety = if unit.armoured() { risk(unit.facing) - risk(way) } else { 0 };
        shot * self.weights.shoot / 50 + safety * self.weights.caution / 50 - MOVE_COST
    }

    /// What calling a battery is worth: shells by their harm, smoke by what it hides.
    pub(crate) fn calling(&self, at: Cell, smoke: bool) -> i32 {
        if smoke {
            return screening(self.view, self.forecast, at) * self.weights.caution / 50;
        }
        shelling(self.view, self.forecast, at) * self.weights.shoot / 40
    }

    /// Whether the shells would do more harm than good by now.
    pub(crate) fn battery_firing(&self) -> i32 {
        let id = self.view.doing().battery;
        let call = id.and_then(|id| self.view.own_battery(id)).and_then(|battery| battery.call);
        call.map_or(
            0,
            |call| {
                if call.smoke { 1 } else { shelling(self.view, self.forecast, call.at) }
            },
        )
    }

    /// What correcting a battery is worth: less with each correction.
    pub(crate) fn adjusting(&self, battery: u8) -> i32 {
        let call = self.view.own_battery(battery).and_then(|battery| battery.call);
        call.map_or(0, |call| {
            let worth = shelling(self.view, self.forecast, call.at) * self.weights.shoot / 40;
            worth >> (1 + call.adjusted)
        })
    }
}
