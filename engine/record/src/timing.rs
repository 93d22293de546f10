//! The timing table: how long things take people at a table.

use serde::{Deserialize, Serialize};

/// Seconds people need for each kind of thing that happens in a game.
///
/// The defaults are common practice, not measurement: they put an activation of a platoon at one
/// to three minutes, the range organisers give for an evening of six to ten turns.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Timing {
    /// Per turn: gathering and shuffling the deck, recovery, scoring.
    pub turn: f64,
    /// Per card drawn: turning it over and finding who it is for.
    pub card: f64,
    /// Per action taken by a unit or a marker: measuring and moving figures.
    pub action: f64,
    /// Per throw of any number of dice together, with reading it.
    pub throw: f64,
    /// Per choice put to a player.
    pub decision: f64,
}

impl Default for Timing {
    fn default() -> Self {
        Timing { turn: 120.0, card: 15.0, action: 20.0, throw: 12.0, decision: 5.0 }
    }
}
