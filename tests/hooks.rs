//! Every hook has an example that changes a game: so the engine asks it, and the example is run.

use std::collections::BTreeMap;

use ruleshift_batch::{GameEnd, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Arena, EVENT_HOOKS, EventScript, HOOKS, Paths, Table};
use ruleshift_hooks::{Overrides, Source, Stack, Variant, reference};
use ruleshift_players::player;
use ruleshift_scenarios::{SHIPPED, Scenario};

use crate::support::{repository, stage};

/// Games of each scenario within which an example must change one, for each kind of players.
const GAMES: u32 = 12;
/// Players by chance come second: steady ones neither dig nor lay smoke.
const PLAYERS: [&str; 2] = ["steady", "chance"];

/// Hooks that matter only beside another one, what that is, and why.
const COMPANIONS: &[(&str, &str, &str)] = &[
    ("held_fire_dice", "fn may_hold_fire(now, kind) { true }", "nobody may hold his fire"),
    (
        "wreck_pins",
        concat!(
            "fn gun_hit_number(now, band, cover, moved, target_moved) { 2 }\n",
            "fn penetration_number(now, margin) { 2 }\n",
            "fn damage(now, die) { KNOCKED_OUT }",
        ),
        "a vehicle with men aboard is seldom knocked out",
    ),
    (
        "on_extra_card",
        "fn on_turn_start(game, turn) { game.add_card(RUNNER, ATTACKER); }",
        "a script's card is drawn only when it was put into the deck",
    ),
    (
        "on_choice",
        concat!(
            "fn on_turn_start(game, turn) { game.add_card(RUNNER, ATTACKER); }\n",
            "fn on_extra_card(game, card, owner) { game.ask_unit(owner); }",
        ),
        "somebody must be asked",
    ),
    ("shortage_dice", "fn shortage_cards(now, side) { 2 }", "no card leaves a side short"),
];

/// Holds the card and the counter that examples use.
const ABOUT: &str = "fn about() { #{ title: \"T\", summary: \"S.\", cards: #{ runner: #{ title: \"R\" } }, counters: #{ alarms: \"a\" } } }";

/// The example of each hook in the reference, by the hook's name.
fn examples() -> BTreeMap<String, String> {
    let reference = reference();
    let entries = reference.split("#### ").skip(1).filter_map(|entry| {
        let (name, text) = entry.split_once('\n')?;
        let script = text.split("```rhai\n").nth(1)?.split("```").next()?;
        Some((name.trim().to_owned(), script.to_owned()))
    });
    entries.collect()
}

#[track_caller]
fn stack(name: &str, functions: &str) -> Stack {
    let text = format!("{ABOUT}\n{functions}");
    let variant = Variant::load(&Source::new(name, text), &Overrides::none());
    Stack::new(vec![variant.unwrap_or_else(|faults| panic!("{faults}"))])
}

/// A companion, players, scenario and number of a game.
type Played = (&'static str, &'static str, usize, u32);

/// The shipped scenarios and a small made-up fight with some of everything, and digests of games already played.
struct Hall {
    arenas: Vec<Arena>,
    known: BTreeMap<Played, u64>,
}

impl Hall {
    fn new() -> Hall {
        let load = |name| ruleshift_scenarios::shipped(name).expect("a shipped name").arena;
        let trial = repository::text("engine/scenarios/trial-ground.ron");
        let trial = Scenario::from_ron("trial-ground", &trial).expect("it is sound").arena;
        let arenas = SHIPPED.iter().map(|(name, _)| load(name)).chain([trial]).collect();
        Hall { arenas, known: BTreeMap::new() }
    }

    /// The digest of one game, or what stopped it.
    fn play(&self, stack: &Stack, (_, players, scenario, game): Played) -> Result<u64, String> {
        let (arena, rules) = (&self.arenas[scenario], stack.rules().unwrap());
        let paths = Paths::new(arena, &rules);
        let table = Table { arena, rules: &rules, paths: &paths };
        let make = || player(&stage::doctrine(players), &rules);
        let mut script = stack.script();
        let script = script.as_mut().map(|script| &mut **script as &mut dyn EventScript);
        let id = GameId { table, seed: game_seed(4, scenario as u32, game) };
        match play_one(id, script, &mut *make(), &mut *make(), &mut ()) {
            GameEnd::Finished(digest) => Ok(digest),
            GameEnd::Faulted { fault, .. } => Err(fault.message),
        }
    }

    /// The digest of a game under a companion alone; none is the base rules.
    fn without(&mut self, played: Played) -> Result<u64, String> {
        if let Some(&digest) = self.known.get(&played) {
            return Ok(digest);
        }
        let digest = self.play(&stack("companion", played.0), played)?;
        self.known.insert(played, digest);
        Ok(digest)
    }

    /// Whether the example changes a game, or what went wrong.
    fn changes(&mut self, name: &str, example: &str) -> Result<(), String> {
        let companion = COMPANIONS.iter().find(|(hook, ..)| *hook == name).map_or("", |c| c.1);
        let with = stack(name, &format!("{companion}\n{example}"));
        for (players, game) in PLAYERS.iter().flat_map(|p| (0..GAMES).map(move |game| (*p, game))) {
            for scenario in 0..self.arenas.len() {
                let played = (companion, players, scenario, game);
                let plain = self.without(played)?;
                if self.play(&with, played).map_err(|fault| format!("{name}: {fault}"))? != plain {
                    return Ok(());
                }
            }
        }
        Err(format!("{name}: no game of {GAMES} in each scenario is changed by {example}"))
    }
}

#[test]
fn every_hook_changes_a_game() {
    let (examples, mut hall) = (examples(), Hall::new());
    let names = HOOKS.iter().map(|hook| hook.name).chain(EVENT_HOOKS.iter().map(|hook| hook.name));
    let mut complaints = Vec::new();
    for name in names {
        match examples.get(name) {
            Some(example) => complaints.extend(hall.changes(name, example).err()),
            None => complaints.push(format!("{name}: no example")),
        }
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

#[test]
fn companions_are_of_hooks_and_have_a_reason() {
    for (name, companion, reason) in COMPANIONS {
        assert!(examples().contains_key(*name), "{name} is no hook");
        assert!(companion.starts_with("fn ") && !reason.is_empty(), "{name}");
    }
}
