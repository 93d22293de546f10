//! A few games over all shipped scenarios, to see whether a rule, and each hook of it, matters.
//!
//! The games and their luck are always the same ones, so a check says the same thing every time.

use std::thread;

use ruleshift_batch::{ArmCast, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{EVENT_HOOKS, EventScript, Hook, Paths, Rules, Table};
use ruleshift_hooks::{Stack, Variant};
use ruleshift_record::RunRecord;
use ruleshift_scenarios::{SHIPPED, Scenario};
use serde::Serialize;

use super::did::Did;
use crate::exit::Failure;
use crate::resolve::{self, Wrong};
use crate::wire::{Seated, Setting};

/// Games over each scenario.
const GAMES: u32 = 8;
/// Seed of all their luck.
const SEED: u64 = 1;
/// Doctrine of both sides.
const DOCTRINE: &str = "steady";

/// The scenarios and players of the trial games, made once for all stacks.
pub(crate) struct TrialGround {
    scenarios: Vec<Scenario>,
    player: Seated,
}

/// How the trial games of one stack went.
#[derive(Debug, Serialize)]
pub(crate) struct Trials {
    /// Games played under each set of rules.
    pub(crate) games: usize,
    /// Scenarios they were spread over.
    pub(crate) scenarios: usize,
    /// Games that go otherwise under the whole stack than under the base rules.
    pub(crate) otherwise: usize,
    /// What the event hooks of the whole stack did in its games; none when it has no event hook.
    pub(crate) did: Option<Did>,
    /// The variants of the stack, in order.
    pub(crate) variants: Vec<VariantTrials>,
}

/// What one variant did in the trial games.
#[derive(Debug, Serialize)]
pub(crate) struct VariantTrials {
    /// Games that go otherwise than under the stack as far as the variant before it.
    pub(crate) otherwise: usize,
    /// Hooks without which all games would have gone the same way.
    pub(crate) never_mattered: Vec<&'static str>,
}

impl TrialGround {
    /// Loads the shipped scenarios, which takes most of the time, each on a thread of its own.
    ///
    /// # Errors
    /// A doctrine that is not there, which does not happen.
    pub(crate) fn load() -> Result<TrialGround, Failure> {
        let scenarios = thread::scope(|scope| {
            let load = |name: &'static str| move || resolve::scenario(name);
            let started: Vec<_> = SHIPPED.iter().map(|(name, _)| scope.spawn(load(name))).collect();
            let loaded = started.into_iter().map(|thread| {
                thread.join().unwrap_or_else(|_| Err(Failure::Check("a scenario is faulty".into())))
            });
            loaded.collect::<Result<Vec<_>, _>>()
        })?;
        Ok(TrialGround { scenarios, player: resolve::player(DOCTRINE)? })
    }

    /// Plays the games under the base rules, under the stack as far as each of its variants, and
    /// under the same less each of the hooks that work in that variant.
    ///
    /// # Errors
    /// A fault of the rules in one of the games.
    pub(crate) fn play(&self, stack: &Stack, hooks: &[Vec<&'static str>]) -> Result<Trials, Wrong> {
        let arms = Arms::of(stack, hooks);
        let (count, scenarios) = (arms.stacks.len(), self.scenarios.len());
        let setting = Setting {
            stacks: arms.stacks,
            scenarios: self.scenarios.clone(),
            pairings: vec![[self.player.clone(), self.player.clone()]],
            ..Setting::default()
        };
        let games = GAMES * scenarios as u32;
        let plan = setting.plan(games, SEED);
        let typed = |e: String| Wrong::Typed { message: e };
        let cast = setting.cast().map_err(|e| typed(e.to_string()))?;
        let threads = crate::conduct::cores();
        let run = ruleshift_batch::run(&plan, &cast, threads, &()).map_err(typed)?;
        // The arms behind these lack a hook: what stops there is no fault of the script.
        if let Some(fault) = run.faults.iter().find(|fault| fault.arm <= hooks.len()) {
            let (message, ticket) = (fault.message.clone(), fault.ticket.clone());
            return Err(Wrong::Stopped { message, ticket });
        }
        let whole = &cast.arms[hooks.len()];
        let ends = Ends::of(&run, count);
        let variants = (0..hooks.len()).map(|n| VariantTrials {
            otherwise: ends.otherwise(n, n + 1),
            never_mattered: (hooks[n].iter().zip(&arms.without[n]))
                .filter(|(_, without)| ends.otherwise(**without, n + 1) == 0)
                .map(|(hook, _)| *hook)
                .collect(),
        });
        Ok(Trials {
            games: games as usize,
            scenarios,
            otherwise: ends.otherwise(0, hooks.len()),
            did: whole.script.is_some().then(|| self.watch(whole)),
            variants: variants.collect(),
        })
    }

    /// Plays the games of an arm once more, each scenario on a thread of its own, and counts what
    /// its event hooks do. A sum does not tell in which order it was made.
    fn watch(&self, arm: &ArmCast) -> Did {
        thread::scope(|scope| {
            let started: Vec<_> = (0..self.scenarios.len())
                .map(|place| scope.spawn(move || self.watch_scenario(arm, place)))
                .collect();
            let counted = started.into_iter().map(|thread| thread.join().unwrap_or_default());
            counted.fold(Did::default(), |sum, did| sum.and(&did))
        })
    }

    fn watch_scenario(&self, arm: &ArmCast, place: usize) -> Did {
        let (arena, rules) = (&self.scenarios[place].arena, &arm.rules);
        let paths = Paths::new(arena, rules);
        let mut script = arm.script.as_ref().map(|make| make());
        let player = || self.player.strategy.player(rules, arm.make());
        let mut players = [player(), player()];
        let mut did = Did::default();
        for game in 0..GAMES {
            let table = Table { arena, rules, paths: &paths };
            let id = GameId { table, seed: game_seed(SEED, place as u32, game) };
            let script: Option<&mut dyn EventScript> = match &mut script {
                Some(script) => Some(&mut **script),
                None => None,
            };
            let [attacker, defender] = &mut players;
            play_one(id, script, &mut **attacker, &mut **defender, &mut did);
        }
        did
    }
}

/// For each variant of a stack the hooks that change an answer or may act. `steps` are the tables
/// after each variant, the base rules before them.
pub(crate) fn working_hooks(stack: &Stack, steps: &[Rules]) -> Vec<Vec<&'static str>> {
    let of = |(variant, rules): (&Variant, &[Rules])| {
        let differs = |hook: &&Hook| rules[0].table(**hook) != rules[1].table(**hook);
        let values = variant.value_hooks().iter().filter(differs).map(|hook| hook.spec().name);
        values.chain(variant.event_hooks().iter().map(|&n| EVENT_HOOKS[n].name)).collect()
    };
    stack.variants().iter().zip(steps.windows(2)).map(of).collect()
}

/// The rule stacks to play under.
struct Arms {
    /// First the base rules, then the stack as far as each variant, then those less one hook.
    stacks: Vec<Stack>,
    /// For each variant and each of its working hooks, the arm without it.
    without: Vec<Vec<usize>>,
}

impl Arms {
    fn of(stack: &Stack, hooks: &[Vec<&'static str>]) -> Arms {
        let variants = stack.variants();
        let upto = |n: usize| Stack::new(variants[..n].to_vec());
        let mut stacks: Vec<Stack> = (0..=variants.len()).map(upto).collect();
        let mut without = Vec::new();
        for (n, hooks) in hooks.iter().enumerate() {
            if hooks.len() == 1 {
                // Less its only hook it is the stack before it.
                without.push(vec![n]);
                continue;
            }
            let less = |hook: &&str| {
                let mut less = variants[..n].to_vec();
                less.push(variants[n].without(hook));
                Stack::new(less)
            };
            without.push((stacks.len()..stacks.len() + hooks.len()).collect());
            stacks.extend(hooks.iter().map(less));
        }
        Arms { stacks, without }
    }
}

/// For each arm the digest of each of its games.
struct Ends(Vec<Vec<u64>>);

impl Ends {
    fn of(run: &RunRecord, arms: usize) -> Ends {
        Ends((0..arms).map(|arm| run.games.digests(arm)).collect())
    }

    /// Games that go otherwise in one arm than in another; all, when one of them was stopped.
    fn otherwise(&self, one: usize, other: usize) -> usize {
        let (one, other) = (&self.0[one], &self.0[other]);
        if one.len() != other.len() {
            return one.len().max(other.len());
        }
        one.iter().zip(other).filter(|(a, b)| a != b).count()
    }
}
