//! The plan of a run: everything that decides its results.

use serde::{Deserialize, Serialize};

use crate::{FORMAT, Metric, Ticket, Timing};

/// One variant as named in a stack.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VariantRef {
    /// Shipped name or path, as the user gave it.
    pub name: String,
    /// Digest of what the variant does, 8 hexadecimal digits.
    pub digest: String,
}

/// One arm: a rule stack to play under. The first arm of a plan is the reference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Arm {
    /// The stack as a user types it, variants joined with `+`; `base` for none.
    pub name: String,
    /// Title of the arm for a reader.
    pub title: String,
    /// What the arm changes, in one or two sentences; empty for the base rules.
    pub summary: String,
    /// The variants, in the order in which they change the rules.
    pub stack: Vec<VariantRef>,
}

/// One scenario of a plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlanScenario {
    /// Shipped name or path, as the user gave it.
    pub name: String,
    /// Title for a reader.
    pub title: String,
    /// Digest of the scenario's content, 8 hexadecimal digits.
    pub digest: String,
}

/// Everything that decides the results of a run, written beside them as `plan.ron`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Version of the file format.
    pub format: u32,
    /// Version of the engine's rules.
    pub rules: u32,
    /// The arms; the first is the reference.
    pub arms: Vec<Arm>,
    /// The scenarios, each played by every arm.
    pub scenarios: Vec<PlanScenario>,
    /// Doctrine of the attacker.
    pub attacker: String,
    /// Doctrine of the defender.
    pub defender: String,
    /// Games in each arm, over all scenarios.
    pub games_per_arm: u32,
    /// Seed of the run, from which the seed of every game comes.
    pub seed: u64,
    /// Names of the metrics judged together as the headline; none for the usual ones.
    #[serde(default)]
    pub headline: Vec<String>,
    /// The timing table.
    pub timing: Timing,
}

impl Plan {
    /// Games of one arm in scenario number `scenario`: the total shared out evenly, the first
    /// scenarios taking what is left over.
    pub fn games_in_scenario(&self, scenario: usize) -> u32 {
        let count = self.scenarios.len() as u32;
        self.games_per_arm / count + u32::from((scenario as u32) < self.games_per_arm % count)
    }

    /// Whether `metric` is in the headline family of this run.
    pub fn is_headline(&self, metric: Metric) -> bool {
        let spec = metric.spec();
        if self.headline.is_empty() {
            spec.headline
        } else {
            self.headline.iter().any(|name| name == spec.name)
        }
    }

    /// The ticket of the game with that seed, in an arm and a scenario by their places in the plan.
    pub fn ticket(&self, arm: usize, scenario: usize, seed: u64, digest: u64) -> Ticket {
        let scenario = &self.scenarios[scenario];
        Ticket {
            rules: self.rules,
            scenario: scenario.name.clone(),
            scenario_digest: scenario.digest.clone(),
            stack: self.arms[arm].stack.clone(),
            attacker: self.attacker.clone(),
            defender: self.defender.clone(),
            seed,
            digest,
        }
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
    pub fn from_ron(text: &str) -> Result<Plan, String> {
        let plan: Plan = ron::from_str(text).map_err(|e| e.to_string())?;
        if plan.format != FORMAT {
            return Err(format!("plan has format {}, this program reads {FORMAT}", plan.format));
        }
        Ok(plan)
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    pub(crate) fn plan() -> Plan {
        let variant = VariantRef { name: "no-late-fire".into(), digest: "0a0b0c0d".into() };
        let scenario = |name: &str| PlanScenario {
            name: name.into(),
            title: name.to_uppercase(),
            digest: "11223344".into(),
        };
        Plan {
            format: FORMAT,
            rules: 1,
            arms: vec![
                Arm {
                    name: "base".into(),
                    title: "Base rules".into(),
                    summary: String::new(),
                    stack: vec![],
                },
                Arm {
                    name: "no-late-fire".into(),
                    title: "No late fire".into(),
                    summary: "Nobody fires at turn end.".into(),
                    stack: vec![variant],
                },
            ],
            scenarios: vec![scenario("hasty-attack"), scenario("meeting-engagement")],
            attacker: "steady".into(),
            defender: "steady".into(),
            games_per_arm: 5,
            seed: 1,
            headline: vec![],
            timing: Timing::default(),
        }
    }

    #[test]
    fn games_are_shared_out_evenly_and_none_is_lost() {
        let plan = plan();
        assert_eq!([plan.games_in_scenario(0), plan.games_in_scenario(1)], [3, 2]);
    }

    #[test]
    fn named_metrics_take_the_place_of_the_usual_headline() {
        let usual = plan();
        assert!(usual.is_headline(Metric::Turns) && !usual.is_headline(Metric::Dice));
        let named = Plan { headline: vec!["dice".into()], ..usual };
        assert!(!named.is_headline(Metric::Turns) && named.is_headline(Metric::Dice));
    }

    #[test]
    fn a_plan_comes_back_from_its_text() {
        assert_eq!(Plan::from_ron(&plan().to_ron()), Ok(plan()));
    }

    #[test]
    fn a_plan_of_another_format_is_refused() {
        let text = plan().to_ron().replace("format: 1", "format: 99");
        assert!(Plan::from_ron(&text).unwrap_err().contains("format 99"));
    }
}
