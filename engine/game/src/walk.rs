//! Questions about the state that moving, fire and players share: who sees, who is in the way.

use crate::arena::Arena;
use crate::cell::Cell;
use crate::kinds::{Cover, Kind, Side};
use crate::limits::MAX_RANGE;
use crate::paths::Gait;
use crate::stage::Mover;
use crate::state::{Place, State, Unit, UnitId};

/// What moving needs to know of a mover.
#[derive(Clone, Copy)]
pub(crate) struct Walker {
    pub(crate) at: Cell,
    pub(crate) side: Side,
    pub(crate) gait: Gait,
}

impl State {
    pub(crate) fn mover(&self, mover: Mover) -> Walker {
        match mover {
            Mover::Unit(id) => {
                let unit = &self.units[id as usize];
                Walker { at: unit.at, side: unit.side, gait: Gait::of(unit.kind) }
            }
            Mover::Marker(id) => {
                let marker = &self.markers[id as usize];
                Walker { at: marker.at, side: marker.side, gait: Gait::Marker }
            }
        }
    }

    /// Whether one square is seen from another: nothing on the ground, no smoke and no dusk
    /// between them (RULES 3.4, 14.8, 17.4).
    #[inline]
    pub fn sees(&self, arena: &Arena, from: Cell, to: Cell) -> bool {
        arena.sight().sees(from, to) && self.clear(from, to)
    }

    /// Whether neither smoke nor dusk lies between two squares.
    #[inline]
    pub fn clear(&self, from: Cell, to: Cell) -> bool {
        let range = from.range(to);
        range <= self.sight_limit
            && (self.screen_count == 0 || range <= 1 || !self.screened(from, to))
    }

    /// Whether there is neither smoke nor dusk.
    #[inline]
    pub fn clear_everywhere(&self) -> bool {
        self.sight_limit >= MAX_RANGE && self.screen_count == 0
    }

    /// The cover a unit has (RULES 3.3, 16.1).
    #[inline]
    pub fn cover(&self, arena: &Arena, unit: &Unit) -> Cover {
        if unit.dug_in { Cover::DugIn } else { arena.cover(unit.at) }
    }

    fn screened(&self, from: Cell, to: Cell) -> bool {
        let radius = self.screen_radius;
        self.screens().iter().any(|screen| from.line_passes(to, screen.at, radius))
    }

    /// Whether a unit may stop in a square as far as others are concerned (RULES 1.6).
    pub(crate) fn free(&self, mover: UnitId, cell: Cell) -> bool {
        self.on_table()
            .all(|(id, unit)| id == mover || unit.at != cell || unit.kind == Kind::Leader)
    }

    /// Whether a unit of the other side is within `distance` inches of a square.
    pub(crate) fn enemy_within(&self, side: Side, cell: Cell, distance: u8) -> bool {
        self.on_table().any(|(_, unit)| unit.side != side && unit.at.range(cell) <= distance)
    }

    /// Men that a vehicle carries.
    pub(crate) fn load(&self, vehicle: UnitId) -> u8 {
        let aboard = self
            .units()
            .iter()
            .filter(|unit| unit.place == Place::Carried && unit.carrier == Some(vehicle));
        aboard.map(|unit| unit.men).sum()
    }
}
