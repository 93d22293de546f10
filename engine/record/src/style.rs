//! What a summary says of players: style, skill, and what each behaviour is worth.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Seat, Verdict};

/// The shift of one metric with one pairing of players.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PairingShift {
    /// The attacker's player.
    pub attacker: String,
    /// The defender's player.
    pub defender: String,
    /// Pairs of games.
    pub pairs: u32,
    /// Mean under the reference arm.
    pub reference_mean: f64,
    /// Mean under the arm.
    pub mean: f64,
    /// Mean paired shift.
    pub shift: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
}

/// Whether the shift of one metric is the same whoever plays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlayerDependence {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// Cochran's Q over the pairings whose shift has any spread.
    pub q: f64,
    /// Its degrees of freedom; 0 when fewer than two have.
    pub df: f64,
    /// Share of what the shifts differ by that is not chance, from 0 to 1.
    pub i2: f64,
    /// P-value of "the same with every pairing".
    pub p: f64,
    /// The p-value after Holm's adjustment over all that are tested so.
    pub p_adjusted: f64,
    /// The shift in the games without each player; none without a roster.
    pub without: Vec<WithoutPlayer>,
}

/// The shift of one metric in the games in which one player had no part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WithoutPlayer {
    /// The player left out.
    pub player: String,
    /// Pairs of games that are left.
    pub pairs: u32,
    /// Mean paired shift over them.
    pub shift: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// P-value of "the same in games with and without that player", after Holm's adjustment over
    /// all players, metrics and arms.
    pub p_adjusted: f64,
    /// Whether a clear shift hangs on that player: without it nothing worth noticing is shown, or
    /// the opposite, and that is not chance.
    pub hangs: bool,
}

/// How often the stronger of two players wins, a draw for half.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SkillEdge {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// The players, the strongest first, by games that are not counted here.
    pub order: Vec<String>,
    /// Pairs of games counted.
    pub pairs: u32,
    /// The stronger player's share of wins under the reference arm.
    pub reference: f64,
    /// Lower end of its 95 % interval.
    pub reference_low: f64,
    /// Upper end of its 95 % interval.
    pub reference_high: f64,
    /// The stronger player's share of wins under the arm.
    pub share: f64,
    /// Lower end of its 95 % interval.
    pub share_low: f64,
    /// Upper end of its 95 % interval.
    pub share_high: f64,
    /// Mean paired shift.
    pub shift: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// Two-sided p-value of "no shift".
    pub p: f64,
    /// The p-value after Holm's adjustment over the arms.
    pub p_adjusted: f64,
    /// The smallest shift worth noticing.
    pub notice: f64,
    /// The word for it.
    pub verdict: Verdict,
}

/// What a side's share of wins, a draw for half, loses when it must do without a behaviour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Importance {
    /// Name of the arm.
    pub arm: String,
    /// The side.
    pub side: Seat,
    /// The behaviour.
    pub behaviour: String,
    /// Pairs of games, with and without it.
    pub pairs: u32,
    /// Pairs that differ in anything; with none the behaviour never occurs.
    pub differing: u32,
    /// The side's share of wins with the behaviour.
    pub with: f64,
    /// The side's share of wins without it.
    pub without: f64,
    /// What it is worth: the mean paired difference of the two.
    pub value: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// Two-sided p-value of "worth nothing".
    pub p: f64,
    /// The p-value after Holm's adjustment over all behaviours that occur.
    pub p_adjusted: f64,
    /// How much more it is worth than under the reference arm; none for that arm itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shift: Option<ImportanceShift>,
}

/// The shift of an importance between the reference arm and another.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ImportanceShift {
    /// Games of one number that were played in all four arms.
    pub games: u32,
    /// Mean difference of the paired differences.
    pub shift: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// Two-sided p-value of "worth the same".
    pub p: f64,
    /// The p-value after Holm's adjustment over all behaviours that occur.
    pub p_adjusted: f64,
}
