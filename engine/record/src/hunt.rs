//! A hunt for a style that gains from a variant: what decides it, and its answer as data.

use ron::Options;
use ron::extensions::Extensions;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Arm, ArmFault, FORMAT, Pairing, Plan, PlayerRef, Seat, TicketNote, readable};

/// Rule sets of a hunt: the base rules, then those with the variant.
const RULES: usize = 2;

/// Everything that decides the results of a hunt, written beside them as `plan.ron`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HuntPlan {
    /// The games of the usual style that judge: under the base rules, then under the variant. In
    /// every pairing the usual style meets one of the opponents.
    pub judged: Plan,
    /// The side of the usual style, and of those that are tried, in each pairing.
    pub seats: Vec<Seat>,
    /// How styles are searched for.
    pub search: HuntSearch,
    /// The smallest gain worth noticing, as a share of the games.
    pub gain: f64,
}

/// How styles are searched for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HuntSearch {
    /// Styles to try.
    pub budget: u32,
    /// Games of each style under each rules.
    pub games: u32,
    /// Styles played again, on other seeds, before one is chosen.
    pub finalists: u32,
    /// Games of each of these under each rules.
    pub finalist_games: u32,
    /// Seed of the search; the seeds of its games and of those that judge come from it.
    pub seed: u64,
}

impl HuntPlan {
    /// The plan of games in which `styles` play beside the usual one, with the same luck, in the
    /// same seats, against the same opponents.
    pub fn with(&self, styles: &[PlayerRef], games_per_arm: u32, seed: u64) -> Plan {
        let mut plan = Plan { games_per_arm, seed, ..self.judged.clone() };
        for style in styles {
            let arms = self.judged.arms.iter().map(|rules| self.arm(rules, style));
            plan.arms.extend(arms);
        }
        plan
    }

    /// The arm of a style under some rules.
    fn arm(&self, rules: &Arm, style: &PlayerRef) -> Arm {
        let seated = |(pairing, seat): (&Pairing, &Seat)| match seat {
            Seat::Attacker => Pairing { attacker: style.clone(), ..pairing.clone() },
            Seat::Defender => Pairing { defender: style.clone(), ..pairing.clone() },
        };
        Arm {
            name: format!("{}, {}", rules.name, style.name),
            pairings: self.judged.pairings.iter().zip(&self.seats).map(seated).collect(),
            ..rules.clone()
        }
    }

    /// The place of an arm in a plan made by [`HuntPlan::with`]: of the usual style, which is
    /// number 0, or one of those beside it; under the base rules or under the variant.
    pub fn place(style: usize, variant: bool) -> usize {
        RULES * style + usize::from(variant)
    }

    /// The number of the style that plays in an arm, and whether it plays under the variant.
    pub fn style(arm: usize) -> (usize, bool) {
        (arm / RULES, arm % RULES == 1)
    }

    /// The plan as RON text.
    pub fn to_ron(&self) -> String {
        let pretty = ron::ser::PrettyConfig::new().struct_names(true);
        ron::ser::to_string_pretty(self, pretty).expect("a plan holds only plain data")
    }

    /// Reads a plan from RON text.
    ///
    /// # Errors
    /// What is wrong and where, or that the plan was written by another version.
    pub fn from_ron(text: &str) -> Result<HuntPlan, String> {
        let options = Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
        let mut plan: HuntPlan = options.from_str(text).map_err(|e| format!("line {e}"))?;
        readable(plan.judged.format)?;
        plan.judged.format = FORMAT;
        Ok(plan)
    }
}

/// What the search did.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntTrail {
    /// Styles tried.
    pub tried: u32,
    /// Per round of the search, the mean and the best of what its styles seemed to gain from the
    /// variant. The best of many is flattered by luck.
    pub rounds: Vec<(f64, f64)>,
    /// Per style that was played again: what it seemed to gain in the search and then.
    pub finalists: Vec<(f64, f64)>,
    /// The weights of the style that was chosen.
    pub weights: Vec<HuntWeight>,
    /// The style as a player that can be typed.
    pub found: PlayerRef,
}

/// One weight of the style that was found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct HuntWeight {
    /// Its name.
    pub name: String,
    /// Its value in the usual style.
    pub usual: i32,
    /// Its value in the style found.
    pub found: i32,
}

/// The word for what a hunt found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum HuntVerdict {
    /// A style gains from the variant, and more than would go unnoticed.
    #[serde(rename = "opens an exploit")]
    Exploit,
    /// No style that surely does was found.
    #[serde(rename = "no exploit found within budget")]
    NotFound,
}

