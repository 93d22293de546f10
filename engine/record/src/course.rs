//! How games unfold: the margin at the end of each turn.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The margin turn by turn, over all games of an arm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Course {
    /// Name of the arm.
    pub arm: String,
    /// Games that are counted.
    pub games: u32,
    /// From the first turn to the last that any game of any arm came to.
    pub turns: Vec<CourseTurn>,
}

/// The attacker's points less the defender's at the end of a turn, over all games: one that has ended
/// counts with the margin it ended with.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CourseTurn {
    /// The turn, from 1.
    pub turn: u32,
    /// Games in which it was played.
    pub going: u32,
    /// One game in twenty is below.
    pub outer_low: f64,
    /// One game in four is below.
    pub inner_low: f64,
    /// Half of the games are below.
    pub median: f64,
    /// One game in four is above.
    pub inner_high: f64,
    /// One game in twenty is above.
    pub outer_high: f64,
}
