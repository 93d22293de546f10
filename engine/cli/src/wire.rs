//! Joins house rules, players, scenarios and runs; nothing is decided here.

use std::collections::BTreeMap;
use std::sync::Arc;

use ruleshift_batch::{ArmCast, Cast, ScriptMaker, Seat};
use ruleshift_game::RULES_VERSION;
use ruleshift_hooks::{Stack, Variant};
use ruleshift_players::{Behaviour, PlayerSpec, Strategy};
use ruleshift_record::{
    self as record, Arm, Experiment, FORMAT, Pairing, Plan, PlanScenario, PlayerRef, Probe,
    Restriction, Stop, Timing, VariantRef,
};
use ruleshift_scenarios::Scenario;

use crate::exit::Failure;

/// Everything a run is made of.
#[derive(Default)]
pub(crate) struct Setting {
    /// What is asked.
    pub(crate) experiment: Experiment,
    pub(crate) stacks: Vec<Stack>,
    pub(crate) scenarios: Vec<Scenario>,
    /// Who plays whom, attackers first.
    pub(crate) pairings: Vec<[Seated; 2]>,
    /// Names of the players of whom each meets each; none when they were named by side.
    pub(crate) roster: Vec<String>,
    /// What was forbidden to a side, as its players know already.
    pub(crate) restricted: Vec<Restriction>,
    /// Further arms that show what a behaviour is worth.
    pub(crate) probes: Vec<Probing>,
    /// Names of the metrics to judge as the headline; none for the usual ones.
    pub(crate) headline: Vec<String>,
    /// Smallest shifts worth noticing that are not the usual ones.
    pub(crate) notice: BTreeMap<String, f64>,
    /// When to stop before the last game.
    pub(crate) stop: Option<Stop>,
    /// How long things take at the table.
    pub(crate) timing: Timing,
}

/// A player that was typed.
#[derive(Clone)]
pub(crate) struct Seated {
    pub(crate) spec: PlayerSpec,
    pub(crate) strategy: Strategy,
}

/// A rule stack, by its place, under which a side must do without a behaviour.
#[derive(Clone, Copy)]
pub(crate) struct Probing {
    pub(crate) of: usize,
    pub(crate) side: record::Seat,
    pub(crate) behaviour: Behaviour,
    /// Games over all scenarios.
    pub(crate) games: u32,
}

impl Seated {
    /// The same player, to whom one more behaviour is forbidden.
    pub(crate) fn without(&self, behaviour: Behaviour) -> Seated {
        if self.strategy.lacks(behaviour) {
            return self.clone();
        }
        let spec = self.spec.clone().with("without", behaviour.word());
        Seated { spec, strategy: self.strategy.clone().forbid(behaviour) }
    }

    /// As plans and tickets name it.
    pub(crate) fn named(&self) -> PlayerRef {
        PlayerRef { name: self.spec.to_string(), digest: self.strategy.digest() }
    }
}

impl Setting {
    /// The plan of a run with this setting.
    pub(crate) fn plan(&self, games_per_arm: u32, seed: u64) -> Plan {
        let mut arms: Vec<Arm> = Vec::new();
        for stack in &self.stacks {
            let arm = arm(stack);
            let same = arms.iter().filter(|known| known.stack == arm.stack).count();
            let name = if same == 0 { arm.name } else { format!("{}#{}", arm.name, same + 1) };
            arms.push(Arm { name, ..arm });
        }
        let probes: Vec<Arm> = self.probes.iter().map(|p| self.probe(&arms[p.of], p)).collect();
        arms.extend(probes);
        Plan {
            format: FORMAT,
            rules: RULES_VERSION,
            experiment: self.experiment.clone(),
            arms,
            scenarios: self.scenarios.iter().map(plan_scenario).collect(),
            pairings: self.pairings.iter().map(pairing).collect(),
            roster: self.roster.clone(),
            restricted: self.restricted.clone(),
            games_per_arm,
            seed,
            headline: self.headline.clone(),
            notice: self.notice.clone(),
            stop: self.stop,
            timing: self.timing.clone(),
        }
    }