impl HuntVerdict {
    /// The word as printed everywhere.
    pub fn word(self) -> &'static str {
        match self {
            HuntVerdict::Exploit => "opens an exploit",
            HuntVerdict::NotFound => "no exploit found within budget",
        }
    }
}

/// A difference of two shares, or of two such differences, with its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntGain {
    /// The difference.
    pub value: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
}

/// How the style found does against the usual one under some rules. A draw is half a win.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntEdge {
    /// Share of the games that the usual style wins.
    pub usual: f64,
    /// Share that the style found wins in the same seats with the same luck.
    pub found: f64,
    /// The latter less the former.
    pub gain: HuntGain,
}

/// What games of the style found say, all of them or a part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntPart {
    /// Which games: `all`, a side, a scenario.
    pub part: String,
    /// Seeds, each played four times: by both styles, under both rules.
    pub seeds: u32,
    /// Under the base rules.
    pub base: HuntEdge,
    /// Under the variant.
    pub variant: HuntEdge,
    /// What the style gains under the variant less what it gains under the base rules.
    pub surplus: HuntGain,
}

/// A metric in which the style found differs from the usual one, under the variant.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntHabit {
    /// The side the styles play.
    pub side: Seat,
    /// Metric name.
    pub metric: String,
    /// Mean of the usual style's games.
    pub usual: f64,
    /// Mean of the games of the style found.
    pub found: f64,
    /// Mean paired shift.
    pub shift: HuntGain,
}

/// The whole answer of a hunt.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HuntSummary {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The word for the answer.
    pub verdict: HuntVerdict,
    /// The answer in sentences.
    pub headline: Vec<String>,
    /// The stack without the variant, as typed.
    pub base: String,
    /// The stack with it, as typed.
    pub variant: String,
    /// Title of the variant.
    pub title: String,
    /// Smallest gain worth noticing.
    pub gain: f64,
    /// The most that the style found may yet gain from the variant, at 95 %.
    pub at_most: f64,
    /// What the search did.
    pub trail: HuntTrail,
    /// All games that judge.
    pub whole: HuntPart,
    /// The same by side.
    pub by_side: Vec<HuntPart>,
    /// The same by scenario.
    pub by_scenario: Vec<HuntPart>,
    /// What the style does differently, the most striking first.
    pub habits: Vec<HuntHabit>,
    /// Arms that stopped early.
    pub faults: Vec<ArmFault>,
    /// Games worth a look.
    pub tickets: Vec<TicketNote>,
    /// What the reader must keep in mind.
    pub caveats: Vec<String>,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::GameKey;
    use crate::plan::tests::{pairing, plan};

    fn hunt() -> HuntPlan {
        let pairings = vec![pairing("steady", "bold"), pairing("bold", "steady")];
        HuntPlan {
            judged: Plan { pairings, ..plan() },
            seats: vec![Seat::Attacker, Seat::Defender],
            search: HuntSearch { budget: 12, games: 8, finalists: 3, finalist_games: 16, seed: 4 },
            gain: 0.05,
        }
    }

    #[test]
    fn a_plan_comes_back_from_its_text() {
        assert_eq!(HuntPlan::from_ron(&hunt().to_ron()), Ok(hunt()));
        let other = hunt().to_ron().replace(&format!("format: {FORMAT}"), "format: 99");
        assert!(HuntPlan::from_ron(&other).unwrap_err().contains("format 99"));
    }

    #[test]
    fn styles_take_the_seats_of_the_usual_one() {
        let styles =
            ["sly", "rash"].map(|name| PlayerRef { name: name.into(), digest: "0".into() });
        let plan = hunt().with(&styles, 20, 9);
        assert_eq!((plan.arms.len(), plan.games_per_arm, plan.seed), (6, 20, 9));
        let players = |style, variant, game| {
            let arm = HuntPlan::place(style, variant);
            assert_eq!(HuntPlan::style(arm), (style, variant));
            let ticket = plan.ticket(GameKey { arm, scenario: 0, game }, 1, 2);
            let stack = ticket.stack_spec();
            (ticket.attacker.name, ticket.defender.name, stack)
        };
        let told = |a: &str, b: &str, c: &str| (a.to_owned(), b.to_owned(), c.to_owned());
        assert_eq!(players(0, false, 0), told("steady", "bold", "base"));
        assert_eq!(players(1, false, 0), told("sly", "bold", "base"));
        assert_eq!(players(2, true, 1), told("bold", "rash", "no-late-fire"));
        let mut names: Vec<&String> = plan.arms.iter().map(|arm| &arm.name).collect();
        names.dedup();
        assert_eq!(names.len(), 6, "every arm has a name of its own: {names:?}");
    }
}
