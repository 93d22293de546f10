//! What the engine asks of the event hooks of a rule stack, and what they may answer.

use std::fmt;

use crate::deck::Card;
use crate::handle::Handle;
use crate::happening::Happening;
use crate::kinds::Side;

/// A fault of a rule stack at play time: the game cannot go on under it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What went wrong and where, for a reader; may span lines.
    pub message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Fault {}

/// The event hooks of a rule stack. One value serves one worker; it keeps nothing from one game
/// for the next.
pub trait EventScript {
    /// A game begins: whatever it may use up in one game is whole again.
    fn begin(&mut self) {}

    /// Whether any variant of the stack has the hook with that place in [`crate::EVENT_HOOKS`].
    fn listens(&self, index: usize) -> bool;

    /// Runs the hooks for `happening`, which act through `handle`.
    ///
    /// # Errors
    /// A fault of the script, among them any illegal act.
    fn call(&mut self, happening: Happening, handle: &mut Handle) -> Result<(), Fault>;
}

/// What a card asks a side to choose between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Offer {
    /// One of these units of its, one bit each.
    Units(u128),
    /// A number from 1 to this one.
    Options(u8),
}

/// Something an event hook did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// Put pins on a unit.
    AddPins {
        /// The unit.
        unit: u8,
        /// How many.
        pins: u8,
    },
    /// Took pins off a unit.
    RemovePins {
        /// The unit.
        unit: u8,
        /// How many.
        pins: u8,
    },
    /// Gave a unit actions, or took them.
    Actions {
        /// The unit.
        unit: u8,
        /// How many; below 0 for taken.
        by: i8,
    },
    /// Took men from a unit, or brought some back.
    Men {
        /// The unit.
        unit: u8,
        /// How many; below 0 for lost.
        by: i8,
    },
    /// Gave a side points, or took them.
    Points {
        /// The side.
        side: Side,
        /// How many; below 0 for taken.
        by: i16,
    },
    /// Put a card into the deck of this turn.
    AddCard(Card),
    /// Took a card out of the deck of this turn.
    RemoveCard(Card),
    /// The card just drawn has no effect.
    SkipCard,
    /// The card just drawn goes back among those that are left.
    PutBack,
    /// No further card is drawn this turn.
    EndTurn,
    /// A reserve comes.
    BringReserve {
        /// The group.
        group: u8,
    },
    /// Nothing is seen beyond this for the rest of the turn.
    LimitSight {
        /// Distance in inches.
        inches: u8,
    },
    /// Set a counter of the script.
    SetCounter {
        /// The counter, counted over the whole stack.
        counter: u8,
        /// Its value.
        value: i16,
    },
    /// Asked a side to choose.
    Ask {
        /// The side.
        side: Side,
        /// What between.
        offer: Offer,
    },
    /// Rolled a die.
    Roll(u8),
    /// Noted a line in the game's log.
    Note(String),
}

/// An act or question that the handle refuses: what was wrong, in words for the script's author.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Illegal(pub String);
