//! What the fire of a battery may be expected to do.

use ruleshift_game::{Cell, Kind, View};

use crate::forecast::Forecast;

/// Inches beyond the pattern within which own troops are not safe.
const MARGIN: u8 = 3;

/// Harm to the enemy less twice the harm to own troops of shells that fall at `at`, in hundredths
/// of a pin; own troops count a little beyond the pattern, for shells go astray.
pub(crate) fn shelling(view: &View<'_>, forecast: &Forecast, at: Cell) -> i32 {
    let rules = view.rules();
    let radius = rules.blast_radius(Kind::Battery) as u8;
    let dice = rules.fire_dice(Kind::Battery, 1, 0);
    let harm = |unit: &ruleshift_game::Unit| {
        if unit.armoured() {
            100
        } else {
            forecast.harm(Kind::Battery, dice, 0, false, view.unit_cover(unit))
        }
    };
    let enemy = view.enemy_units().filter(|(_, unit)| unit.at.range(at) <= radius);
    // A marker may hide a platoon or nothing: it counts as one section, a feature as half of it.
    let suspected = |at: Cell| forecast.harm(Kind::Battery, dice, 0, false, view.cover(at));
    let markers = view.enemy_markers().map(|marker| marker.at);
    let features = view.enemy_features().filter(|(.., searched)| !searched).map(|(_, at, _)| at);
    let within = |place: &Cell| place.range(at) <= radius;
    let hidden = markers.filter(within).map(suspected).sum::<i32>()
        + features.filter(within).map(suspected).sum::<i32>() / 2;
    let own = view.own_units().filter(|(_, unit)| unit.at.range(at) <= radius + MARGIN);
    let near = |place: &Cell| place.range(at) <= radius + MARGIN;
    let own_hidden = view.own_markers().filter(|(_, m)| m.group.is_some()).map(|(_, m)| m.at);
    let harmed = own.map(|(_, unit)| harm(unit)).sum::<i32>()
        + own_hidden.filter(near).map(suspected).sum::<i32>();
    hidden + enemy.map(|(_, unit)| harm(unit)).sum::<i32>() - 2 * harmed
}

/// Harm that a screen at `at` may keep off own troops: what the enemy there can do to those he
/// sees best.
pub(crate) fn screening(view: &View<'_>, forecast: &Forecast, at: Cell) -> i32 {
    let radius = view.rules().smoke_radius() as u8;
    let foes = view.enemy_units().filter(|(_, foe)| foe.at.range(at) <= radius);
    let threat = |foe: &ruleshift_game::Unit| {
        let dice = crate::forecast::dice(view.rules(), foe);
        let seen = view.own_units().filter(|(_, unit)| view.sees(foe.at, unit.at));
        let harm = seen.map(|(_, unit)| {
            let range = foe.at.range(unit.at);
            forecast.harm(foe.kind, dice, range, false, view.unit_cover(unit))
        });
        harm.max().unwrap_or(0)
    };
    foes.map(|(_, foe)| threat(foe)).sum()
}