    /// What the run plays with.
    ///
    /// # Errors
    /// Faults that come about only because one variant of a stack follows another.
    pub(crate) fn cast(&self) -> Result<Cast<'_>, Failure> {
        let probed = self.probes.iter().map(|probing| &self.stacks[probing.of]);
        let arms = self.stacks.iter().chain(probed).map(arm_cast).collect::<Result<_, _>>()?;
        Ok(Cast {
            arenas: self.scenarios.iter().map(|scenario| &scenario.arena).collect(),
            arms,
            player: Box::new(|seat, arm| self.strategy(seat).player(&arm.rules, arm.make())),
        })
    }

    /// How the player of a seat plays; those of a probe do without its behaviour.
    fn strategy(&self, seat: Seat) -> Strategy {
        let strategy = &self.pairings[seat.pairing][seat.side as usize].strategy;
        let probing = seat.arm.checked_sub(self.stacks.len()).map(|probe| &self.probes[probe]);
        match probing {
            Some(p) if p.side as usize == seat.side as usize => {
                strategy.clone().forbid(p.behaviour)
            }
            _ => strategy.clone(),
        }
    }

    /// The arm of a probe of `whole`.
    fn probe(&self, whole: &Arm, probing: &Probing) -> Arm {
        let Probing { of, side, behaviour, games } = *probing;
        let mut pairings = self.pairings.clone();
        for players in &mut pairings {
            players[side as usize] = players[side as usize].without(behaviour);
        }
        let (word, side_word) = (behaviour.word(), side.word());
        Arm {
            name: format!("{}/{side_word}-without-{word}", whole.name),
            title: format!("{}, the {side_word} without {word}", whole.title),
            summary: String::new(),
            stack: whole.stack.clone(),
            pairings: pairings.iter().map(pairing).collect(),
            probe: Some(Probe { of, side, without: word.to_owned(), games }),
        }
    }
}

fn pairing([attacker, defender]: &[Seated; 2]) -> Pairing {
    Pairing { attacker: attacker.named(), defender: defender.named() }
}

fn plan_scenario(scenario: &Scenario) -> PlanScenario {
    PlanScenario {
        name: scenario.name.clone(),
        title: scenario.title().to_owned(),
        digest: scenario.digest.clone(),
    }
}

fn arm(stack: &Stack) -> Arm {
    let variants = stack.variants();
    let join = |text: fn(&Variant) -> &str, with: &str| {
        variants.iter().map(text).collect::<Vec<_>>().join(with)
    };
    let title =
        if variants.is_empty() { "Base rules".to_owned() } else { join(Variant::title, " + ") };
    Arm {
        name: stack.spec(),
        title,
        summary: join(Variant::summary, " "),
        stack: variant_refs(stack),
        pairings: vec![],
        probe: None,
    }
}

/// The variants of a stack as plans and tickets name them.
pub(crate) fn variant_refs(stack: &Stack) -> Vec<VariantRef> {
    stack.variants().iter().map(|v| VariantRef { name: v.spec(), digest: v.digest() }).collect()
}

/// The rules of a stack and the maker of its event hooks.
pub(crate) fn arm_cast(stack: &Stack) -> Result<ArmCast, Failure> {
    let rules =
        stack.rules().map_err(|d| Failure::Input(d.render(crate::screen::complaint_colour())))?;
    Ok(ArmCast { rules, script: script_maker(stack) })
}

/// The maker of a stack's event hooks, if it has any.
pub(crate) fn script_maker(stack: &Stack) -> Option<ScriptMaker> {
    let shared = Arc::new(stack.clone());
    stack.has_events().then(|| -> ScriptMaker {
        Box::new(move || shared.script().expect("a stack with events has a script"))
    })
}
