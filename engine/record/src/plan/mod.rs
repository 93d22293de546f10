//! The plan of a run: everything that decides its results.

use std::collections::BTreeMap;

use ron::Options;
use ron::extensions::Extensions;
use serde::{Deserialize, Serialize};

use crate::games::sha256;
use crate::{
    CrossPlan, FORMAT, GameKey, HandicapPlan, Metric, SweepPlan, Ticket, Timing, TunePlan, readable,
};

mod brief;
mod parts;

pub use parts::{Arm, Pairing, PlanScenario, PlayerRef, Probe, Restriction, Seat, VariantRef};

/// What a run is to find out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Experiment {
    /// What shifts between the reference arm and the others.
    #[default]
    Compare,
    /// Which players are stronger.
    Ladder,
    /// What an option does over a range of values.
    Sweep(SweepPlan),
    /// What variants do alone and together.
    Cross(CrossPlan),
    /// Which value of an option brings a metric to a target.
    Tune(TunePlan),
    /// What makes the first scenario fair: the others are the same with a choice each.
    Handicap(HandicapPlan),
}

/// When a run stops before it has played all its games.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Stop {
    /// When every headline metric is decided. The run looks at what it has at times that are fixed
    /// beforehand, each twice as far as the one before.
    Clear {
        /// Times to look, the end among them.
        looks: u32,
    },
    /// When the interval of the shift in the attacker's wins is as narrow as that, in every arm.
    Precision {
        /// Half the width of the interval, as a share of games: 0.01 is one percentage point.
        half_width: f64,
    },
}

/// Everything that decides the results of a run, written beside them as `plan.ron`.
///
/// A plan that is written by hand may leave out all but the arms: what is not said is as usual.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// Version of the file format.
    #[serde(default = "format")]
    pub format: u32,
    /// Version of the engine's rules; 0 when it is not said.
    #[serde(default)]
    pub rules: u32,
    /// What the run is to find out.
    #[serde(default)]
    pub experiment: Experiment,
    /// The arms; the first is the reference, and probes stand behind all that are compared.
    pub arms: Vec<Arm>,
    /// The scenarios, each played by every arm.
    #[serde(default = "all")]
    pub scenarios: Vec<PlanScenario>,
    /// Who plays whom: the games of a scenario go to each in turn.
    #[serde(default)]
    pub pairings: Vec<Pairing>,
    /// Names of the players of whom each meets each on either side; none when they were named by
    /// side. Pairing number n is the attacker n / count against the defender n % count.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub roster: Vec<String>,
    /// What was forbidden to a side in every arm; the names in the pairings say it too.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub restricted: Vec<Restriction>,
    /// Games in each arm that is compared, over all scenarios; the most, with a stop rule.
    #[serde(default = "games")]
    pub games_per_arm: u32,
    /// When the run stops before that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop: Option<Stop>,
    /// Seed of the run, from which the seed of every game comes.
    #[serde(default = "seed")]
    pub seed: u64,
    /// Names of the metrics judged together as the headline; none for the usual ones.
    #[serde(default)]
    pub headline: Vec<String>,
    /// The smallest shifts worth noticing that are not the usual ones, by metric.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub notice: BTreeMap<String, f64>,
    /// The timing table.
    #[serde(default)]
    pub timing: Timing,
}

fn format() -> u32 {
    FORMAT
}

fn all() -> Vec<PlanScenario> {
    vec![PlanScenario { name: "all".to_owned(), title: String::new(), digest: String::new() }]
}

fn games() -> u32 {
    Plan::GAMES
}

fn seed() -> u64 {
    1
}

impl Plan {
    /// Games in each arm when nothing else is said.
    pub const GAMES: u32 = 100_000;

    /// The smallest shift of a metric worth noticing in this run.
    pub fn notice(&self, metric: Metric) -> f64 {
        let spec = metric.spec();
        self.notice.get(spec.name).copied().unwrap_or(spec.notice)
    }

    /// Games of a compared arm in scenario number `scenario`: the total shared out evenly, the
    /// first scenarios taking what is left over.
    pub fn games_in_scenario(&self, scenario: usize) -> u32 {
        self.shared(self.games_per_arm, scenario)
    }

