//! What a script adds to the game: cards of its own and counters.

use serde::Serialize;

/// A card of a script's own. Its constant in the script stands for its place among them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CardSpec {
    /// Name; its constant in the script is the same in large letters.
    pub name: String,
    /// What is printed on it.
    pub title: String,
    /// What it does; may be empty.
    pub about: String,
}

/// A number that a script keeps from one call to the next, part of the game's state.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CounterSpec {
    /// Name; its constant in the script is the same in large letters.
    pub name: String,
    /// What it counts.
    pub about: String,
}
