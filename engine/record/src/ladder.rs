//! The answer of a ladder as data: who is stronger, by how much, and how sure that is.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::TicketNote;

/// A share of games with its 95 % interval; every scenario counts alike, a draw is half a win.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderShare {
    /// Games played.
    pub games: u64,
    /// The share of them, from 0 to 1.
    pub share: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
}

/// A strength, or an advantage, in log odds with its 95 % interval, and the chances that makes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderStrength {
    /// Log odds of a win; 0 is even.
    pub strength: f64,
    /// Lower end of its interval.
    pub low: f64,
    /// Upper end of its interval.
    pub high: f64,
    /// The chance of a win at those odds: against the reference where no side has an advantage, or
    /// of the attacker against his equal.
    pub chance: f64,
    /// Lower end of its interval.
    pub chance_low: f64,
    /// Upper end of its interval.
    pub chance_high: f64,
}

/// One player of the ladder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderPlayer {
    /// Name of the player.
    pub name: String,
    /// Share of all games won against others; `None` when none was played.
    pub wins: Option<LadderShare>,
    /// The same as attacker.
    pub attacking: Option<LadderShare>,
    /// The same as defender.
    pub defending: Option<LadderShare>,
    /// Strength against the reference, whose own is 0 without doubt; `None` when the games do not
    /// tell.
    pub strength: Option<LadderStrength>,
    /// First place that the player may hold: one more than the players who are surely stronger.
    pub place: u32,
    /// Last place that the player may hold: the number of players less those surely weaker.
    pub place_last: u32,
}

/// All games of one attacker against one defender.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderPairing {
    /// Name of the attacker.
    pub attacker: String,
    /// Name of the defender.
    pub defender: String,
    /// Games the attacker won.
    pub wins: u64,
    /// Games nobody won.
    pub draws: u64,
    /// Games the defender won.
    pub losses: u64,
    /// The attacker's share.
    pub share: LadderShare,
    /// The attacker's share as his strength, the defender's and the side foresee it; `None` without
    /// strengths.
    pub foreseen: Option<f64>,
}

/// Two players over both sides: once for each order, so that a reader finds either.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderRivals {
    /// Name of the player.
    pub player: String,
    /// Name of the other.
    pub other: String,
    /// The player's share against the other.
    pub share: LadderShare,
    /// How the player's share differs between scenarios; `None` with fewer than two.
    pub scenarios: Option<LadderSpread>,
}

/// How much a share depends on the scenario.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderSpread {
    /// Cochran's Q of the shares.
    pub q: f64,
    /// Its degrees of freedom.
    pub df: f64,
    /// P-value of "the same in every scenario", by Holm's method over all pairs of players.
    pub p_adjusted: f64,
    /// The scenario with the smallest share, and that share.
    pub least: (String, f64),
    /// The scenario with the largest share, and that share.
    pub most: (String, f64),
}

/// What happened in one scenario.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderScenario {
    /// Scenario name.
    pub name: String,
    /// The attacker's share over all pairings of different players.
    pub attacker: Option<LadderShare>,
    /// Each player's share against all others, in the order of the ladder.
    pub players: Vec<Option<LadderShare>>,
}

/// Whether one strength for each player and one advantage for the side tell all there is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderFit {
    /// Deviance of the pairings from what strengths foresee.
    pub deviance: f64,
    /// Its degrees of freedom.
    pub df: u32,
    /// P-value of "strengths tell all", as if every game had luck of its own.
    pub p: f64,
    /// Drawn games added to each pairing, because somebody won or lost everything; else 0.
    pub added: u32,
}

/// The whole answer of a ladder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LadderSummary {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The rule stack as typed.
    pub arm: String,
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// The players, the strongest first.
    pub players: Vec<LadderPlayer>,
    /// Name of the player whose strength is 0.
    pub reference: String,
    /// The attacker's advantage between equals; `None` when the games do not tell.
    pub advantage: Option<LadderStrength>,
    /// The attacker's share of all games between different players.
    pub attacker: Option<LadderShare>,
    /// Every two players, in the order of the ladder.
    pub rivals: Vec<LadderRivals>,
    /// Every pairing that was played, in the order of the ladder.
    pub pairings: Vec<LadderPairing>,
    /// The scenarios.
    pub scenarios: Vec<LadderScenario>,
    /// How well the strengths tell the results; `None` without strengths.
    pub fit: Option<LadderFit>,
    /// Seed of the run.
    pub seed: u64,
    /// Games planned for each attacker against each defender.
    pub games_per_pairing: u32,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
    /// Games worth a look.
    pub tickets: Vec<TicketNote>,
}
