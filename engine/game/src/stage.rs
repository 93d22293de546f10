//! What is going on in a game, so that a copied state can go on from any moment.

use crate::choice::Heading;
use crate::kinds::Side;
use crate::script::Offer;
use crate::state::{BatteryId, GroupId, MarkerId, UnitId};

/// The step of the turn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stage {
    /// Before the first turn.
    #[default]
    Start,
    /// Cards are drawn.
    Cards,
    /// Late fire, one side after the other.
    LateFire {
        /// The side that fires now.
        side: Side,
        /// The next unit to ask.
        unit: UnitId,
        /// Whether this is the second side.
        second: bool,
    },
    /// Everything else at turn end.
    TurnEnd,
    /// The game has ended.
    Over,
}

/// Who is moving.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mover {
    /// A unit.
    Unit(UnitId),
    /// A marker.
    Marker(MarkerId),
}

/// A move whose dice are rolled and whose end is not chosen yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Moving {
    /// Who moves.
    pub mover: Mover,
    /// Where to.
    pub heading: Heading,
    /// Inches the roll allows.
    pub inches: u8,
    /// Squares along the path that are within reach.
    pub steps: u8,
}

/// An enemy has moved, and units that hold their fire may fire at it (RULES 17.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reaction {
    /// The unit that moved.
    pub target: UnitId,
    /// The next unit to ask.
    pub unit: UnitId,
}

/// A card asks a side to choose (RULES 18.3).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The card, by number over the whole rule stack.
    pub card: u8,
    /// The side the card is for.
    pub owner: Option<Side>,
    /// The side that chooses.
    pub side: Side,
    /// What between.
    pub offer: Offer,
}

/// What is going on, outermost first; an inner entry that is set comes before an outer one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Doing {
    /// The step of the turn.
    pub stage: Stage,
    /// Side whose marker card is being played.
    pub marker_card: Option<Side>,
    /// Group whose units act, each once.
    pub group: Option<GroupId>,
    /// Marker that acts.
    pub marker: Option<MarkerId>,
    /// Leader who gives orders, and orders left.
    pub leader: Option<(UnitId, u8)>,
    /// Unit that acts.
    pub unit: Option<UnitId>,
    /// Move under way.
    pub moving: Option<Moving>,
    /// Battery whose card was drawn.
    pub battery: Option<BatteryId>,
    /// What a card asks.
    pub asked: Option<Asked>,
    /// Fire held until now.
    pub reaction: Option<Reaction>,
    /// Groups whose units are to be placed, one bit each.
    pub placing: u32,
}
