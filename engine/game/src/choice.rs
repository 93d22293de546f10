//! What a player may be asked to choose between.

use crate::cell::Cell;
use crate::state::{MarkerId, UnitId};

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
}
