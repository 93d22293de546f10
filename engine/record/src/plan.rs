//! The plan of a run: everything that decides its results.

use serde::{Deserialize, Serialize};

use crate::{FORMAT, GameKey, Metric, Ticket, Timing};

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
    /// Players of this arm alone, one for each pairing of the plan; none for those of the plan.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pairings: Vec<Pairing>,
    /// What the arm is played for, when it is no rule stack to compare.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub probe: Option<Probe>,
}

/// One player as named in a plan or a ticket.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlayerRef {
    /// What the user typed: a name or a path, with its options.
    pub name: String,
    /// Digest of how the player plays, 8 hexadecimal digits; empty when unknown.
    pub digest: String,
}

/// Who plays which side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pairing {
    /// The attacker's player.
    pub attacker: PlayerRef,
    /// The defender's player.
    pub defender: PlayerRef,
}

/// A side of a game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Seat {
    /// The attacker.
    Attacker,
    /// The defender.
    Defender,
}

impl Seat {
    /// Both, the attacker first.
    pub const ALL: [Seat; 2] = [Seat::Attacker, Seat::Defender];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Seat::Attacker => "attacker",
            Seat::Defender => "defender",
        }
    }
}

/// What an arm is played for besides the comparison: to see what a behaviour is worth.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Probe {
    /// The arm, by its place, that is the same but for the behaviour.
    pub of: usize,
    /// The side that must do without it.
    pub side: Seat,
    /// The behaviour.
    pub without: String,
    /// Games of this arm over all scenarios: the first of each, not more than a compared arm has.
    pub games: u32,
}

/// A behaviour that a side must do without in every arm.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Restriction {
    /// The side.
    pub side: Seat,
    /// The behaviour.
    pub without: String,
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
    /// The arms; the first is the reference, and probes stand behind all that are compared.
    pub arms: Vec<Arm>,
    /// The scenarios, each played by every arm.
    pub scenarios: Vec<PlanScenario>,
    /// Who plays whom: the games of a scenario go to each in turn.
    pub pairings: Vec<Pairing>,
    /// Names of the players of whom each meets each on either side; none when they were named by
    /// side. Pairing number n is the attacker n / count against the defender n % count.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub roster: Vec<String>,
    /// What was forbidden to a side in every arm; the names in the pairings say it too.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub restricted: Vec<Restriction>,
    /// Games in each arm that is compared, over all scenarios.
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
    fn a_plan_of_another_format_is_refused() {
        let text = plan().to_ron().replace("format: 2", "format: 99");
        assert!(Plan::from_ron(&text).unwrap_err().contains("format 99"));
    }
}
