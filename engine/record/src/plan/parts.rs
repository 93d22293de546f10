//! What a plan is made of: arms, players, scenarios, probes.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::brief::brief;

brief! {
    VariantRef "a variant" { digest };
    Arm "an arm" { title, summary, stack, pairings, probe };
    PlayerRef "a player" { digest };
    PlanScenario "a scenario" { title, digest };
}

/// One variant as named in a stack.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct VariantRef {
    /// Shipped name or path, as the user gave it.
    pub name: String,
    /// Digest of what the variant does, 8 hexadecimal digits; empty when it is not said.
    #[serde(default)]
    pub digest: String,
}

/// One arm: a rule stack to play under. The first arm of a plan is the reference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct Arm {
    /// The stack as a user types it, variants joined with `+`; `base` for none.
    pub name: String,
    /// Title of the arm for a reader.
    #[serde(default)]
    pub title: String,
    /// What the arm changes, in one or two sentences; empty for the base rules.
    #[serde(default)]
    pub summary: String,
    /// The variants, in the order in which they change the rules; where none are written, those that
    /// the name says.
    #[serde(default)]
    pub stack: Vec<VariantRef>,
    /// Players of this arm alone, one for each pairing of the plan; none for those of the plan.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pairings: Vec<Pairing>,
    /// What the arm is played for, when it is no rule stack to compare.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub probe: Option<Probe>,
}

/// One player as named in a plan or a ticket.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct PlayerRef {
    /// What the user typed: a name or a path, with its options.
    pub name: String,
    /// Digest of how the player plays, 8 hexadecimal digits; empty when unknown.
    #[serde(default)]
    pub digest: String,
}

/// Who plays which side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pairing {
    /// The attacker's player.
    pub attacker: PlayerRef,
    /// The defender's player.
    pub defender: PlayerRef,
}

/// A side of a game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Seat {
    /// The attacker.
    Attacker,
    /// The defender.
    Defender,
}

impl Seat {
    /// Both, the attacker first.
    pub const ALL: [Seat; 2] = [Seat::Attacker, Seat::Defender];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Seat::Attacker => "attacker",
            Seat::Defender => "defender",
        }
    }
}

/// What an arm is played for besides the comparison: to see what a behaviour is worth.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Probe {
    /// The arm, by its place, that is the same but for the behaviour.
    pub of: usize,
    /// The side that must do without it.
    pub side: Seat,
    /// The behaviour.
    pub without: String,
    /// Games of this arm over all scenarios: the first of each, not more than a compared arm has.
    pub games: u32,
}

/// A behaviour that a side must do without in every arm.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Restriction {
    /// The side.
    pub side: Seat,
    /// The behaviour.
    pub without: String,
}

/// One scenario of a plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self", deny_unknown_fields)]
pub struct PlanScenario {
    /// Shipped name or path, as the user gave it.
    pub name: String,
    /// Title for a reader.
    #[serde(default)]
    pub title: String,
    /// Digest of the scenario's content, 8 hexadecimal digits; empty when it is not said.
    #[serde(default)]
    pub digest: String,
}
