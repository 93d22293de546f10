//! What a player may be asked to choose between.

use crate::cell::Cell;
use crate::state::{BatteryId, MarkerId, UnitId};

/// Where a move goes. The dice say how far, the player where along the way to stop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heading {
    /// Straight on: 0 is to the right, then by eighths of a turn towards the far edge.
    Straight(u8),
    /// The shortest way to that objective.
    Objective(u8),
}

/// One choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Do no more with this card, group, unit, marker or leader.
    Done,
    /// Act with this unit next.
    PickUnit(UnitId),
    /// Act with this marker next.
    PickMarker(MarkerId),
    /// Move.
    Move(Heading),
    /// Stop the move after so many squares.
    Stop(u8),
    /// Place the unit asked about here.
    PlaceAt(Cell),
    /// Replace the marker by its troops.
    OpenFire,
    /// Try to spot that marker.
    Spot(MarkerId),
    /// Fire at that unit.
    Fire(UnitId),
    /// Take pins off.
    Rally,
    /// A leader orders that unit to rally.
    OrderRally(UnitId),
    /// A leader orders that unit to take one more action.
    OrderAction(UnitId),
    /// Turn to face that way, by eighths of a turn.
    Turn(u8),
    /// Go for that enemy unit with grenades and bayonet.
    Assault(UnitId),
    /// Dig.
    DigIn,
    /// Get into that vehicle, or be hooked to it.
    Mount(UnitId),
    /// Get out, to the square that way.
    Dismount(u8),
    /// Call that battery's fire.
    Call {
        /// The battery.
        battery: BatteryId,
        /// Where to.
        at: Cell,
        /// Whether it is to be smoke.
        smoke: bool,
    },
    /// The battery whose card was drawn fires.
    FireBattery,
    /// Correct that battery's fire.
    Adjust(BatteryId),
    /// Look for troops in that feature of the enemy.
    Search(u8),
    /// Leave the table.
    Leave,
    /// Hold fire for the enemy's activations.
    HoldFire,
    /// Take this of what a card offers: a unit, or an option from 1.
    Answer(u8),
}
