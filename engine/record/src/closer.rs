//! What a summary says beyond means: tails, cut lengths, other scenarios, rare events, and what made
//! the answer sure.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A closer look at the shifts; every list is empty when there was nothing to look at.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Closer {
    /// The usual and the unusual game of metrics whose tails matter.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tails: Vec<TailShift>,
    /// How long both sides hold out; none when no side ever broke.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub holding: Option<Holding>,
    /// The headline shifts with scenarios, or pairings of players, taken as a sample of many.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spread: Vec<ShiftSpread>,
    /// The metrics outside the headline, judged as a lot.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub explored: Vec<Explored>,
    /// What made the headline shifts sure.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub saved: Vec<Saved>,
    /// Yes or no questions that nearly all games of an arm answer alike.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rare: Vec<RareEvent>,
}

impl Closer {
    /// Whether there was nothing to look at.
    pub fn is_empty(&self) -> bool {
        *self == Closer::default()
    }
}

/// A place among all games, ordered by one metric.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TailPlace {
    /// One game in ten is below.
    LowTenth,
    /// Half of the games are below: the median.
    Half,
    /// One game in ten is above.
    HighTenth,
    /// The mean of the tenth of games with the largest values.
    MeanOfHighTenth,
}

impl TailPlace {
    /// All places, from low to high.
    pub const ALL: [TailPlace; 4] =
        [TailPlace::LowTenth, TailPlace::Half, TailPlace::HighTenth, TailPlace::MeanOfHighTenth];

    /// Its words for a reader.
    pub fn words(self) -> &'static str {
        match self {
            TailPlace::LowTenth => "1 in 10 is below",
            TailPlace::Half => "half are below",
            TailPlace::HighTenth => "1 in 10 is above",
            TailPlace::MeanOfHighTenth => "mean of the highest tenth",
        }
    }
}

/// How one place among the games moves.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TailShift {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// Which place.
    pub place: TailPlace,
    /// The value there under the reference arm.
    pub reference: f64,
    /// The value there under the arm.
    pub value: f64,
    /// Arm less reference.
    pub shift: f64,
    /// Lower end of the 95 % interval of the shift.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
    /// Whether all of the interval is further from zero than the smallest shift worth noticing.
    pub noticed: bool,
}

/// How long both sides hold out, games that the turn limit cut counted for what they are.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Holding {
    /// One for each arm, the reference first.
    pub curves: Vec<HoldingCurve>,
    /// One for each arm but the reference.
    pub shifts: Vec<HoldingShift>,
}

/// The share of games in which both sides still hold, turn by turn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoldingCurve {
    /// Name of the arm.
    pub arm: String,
    /// Games that ended because a side broke or had nobody left.
    pub broke: u32,
    /// Games that the turn limit cut.
    pub cut: u32,
    /// The share after each turn at which a game ended.
    pub points: Vec<HoldingPoint>,
}

/// The share of games in which both sides still hold after a turn.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoldingPoint {
    /// The turn.
    pub turn: f64,
    /// The share; a scenario that is over counts with the share it ended with.
    pub share: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
}

/// How much longer both sides hold out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoldingShift {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Pairs of games.
    pub pairs: u32,
    /// Mean turns until a side breaks or the turn limit comes, under the reference arm.
    pub reference: f64,
    /// The same under the arm.
    pub mean: f64,
    /// Mean paired shift.
    pub shift: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
    /// P-value of "the curves are the same", by the log-rank test; none when no game can tell.
    pub p: Option<f64>,
}

/// What a shift is a sample over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Sample {
    /// The scenarios of the run.
    Scenarios,
    /// The pairings of players.
    Pairings,
}

impl Sample {
    /// One of them, and several.
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Sample::Scenarios => ("scenario", "scenarios"),
            Sample::Pairings => ("pairing of players", "pairings of players"),
        }
    }
}

/// A shift with scenarios, or pairings of players, taken as a sample of many.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShiftSpread {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// What was sampled.
    pub over: Sample,
    /// How many of them have a shift with any spread.
    pub count: u32,
    /// The mean shift over all there might be.
    pub mean: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
    /// Standard deviation of the true shifts from one to another.
    pub tau: f64,
    /// Where the shift of one that was not played is expected (95 %); none when they differ too
    /// little for that to be known.
    pub next: Option<(f64, f64)>,
}

/// A metric outside the headline, with its p-value adjusted in both ways.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Explored {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// Two-sided p-value of "no shift", before adjustment.
    pub p: f64,
    /// After Holm's adjustment, which the verdict goes by.
    pub p_holm: f64,
    /// After that of Benjamini and Hochberg.
    pub p_discovery: f64,
}

/// Variance of a shift with each way of being surer, over the variance without it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Saved {
    /// Name of the arm compared with the reference.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// Pairs of games.
    pub pairs: u32,
    /// The same luck in both arms, against luck of their own.
    pub luck: f64,
    /// Fixed numbers of games in each scenario, against scenarios drawn by chance.
    pub strata: f64,
    /// Were the mean of the margin under the reference known; none when that cannot be told.
    pub margin: Option<f64>,
}

/// How often something happened that hardly ever, or nearly always, happens.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RareEvent {
    /// Name of the arm.
    pub arm: String,
    /// Metric name.
    pub metric: String,
    /// Games in which it happened.
    pub events: u32,
    /// All games of the arm.
    pub games: u32,
    /// Lower end of the exact 95 % interval of the share.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
}
