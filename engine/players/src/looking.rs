//! What spotting, rallying, orders and giving up a marker are worth.

use ruleshift_game::{Cell, Unit};

use crate::forecast::two_dice_reach;
use crate::utility::Judge;

impl Judge<'_> {
    pub(crate) fn spotting(&self, marker: u8) -> i32 {
        let rules = self.view.rules();
        let Some(seen) = self.view.enemy_markers().find(|m| m.id == marker) else { return 0 };
        let Some(from) = self.looking_from() else { return 0 };
        let band = rules.spot_band(from.range(seen.at));
        let needed = rules.spotting_number(band, self.view.cover(seen.at), seen.moved);
        self.weights.spot * two_dice_reach(needed) / 36
    }

    pub(crate) fn searching(&self, feature: u8) -> i32 {
        let rules = self.view.rules();
        let place = self.view.enemy_features().find(|(n, ..)| *n == feature);
        let (Some((_, at, _)), Some(from)) = (place, self.looking_from()) else { return 0 };
        let needed = rules.search_number(rules.spot_band(from.range(at)), self.view.cover(at));
        self.weights.spot * two_dice_reach(needed) / 36 / 3
    }

    pub(crate) fn looking_from(&self) -> Option<Cell> {
        let doing = self.view.doing();
        match (doing.unit, doing.marker) {
            (Some(id), _) => self.view.unit(id).map(|unit| unit.at),
            (None, Some(id)) => self.view.own_marker(id).map(|m| m.at),
            (None, None) => None,
        }
    }

    pub(crate) fn rally(&self, unit: &Unit, grade: i32) -> i32 {
        let rules = self.view.rules();
        let pins = rules.rally_amount(grade, unit.quality).min(unit.pins.into());
        let urgent = if unit.suppressed(rules) { 2 } else { 1 };
        pins * self.weights.rally * urgent * i32::from(unit.pins.min(4)) / 4
    }

    pub(crate) fn ordered(&self, unit: &Unit) -> i32 {
        let shots = self.view.enemy_units().filter(|(_, foe)| self.view.sees(unit.at, foe.at));
        let harm = shots.map(|(_, foe)| self.harm(unit, foe)).max().unwrap_or(0);
        let advance = if unit.kind.is_section() { self.weights.advance } else { 0 };
        (harm * self.weights.shoot / 25).max(advance)
    }

    pub(crate) fn opening(&self) -> i32 {
        let best = self.ground.best_shot(0);
        if best > self.weights.open_fire { best * self.weights.shoot / 25 + 20 } else { -1 }
    }
}
