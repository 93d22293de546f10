//! A shift with how sure it is and the word for it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Verdict;

/// One shift of a metric: of an arm, over a range of values, or of a setting.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JudgedShift {
    /// The shift.
    pub value: f64,
    /// Lower end of its 95 % interval.
    pub low: f64,
    /// Upper end of its 95 % interval.
    pub high: f64,
    /// Two-sided p-value of "no shift", before adjustment.
    pub p: f64,
    /// The p-value after Holm's adjustment over its family.
    pub p_adjusted: f64,
    /// The word for it.
    pub verdict: Verdict,
    /// Further games an undecided answer is expected to need in each arm; 0 when decided.
    pub more_games: u32,
}