    /// Games of any arm in scenario number `scenario`, which are its first ones.
    pub fn games_of(&self, arm: usize, scenario: usize) -> u32 {
        self.shared(self.games_in_arm(arm), scenario)
    }

    /// Games of any arm over all scenarios.
    pub fn games_in_arm(&self, arm: usize) -> u32 {
        let probe = self.arms[arm].probe.as_ref();
        probe.map_or(self.games_per_arm, |probe| probe.games.min(self.games_per_arm))
    }

    /// Games of all arms together.
    pub fn games(&self) -> u64 {
        (0..self.arms.len()).map(|arm| u64::from(self.games_in_arm(arm))).sum()
    }

    /// The places of the arms that are compared, the reference first.
    pub fn compared(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.arms.len()).filter(|&arm| self.arms[arm].probe.is_none())
    }

    fn shared(&self, games: u32, scenario: usize) -> u32 {
        let count = self.scenarios.len() as u32;
        games / count + u32::from((scenario as u32) < games % count)
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

    /// The place of the pairing that plays game number `game` of a scenario, in every arm.
    pub fn pairing(&self, game: u32) -> usize {
        game as usize % self.pairings.len()
    }

    /// The players of an arm's pairing.
    pub fn players(&self, arm: usize, pairing: usize) -> &Pairing {
        self.arms[arm].pairings.get(pairing).unwrap_or(&self.pairings[pairing])
    }

    /// The ticket of a game by its places in the plan, its luck and its events.
    pub fn ticket(&self, game: GameKey, seed: u64, digest: u64) -> Ticket {
        let scenario = &self.scenarios[game.scenario];
        let Pairing { attacker, defender } = self.players(game.arm, self.pairing(game.game));
        Ticket {
            rules: self.rules,
            scenario: scenario.name.clone(),
            scenario_digest: scenario.digest.clone(),
            stack: self.arms[game.arm].stack.clone(),
            attacker: attacker.clone(),
            defender: defender.clone(),
            seed,
            digest,
        }
    }

    /// The plan as RON text.
    pub fn to_ron(&self) -> String {
        let pretty = ron::ser::PrettyConfig::new().struct_names(true);
        ron::ser::to_string_pretty(self, pretty).expect("a plan holds only plain data")
    }

    /// SHA-256 of the plan as it is written, in 64 hexadecimal digits: two runs are the same run when
    /// their plans have the same digest.
    pub fn digest(&self) -> String {
        sha256(self.to_ron().as_bytes())
    }

    /// Reads a plan from RON text.
    ///
    /// # Errors
    /// What is wrong and where, or that the plan was written by another version.
    pub fn from_ron(text: &str) -> Result<Plan, String> {
        let options = Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
        let plan: Plan = options.from_str(text).map_err(|e| format!("line {e}"))?;
        readable(plan.format)?;
        Ok(Plan { format: FORMAT, ..plan })
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::OLDEST_PLAN;

    pub(crate) fn pairing(attacker: &str, defender: &str) -> Pairing {
        let player = |name: &str| PlayerRef { name: name.into(), digest: "55667788".into() };
        Pairing { attacker: player(attacker), defender: player(defender) }
    }

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
            experiment: Experiment::Compare,
            arms: vec![
                Arm {
                    name: "base".into(),
                    title: "Base rules".into(),
                    summary: String::new(),
                    stack: vec![],
                    pairings: vec![],
                    probe: None,
                },
                Arm {
                    name: "no-late-fire".into(),
                    title: "No late fire".into(),
                    summary: "Nobody fires at turn end.".into(),
                    stack: vec![variant],
                    pairings: vec![],
                    probe: None,
                },
            ],
            scenarios: vec![scenario("hasty-attack"), scenario("meeting-engagement")],
            pairings: vec![pairing("steady", "steady"), pairing("bold", "steady")],
            roster: vec![],
            restricted: vec![],
            games_per_arm: 5,
            stop: None,
            seed: 1,
            headline: vec![],
            notice: BTreeMap::new(),
            timing: Timing::default(),
        }
    }

    #[test]
    fn games_are_shared_out_evenly_and_none_is_lost() {
        let plan = plan();
        assert_eq!([plan.games_in_scenario(0), plan.games_in_scenario(1)], [3, 2]);
    }

    #[test]
    fn games_go_to_each_pairing_in_turn_and_an_arm_may_have_players_of_its_own() {
        let mut plan = plan();
        plan.arms[1].pairings = vec![pairing("rash", "steady"), pairing("bold", "rash")];
        let of = |arm, game| {
            let ticket = plan.ticket(GameKey { arm, scenario: 0, game }, 1, 2);
            format!("{}, {}", ticket.attacker.name, ticket.defender.name)
        };
        assert_eq!(
            [of(0, 0), of(0, 1), of(0, 2)],
            ["steady, steady", "bold, steady", "steady, steady"]
        );
        assert_eq!([of(1, 0), of(1, 3)], ["rash, steady", "bold, rash"]);
    }

    #[test]
    fn a_probe_plays_the_first_games_of_each_scenario() {
        let mut plan = plan();
        let probe = |games| Probe { of: 1, side: Seat::Defender, without: "rally".into(), games };
        for games in [3, 99] {
            let arm = Arm { probe: Some(probe(games)), ..plan.arms[1].clone() };
            plan.arms.push(arm);
        }
        assert_eq!([plan.games_of(2, 0), plan.games_of(2, 1)], [2, 1]);
        assert_eq!([plan.games_of(3, 0), plan.games_of(3, 1)], [3, 2], "never more than others");
        assert_eq!(plan.games(), 5 + 5 + 3 + 5);
        assert_eq!(plan.compared().collect::<Vec<_>>(), [0, 1]);
        assert_eq!(Plan::from_ron(&plan.to_ron()), Ok(plan));
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
    fn a_plan_by_hand_may_be_short() {
        let text = r#"Plan(
            arms: ["base", "no-late-fire", Arm(name: "mine", title: "My rule")],
            scenarios: ["hasty-attack"],
            pairings: [Pairing(attacker: "bold", defender: Player(name: "steady"))],
            games_per_arm: 400,
            stop: Clear(looks: 5),
            notice: { "minutes": 10.0 },
            timing: Timing(turn: 90),
        )"#;
        let plan = Plan::from_ron(text).unwrap();
        let names: Vec<&str> = plan.arms.iter().map(|arm| &*arm.name).collect();
        assert_eq!(names, ["base", "no-late-fire", "mine"]);
        assert_eq!((&*plan.arms[2].title, &*plan.pairings[0].attacker.name), ("My rule", "bold"));
        assert_eq!((plan.games_per_arm, plan.stop), (400, Some(Stop::Clear { looks: 5 })));
        assert_eq!((plan.notice(Metric::Minutes), plan.notice(Metric::Margin)), (10.0, 0.5));
        assert_eq!((plan.timing.turn, plan.timing.card), (90.0, 15.0));
        let shortest = Plan::from_ron("(arms: [])").unwrap();
        assert_eq!((shortest.games_per_arm, shortest.seed), (Plan::GAMES, 1));
        assert_eq!(shortest.scenarios[0].name, "all");
    }

    #[test]
    fn a_plan_that_is_none_is_refused_with_its_place() {
        let fault = |text: &str| Plan::from_ron(text).unwrap_err();
        let unknown = fault("Plan(\n  arms: [\"base\"],\n  game: 4,\n)");
        assert!(unknown.starts_with("line 3:") && unknown.contains("`games_per_arm`"), "{unknown}");
        let number = fault("Plan(arms: [7])");
        assert!(number.contains("the name of an arm, or an arm written out"), "{number}");
        let inner = fault("Plan(arms: [Arm(name: \"x\", titel: \"y\")])");
        assert!(inner.contains("`titel`"), "{inner}");
    }

    #[test]
    fn a_plan_of_another_format_is_refused() {
        let written = |format: u32| {
            plan().to_ron().replace(&format!("format: {FORMAT}"), &format!("format: {format}"))
        };
        for format in [0, OLDEST_PLAN - 1, FORMAT + 1, 99] {
            let fault = Plan::from_ron(&written(format)).unwrap_err();
            assert_eq!(
                fault,
                format!("plan has format {format}, expected 3 to 5, which this program reads")
            );
        }
    }

    #[test]
    fn a_plan_of_the_format_before_is_read_as_one_of_today() {
        let text = plan().to_ron().replace(&format!("format: {FORMAT}"), "format: 3");
        assert!(text.contains("format: 3"), "{text}");
        assert_eq!(Plan::from_ron(&text), Ok(plan()));
    }
}
