//! The answer of a tuning as data: which value of an option brings a metric to a target.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::TicketNote;

/// What the user says of the metric's mean as the option rises. A shape that is asserted is
/// believed, unless the games refute it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TuneShape {
    /// Nothing.
    #[default]
    Any,
    /// It never falls.
    Rising,
    /// It never rises.
    Falling,
}

/// What a tuning tries. The arms of its run are the values in order; there is no reference arm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TunePlan {
    /// The option as typed: a variant and one of its options.
    pub option: String,
    /// The values to try, rising.
    pub values: Vec<i64>,
    /// Name of the metric.
    pub metric: String,
    /// The mean that is wanted, in its unit.
    pub target: f64,
    /// What is said of the mean as the option rises.
    #[serde(default)]
    pub shape: TuneShape,
    /// Times at which the values in question are judged; each is twice as far as the one before.
    pub looks: u32,
}

/// Where a setting's mean lies, as sure as the whole answer is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TuneStanding {
    /// Nearer to the target than anyone would notice.
    OnTarget,
    /// Below the target.
    Below,
    /// Above the target.
    Above,
    /// Not known: more games are needed.
    Open,
}

/// A setting that can be played: a value of the option or, half way between two values that follow
/// each other, a coin tossed before the game.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TuneSetting {
    /// The value; one with a half is the coin.
    pub value: f64,
    /// Games it rests on; for a coin, those of the value with fewer.
    pub games: u32,
    /// Mean of the metric over them; `None` without games.
    pub mean: Option<f64>,
    /// Ends of its interval: those of all settings, at all looks, hold their means with 95 %.
    /// `None` when nothing is known of one end.
    pub interval: Option<(f64, f64)>,
    /// Where it stands.
    pub standing: TuneStanding,
}

/// Where the mean crosses the target, as a value of the option: between two values as if a coin
/// with that chance decided between them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TuneCrossing {
    /// Where the means seen cross it first within the interval; `None` when they do not.
    pub at: Option<f64>,
    /// Lower end of the interval that holds every crossing.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
}

/// What came of a tuning.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "answer")]
pub enum TuneAnswer {
    /// A setting brings the mean to the target, as near as anyone would notice.
    Found {
        /// The setting: a value, or a half when no value does.
        value: f64,
    },
    /// The mean crosses the target between settings, of which none comes near enough.
    Between {
        /// The setting whose mean is nearest to the target.
        nearest: f64,
    },
    /// Every value leaves the mean on the same side of the target.
    NoneReaches {
        /// Whether that side is below.
        below: bool,
        /// The setting whose mean is nearest to the target.
        nearest: f64,
    },
    /// The most games are played and the answer is still open.
    Undecided {
        /// The setting whose mean is nearest to the target.
        nearest: f64,
        /// Further games, over all values, that are expected to settle what is open.
        more_games: u32,
    },
}

/// The whole answer of a tuning.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TuneSummary {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// The rule stack as typed, without the option that is tuned.
    pub stack: String,
    /// Name of the option.
    pub option: String,
    /// Name of the metric.
    pub metric: String,
    /// Its unit.
    pub unit: String,
    /// The mean that is wanted.
    pub target: f64,
    /// The smallest distance from it worth noticing.
    pub notice: f64,
    /// What was said of the mean as the option rises.
    pub shape: TuneShape,
    /// Whether the games leave that possible.
    pub shape_holds: bool,
    /// Every setting, by value.
    pub settings: Vec<TuneSetting>,
    /// Where the mean crosses the target; `None` when it surely does not.
    pub crossing: Option<TuneCrossing>,
    /// What came of it.
    pub answer: TuneAnswer,
    /// Games played, over all values.
    pub games: u64,
    /// The most games allowed for one value.
    pub most_games: u32,
    /// Seed of the run.
    pub seed: u64,
    /// Scenario names.
    pub scenarios: Vec<String>,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
    /// Games worth a look.
    pub tickets: Vec<TicketNote>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn answers_come_back_from_their_text() {
        let answers = [
            (TuneAnswer::Found { value: 2.5 }, r#"{"answer":"found","value":2.5}"#),
            (
                TuneAnswer::NoneReaches { below: true, nearest: 1.0 },
                r#"{"answer":"none-reaches","below":true,"nearest":1.0}"#,
            ),
        ];
        for (answer, text) in answers {
            assert_eq!(serde_json::to_string(&answer).unwrap(), text);
            assert_eq!(serde_json::from_str::<TuneAnswer>(text).unwrap(), answer);
        }
    }
}
