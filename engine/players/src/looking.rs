//! What spotting, rallying, orders and giving up a marker are worth.

use ruleshift_game::{Cell, Kind, Unit};

use crate::forecast::two_dice_reach;
use crate::ground::Stander;
use crate::utility::Judge;

/// Times the harm that others want to do, before an anti-tank gun shows itself.
const GUN_PATIENCE: i32 = 3;

/// Taking an objective with troops that showed themselves for it.
const TAKE: i32 = 400;

impl Judge<'_> {
    /// What trying to spot a marker is worth.
    pub(crate) fn spotting(&self, marker: u8) -> i32 {
        let rules = self.view.rules();
        let Some(seen) = self.view.enemy_markers().find(|m| m.id == marker) else { return 0 };
        let Some(from) = self.looking_from() else { return 0 };
        let band = rules.spot_band(from.range(seen.at));
        let needed = rules.spotting_number(band, self.view.cover(seen.at), seen.moved);
        self.weights.spot * two_dice_reach(needed) / 36
    }

    /// A feature may as well be empty: a third of what a marker is worth.
    pub(crate) fn searching(&self, feature: u8) -> i32 {
        let rules = self.view.rules();
        let place = self.view.enemy_features().find(|(n, ..)| *n == feature);
        let (Some((_, at, _)), Some(from)) = (place, self.looking_from()) else { return 0 };
        let needed = rules.search_number(rules.spot_band(from.range(at)), self.view.cover(at));
        self.weights.spot * two_dice_reach(needed) / 36 / 3
    }

    /// The square of whoever looks.
    pub(crate) fn looking_from(&self) -> Option<Cell> {
        let doing = self.view.doing();
        match (doing.unit, doing.marker) {
            (Some(id), _) => self.view.unit(id).map(|unit| unit.at),
            (None, Some(id)) => self.view.own_marker(id).map(|m| m.at),
            (None, None) => None,
        }
    }

    /// What taking pins off a unit is worth: more when it is suppressed.
    pub(crate) fn rally(&self, unit: &Unit, grade: i32) -> i32 {
        let rules = self.view.rules();
        self.relief(unit, rules.rally_amount(grade, unit.quality).min(unit.pins.into()))
    }

    /// What having so many pins less is worth to a unit.
    pub(crate) fn relief(&self, unit: &Unit, pins: i32) -> i32 {
        let urgent = if unit.suppressed(self.view.rules()) { 2 } else { 1 };
        pins * self.weights.rally * urgent * i32::from(unit.pins.min(4)) / 4
    }

    /// What one more action of a unit is worth: its best shot, or the way it could go.
    pub(crate) fn ordered(&self, unit: &Unit) -> i32 {
        let shots = self.view.enemy_units().filter(|(_, foe)| self.view.sees(unit.at, foe.at));
        let harm = shots.map(|(_, foe)| self.harm(unit, foe)).max().unwrap_or(0);
        let advance = if unit.kind.is_section() { self.weights.advance } else { 0 };
        (harm * self.weights.shoot / 25).max(advance)
    }

    /// Whether the marker that acts stands where its troops would take an objective: hidden troops
    /// hold nothing.
    fn stands_on_objective(&self) -> bool {
        let marker = self.view.doing().marker.and_then(|id| self.view.own_marker(id));
        let Some(marker) = marker else { return false };
        let reach = self.view.rules().holding_distance() as u8;
        let mut objectives = self.view.objectives().iter().zip(self.view.holders());
        objectives.any(|(objective, holder)| {
            objective.at.range(marker.at) <= reach && *holder != Some(self.view.side())
        })
    }

    /// Whether the harm its troops could do is worth giving up the marker. An anti-tank gun waits for
    /// something better than men.
    pub(crate) fn opening(&self, stander: Stander) -> i32 {
        if self.stands_on_objective() {
            return TAKE;
        }
        let best = self.ground.best_shot(0);
        let patience = if stander.kind == Kind::AntiTankGun { GUN_PATIENCE } else { 1 };
        if best > self.weights.open_fire * patience {
            best * self.weights.shoot / 25 + 20
        } else {
            -1
        }
    }
}
