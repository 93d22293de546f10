//! Digests of fixed games, kept in `golden/digests.txt`.
//!
//! One command blesses them: `RULESHIFT_BLESS=1 cargo test -p ruleshift-tests golden`.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::PathBuf;

use ruleshift_batch::{GameEnd, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Arena, EventScript, Paths, RULES_VERSION, Rules, Table};
use ruleshift_hooks::{SHIPPED as VARIANTS, Stack};
use ruleshift_players::MakeScript;
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use crate::support::{repository, stage};

const HEADING: &str = "\
# Digests of fixed games: scenario, rule stack, attacker, defender, seed, digest of the events.
# A change that moves one alters results: raise RULES_VERSION and say why in engine/CHANGELOG.md.
";

/// One game by what decides it.
struct Game {
    scenario: &'static str,
    stack: String,
    players: [&'static str; 2],
    seed: u64,
}

/// Both scenarios under every shipped variant and a stack, and between all kinds of players.
fn games() -> Vec<Game> {
    let stacks = VARIANTS.iter().map(|variant| variant.name.to_owned());
    let stacks = stacks.chain(["two-turn-end-cards:cards=3+steady-nerves".to_owned()]);
    let stacks = stacks.map(|stack| (stack, ["steady", "steady"]));
    let players = [
        ["bold", "cautious"],
        ["cautious", "bold"],
        ["chance", "steady"],
        ["bold", "chance"],
        ["patient", "rash"],
        ["rash", "patient"],
    ];
    let players = players.map(|players| ("base".to_owned(), players));
    let planners = [("base", ["planner:playouts=4", "steady"])].into_iter();
    let planners = planners.chain([("steady-nerves", ["bold", "planner:playouts=4"])]);
    let planners = planners.map(|(stack, players)| (stack.to_owned(), players));
    let kinds: Vec<_> = stacks.chain(players).chain(planners).collect();
    let mut games = Vec::new();
    for (place, (scenario, _)) in SCENARIOS.iter().enumerate() {
        for (n, (stack, players)) in kinds.iter().enumerate() {
            let seed = game_seed(20, place as u32, n as u32);
            games.push(Game { scenario, stack: stack.clone(), players: *players, seed });
        }
    }
    games
}

/// A scenario with the ways over it, which most house rules leave as they are.
struct Map {
    scenario: &'static str,
    arena: Arena,
    paths: Paths,
}

impl Map {
    fn new(scenario: &'static str) -> Map {
        let arena = ruleshift_scenarios::shipped(scenario).unwrap().arena;
        Map { scenario, paths: Paths::new(&arena, &Rules::base()), arena }
    }
}

impl Game {
    fn key(&self) -> String {
        let [attacker, defender] = self.players;
        format!("{} {} {attacker} {defender} {:016x}", self.scenario, self.stack, self.seed)
    }

    /// Plays it on its map and by its stack: the digest of its events.
    fn digest(&self, Map { arena, paths, .. }: &Map, (stack, rules): &(Stack, Rules)) -> u64 {
        let own = (!paths.serve(arena, rules)).then(|| Paths::new(arena, rules));
        let table = Table { arena, rules, paths: own.as_ref().unwrap_or(paths) };
        let make = || stack.script().expect("asked of a stack with event hooks");
        let make: Option<MakeScript<'_>> = if stack.has_events() { Some(&make) } else { None };
        let [mut attacker, mut defender] =
            self.players.map(|name| stage::strategy(name).player(rules, make));
        let mut script = stack.script();
        let script = script.as_mut().map(|script| &mut **script as &mut dyn EventScript);
        let id = GameId { table, seed: self.seed };
        match play_one(id, script, &mut *attacker, &mut *defender, &mut ()) {
            GameEnd::Finished(digest) => digest,
            GameEnd::Faulted { fault, .. } => panic!("{}: {}", self.key(), fault.message),
        }
    }
}

fn path() -> PathBuf {
    repository::root().join("tests/golden/digests.txt")
}

/// What the file should hold.
fn played() -> String {
    let mut text = format!("{HEADING}rules {RULES_VERSION}\n");
    let mut stacks: BTreeMap<String, (Stack, Rules)> = BTreeMap::new();
    let maps: Vec<Map> = SCENARIOS.iter().map(|(scenario, _)| Map::new(scenario)).collect();
    for game in games() {
        let stack = stacks.entry(game.stack.clone()).or_insert_with(|| {
            let stack = stage::stack(&game.stack);
            let rules = stack.rules().unwrap();
            (stack, rules)
        });
        let map = maps.iter().find(|map| map.scenario == game.scenario).unwrap();
        let _ = writeln!(text, "{} {:016x}", game.key(), game.digest(map, stack));
    }
    text
}

#[test]
fn golden_games_are_what_they_were() {
    let played = played();
    if std::env::var_os("RULESHIFT_BLESS").is_some() {
        fs::write(path(), &played).unwrap();
    }
    let kept = fs::read_to_string(path()).unwrap_or_default();
    let moved: Vec<&str> =
        played.lines().filter(|line| !kept.lines().any(|l| l == *line)).collect();
    assert!(
        moved.is_empty(),
        "{} golden lines have moved; now they are:\n{}\n\
         If results were to change: raise RULES_VERSION in engine/game/src/lib.rs, say why in \
         engine/CHANGELOG.md, then\n  RULESHIFT_BLESS=1 cargo test -p ruleshift-tests golden",
        moved.len(),
        moved.join("\n")
    );
    assert_eq!(kept, played, "the file holds nothing else");
}

#[test]
fn golden_games_cover_every_variant_scenario_and_doctrine() {
    let games = games();
    let named = |name: &str| {
        games.iter().any(|g| g.scenario == name || g.stack == name || g.players.contains(&name))
    };
    let doctrines = ruleshift_players::shipped();
    let names = VARIANTS.iter().map(|v| v.name).chain(SCENARIOS.iter().map(|s| s.0));
    for name in names.chain(doctrines.iter().map(|d| d.name.as_str())) {
        assert!(named(name), "{name} has no golden game");
    }
}
