//! Who wins, where and with whom.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The attacker's wins among some games of an arm: all of them, those of one scenario, or those of one
/// pairing of players.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Balance {
    /// Name of the arm.
    pub arm: String,
    /// The scenario; none over all of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scenario: Option<String>,
    /// Attacker and defender; none over all pairings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub players: Option<(String, String)>,
    /// Games played.
    pub games: u32,
    /// Games that the attacker won.
    pub wins: u32,
    /// Games without a winner.
    pub drawn: u32,
    /// Wins over games.
    pub share: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
}
