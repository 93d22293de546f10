//! The answer of a comparison as data: what `summary.json` holds.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{
    ArmFault, Balance, Closer, Course, Importance, PairingShift, PlayerDependence, Restriction,
    SkillEdge,
};

/// The word for what a comparison found about one metric.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Verdict {
    /// The shift is not zero, and may be as large as a player would notice.
    #[serde(rename = "clear shift")]
    ClearShift,
    /// The shift is not zero, but smaller than a player would notice.
    #[serde(rename = "shift too small to notice")]
    TooSmall,
    /// Zero is possible, and nothing a player would notice is.
    #[serde(rename = "no difference worth noticing")]
    NoDifference,
    /// More games are needed.
    #[serde(rename = "undecided")]
    Undecided,
}

impl Verdict {
    /// The word as printed everywhere.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::ClearShift => "clear shift",
            Verdict::TooSmall => "shift too small to notice",
            Verdict::NoDifference => "no difference worth noticing",
            Verdict::Undecided => "undecided",
        }
    }
}

/// The shift of one metric within one scenario.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ScenarioShift {
    /// Scenario name.
    pub scenario: String,
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

/// The shift of one metric between the reference arm and one other arm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MetricShift {
    /// Metric name.
    pub metric: String,
    /// Its unit, in which means and shifts are given; a `share` runs from 0 to 1.
    pub unit: String,
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Whether the metric is in the headline family.
    pub headline: bool,
    /// Pairs of games.
    pub pairs: u32,
    /// Mean under the reference arm, over the pairs.
    pub reference_mean: f64,
    /// Mean under the arm, over the pairs.
    pub mean: f64,
    /// Mean paired shift: arm minus reference, same seed.
    pub shift: f64,
    /// Lower end of the 95 % interval of the shift.
    pub low: f64,
    /// Upper end of the 95 % interval of the shift.
    pub high: f64,
    /// Two-sided p-value of "no shift", before adjustment.
    pub p: f64,
    /// The p-value after Holm's adjustment over its family (headline metrics; all others).
    pub p_adjusted: f64,
    /// The smallest shift worth noticing.
    pub notice: f64,
    /// Variance of the paired shift over the variance two unpaired games would give: 0.25 means
    /// that pairing is worth four times the games. 1 when neither varies.
    pub variance_ratio: f64,
    /// The word for it.
    pub verdict: Verdict,
    /// Further games an undecided answer is expected to need in each arm; 0 when decided.
    pub more_games: u32,
    /// The same shift in each scenario.
    pub by_scenario: Vec<ScenarioShift>,
    /// The same shift with each pairing of players; none when there is only one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub by_pairing: Vec<PairingShift>,
}

/// One arm in the summary.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ArmSummary {
    /// The stack as typed.
    pub name: String,
    /// Title for a reader.
    pub title: String,
    /// What the arm changes.
    pub summary: String,
    /// Games finished.
    pub games: u32,
}

/// A game worth a look.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TicketNote {
    /// Why it is worth a look, for a reader.
    pub why: String,
    /// Name of the arm it was played in.
    pub arm: String,
    /// Its ticket.
    pub ticket: String,
}

/// How often a run that may stop early was looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Looks {
    /// Games of each arm at every look that was planned.
    pub planned: Vec<u32>,
    /// Looks that were taken.
    pub done: u32,
    /// The part of the level of the headline family that they have spent.
    pub spent: f64,
    /// Whether every headline metric was decided at the last of them.
    pub all_decided: bool,
}

/// The whole answer of a comparison.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Summary {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The headline: what shifted, in one sentence for each arm.
    pub headline: Vec<String>,
    /// The arms; the first is the reference.
    pub arms: Vec<ArmSummary>,
    /// Scenario names.
    pub scenarios: Vec<String>,
    /// Who plays whom, as typed: attacker and defender of each pairing.
    pub pairings: Vec<(String, String)>,
    /// Names of the players of whom each met each; none when they were named by side.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub roster: Vec<String>,
    /// What was forbidden to a side in every game.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub restricted: Vec<Restriction>,
    /// Games planned in each arm.
    pub games_per_arm: u32,
    /// The looks of a run that may stop early; none for other runs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub looks: Option<Looks>,
    /// Seed of the run.
    pub seed: u64,
    /// One entry per metric and arm other than the reference: by arm, then metric.
    pub metrics: Vec<MetricShift>,
    /// Whether the main shifts are the same whoever plays; none with one pairing of players.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub players: Vec<PlayerDependence>,
    /// What the stronger player's skill is worth; none without a roster.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub skill: Vec<SkillEdge>,
    /// What each behaviour is worth; none unless it was asked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub importance: Vec<Importance>,
    /// Who wins under each arm: in all games, by scenario, and by pairing of players where there are
    /// several. None in runs of many arms.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub balance: Vec<Balance>,
    /// How the margin goes over the turns, one for each arm. None in runs of many arms.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub course: Vec<Course>,
    /// What the games say beyond means.
    #[serde(default, skip_serializing_if = "Closer::is_empty")]
    pub closer: Closer,
    /// Arms that stopped early.
    pub faults: Vec<ArmFault>,
    /// Games worth a look.
    pub tickets: Vec<TicketNote>,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
}
