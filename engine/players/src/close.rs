//! What close assault may be expected to bring.

use ruleshift_game::{Face, Kind, Unit, View};

use crate::forecast::two_dice_reach;
use crate::guns::{MAN, piercing_harm};

/// Inches from a leader within which he is taken to lead.
const LED: u8 = 5;

/// Harm done less harm suffered, times the chance of getting there, in hundredths of a pin.
pub(crate) fn assault_harm(view: &View<'_>, unit: &Unit, enemy: &Unit, caution: i32) -> i32 {
    let cover = view.unit_cover(enemy);
    let stand_off = i32::from(unit.at.range(enemy.at)) - 1 + i32::from(unit.pins) / 2;
    let arrives = two_dice_reach(stand_off);
    if !enemy.armoured()
        && enemy.suppressed(view.rules())
        && view.rules().suppressed_difference(enemy.quality, led(view, enemy)) > 0
    {
        return i32::from(enemy.men) * MAN / 2 * arrives / 36;
    }
    let hits = expected_hits(view, unit, cover.into(), true);
    let suffered = expected_hits(view, enemy, 0, false);
    let harm = if enemy.armoured() {
        let penetration = view.rules().assault_penetration(unit.kind);
        let armour = i32::from(enemy.armour[Face::Flank as usize]);
        hits.min(300) * piercing_harm(view.rules(), penetration, armour, enemy.men.into()) / 100
    } else {
        // A side that is clearly stronger takes the ground and what is left of the enemy.
        let won = if 2 * hits > 3 * suffered { i32::from(enemy.men) * MAN / 3 } else { 0 };
        hits * MAN / 100 + won
    };
    let loss = suffered * MAN / 100 * (2 + caution) / 4;
    (harm - loss) * arrives / 36
}

/// Hits a unit may expect in one round, in hundredths.
fn expected_hits(view: &View<'_>, unit: &Unit, cover: i32, charging: bool) -> i32 {
    let rules = view.rules();
    let mut dice = rules.assault_dice(unit.kind, unit.men.max(1), unit.pins);
    if led(view, unit) {
        dice += rules.assault_led();
    }
    dice * (7 - rules.assault_number(unit.quality, cover, charging)) * 100 / 6
}

fn led(view: &View<'_>, unit: &Unit) -> bool {
    view.own_units().chain(view.enemy_units()).any(|(_, other)| {
        other.side == unit.side && other.kind == Kind::Leader && other.at.range(unit.at) <= LED
    })
}
