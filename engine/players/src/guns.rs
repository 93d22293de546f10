//! What guns may be expected to do to armour.

use ruleshift_game::cell::turns_between;
use ruleshift_game::{Cell, Face, Kind, Rules, Unit, View};

use crate::forecast::two_dice_reach;

/// Harm of losing a vehicle, in hundredths of a pin, besides its crew.
const VEHICLE: i32 = 1000;
/// Harm of losing one man.
pub(crate) const MAN: i32 = 300;

/// A gun and where it is.
#[derive(Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) kind: Kind,
    pub(crate) gun: u8,
    pub(crate) at: Cell,
    pub(crate) moved: bool,
}

/// An armoured vehicle to be shot at.
#[derive(Clone, Copy)]
pub(crate) struct Mark {
    pub(crate) armour: [u8; Face::ALL.len()],
    pub(crate) men: i32,
    pub(crate) at: Cell,
    pub(crate) facing: u8,
    pub(crate) moved: bool,
}

impl Mark {
    pub(crate) fn of(unit: &Unit) -> Mark {
        Mark {
            armour: unit.armour,
            men: unit.men.into(),
            at: unit.at,
            facing: unit.facing,
            moved: unit.moved,
        }
    }
}

/// Harm that one shot may be expected to do, in hundredths of a pin.
pub(crate) fn gun_harm(view: &View<'_>, piece: Piece, mark: Mark) -> i32 {
    let rules = view.rules();
    let range = piece.at.range(mark.at);
    let band = rules.range_band(piece.kind, range);
    if band == 3 {
        return 0;
    }
    let hit = rules.gun_hit_number(band, view.cover(mark.at), piece.moved, mark.moved);
    let face = rules.face_struck(turns_between(mark.facing, mark.at.way_to(piece.at)));
    let armour = i32::from(mark.armour[face as usize]);
    two_dice_reach(hit) * piercing_harm(rules, view.penetration(piece.gun, range), armour, mark.men)
        / 36
}

/// Harm of a blow that strikes armour.
pub(crate) fn piercing_harm(rules: &Rules, penetration: i32, armour: i32, men: i32) -> i32 {
    let needed = rules.penetration_number((penetration - armour).clamp(-300, 300));
    let through = two_dice_reach(needed);
    let glancing = rules.glancing_pins() * 100;
    (through * (VEHICLE + men * MAN) * 2 / 3 + (36 - through) * glancing) / 36
}
