//! The answer to what makes a scenario fair, as data.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Seat;

/// What is asked of a run whose scenarios are one scenario, first as it is, then with each of some
/// choices for a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HandicapPlan {
    /// The side that the choices are for.
    pub side: Seat,
}

/// What is known of a choice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HandicapStanding {
    /// Its whole interval lies within the tolerance.
    Fair,
    /// Its interval lies below the tolerance: the attacker wins too seldom.
    TooSeldom,
    /// Its interval lies above the tolerance: the attacker wins too often.
    TooOften,
    /// More games are needed.
    Open,
}

/// One choice.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HandicapChoice {
    /// The scenario's name with what it adds.
    pub scenario: String,
    /// What it adds; empty for the scenario as it is.
    pub adds: String,
    /// Games played.
    pub games: u64,
    /// Games the attacker won.
    pub wins: u64,
    /// Games nobody won.
    pub draws: u64,
    /// The attacker's share of wins; `None` without games.
    pub share: Option<f64>,
    /// Lower end of its interval; those of all choices hold together with 95 %.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
    /// Where it stands.
    pub standing: HandicapStanding,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HandicapSummary {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// Name of the scenario as it is.
    pub scenario: String,
    /// Its title.
    pub title: String,
    /// The rule stack as typed.
    pub arm: String,
    /// The side that the choices are for.
    pub side: Seat,
    /// The attacker's player.
    pub attacker: String,
    /// The defender's player.
    pub defender: String,
    /// Least share of wins of a fair scenario.
    pub least: f64,
    /// Most share of wins of a fair scenario.
    pub most: f64,
    /// The scenario as it is, then every choice, in the order of the plan.
    pub choices: Vec<HandicapChoice>,
    /// Place of the one among them whose share is nearest to a half; `None` without games.
    pub nearest: Option<usize>,
    /// Seed of the run.
    pub seed: u64,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
}
