//! Variants crossed with each other: what decides it, and its answer as data.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{JudgedShift, Summary};

/// Which variants are on in which arm. Arm 0 of the run has none of them: it is the reference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CrossPlan {
    /// The variants as typed, two to six; the first is letter A.
    pub factors: Vec<String>,
    /// Per arm the variants that are on: bit n stands for variant n.
    pub arms: Vec<u8>,
    /// How the last variants follow from the first ones, as in `D = ABC`; none when every
    /// combination is played.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub generators: Vec<String>,
}

/// What variants do, alone or together: the mean of the arms in which their signs multiply to plus
/// less the mean of the others.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrossEffect {
    /// Metric name.
    pub metric: String,
    /// The variants: bit n stands for variant n; one for a main effect, more for an interaction.
    pub mask: u8,
    /// The same by letter.
    pub letters: String,
    /// Other effects that the same arms cannot tell from this one, with their sign.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub aliases: Vec<String>,
    /// The effect.
    pub effect: JudgedShift,
    /// The quantile of the half-normal distribution at its place among all of the metric.
    pub half_normal: f64,
    /// Its distance from zero in standard errors; none without any spread.
    pub errors: Option<f64>,
}

/// The word for what two variants make of each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CrossWord {
    /// Each alone shifts, one up and one down, and together nobody would notice.
    Cancel,
    /// Both shift, and together as much as the sum.
    AddUp,
    /// Together they shift more than the sum, in the direction of both.
    Stronger,
    /// Together they shift less than the sum.
    Weaker,
    /// The first shifts more with the second, which goes the other way or shifts nothing surely.
    FirstStronger,
    /// The second shifts more with the first, which goes the other way or shifts nothing surely.
    SecondStronger,
    /// The first shifts less with the second, or the other way.
    FirstWeaker,
    /// The second shifts less with the first, or the other way.
    SecondWeaker,
    /// Neither surely shifts alone, but they do together.
    OnlyTogether,
    /// Whether they add up is open.
    Undecided,
    /// There is nothing to tell: at most one of them shifts, and the other does not change it.
    Apart,
}

/// Two variants and what they make of each other in one metric.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrossPair {
    /// Metric name.
    pub metric: String,
    /// The two variants by number.
    pub variants: (usize, usize),
    /// The shift of the first alone.
    pub first: JudgedShift,
    /// The shift of the second alone.
    pub second: JudgedShift,
    /// Their joint shift.
    pub together: JudgedShift,
    /// The joint shift less both alone.
    pub surplus: JudgedShift,
    /// The word for it.
    pub word: CrossWord,
}

/// The whole answer of crossed variants.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CrossSummary {
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// What was crossed.
    pub plan: CrossPlan,
    /// Every arm against the reference.
    pub comparison: Summary,
    /// Games in each arm: those that every arm has finished.
    pub games: u32,
    /// Products of variants that are the same in every arm, with their sign; none when every
    /// combination is played.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub relation: Vec<String>,
    /// All effects: by metric, then by the number of their letters.
    pub effects: Vec<CrossEffect>,
    /// All pairs of variants: by metric; none where the arms cannot tell pairs apart.
    pub pairs: Vec<CrossPair>,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
}
