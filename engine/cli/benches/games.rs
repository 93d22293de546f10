//! Games per second on one core, and what house rules cost, as ratios within one run.
//!
//! All settings are played in turn, round after round, on the same seeds; the figures are medians
//! over the rounds, so that a busy machine slows all settings alike.
#![allow(clippy::disallowed_types, clippy::print_stdout, reason = "a bench measures and prints")]

use std::time::Instant;

use ruleshift_batch::{Collector, GameEnd, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{EventScript, Paths, Rules, Table};
use ruleshift_hooks::{Overrides, Source, Stack, Variant};
use ruleshift_players::{Doctrine, PLANNER, PlayerSpec, Strategy, player};
use ruleshift_record::Timing;
use ruleshift_scenarios::Scenario;

const ROUNDS: usize = 15;
const GAMES: u32 = 200;

/// One setting to be timed: a rule stack on a scenario.
struct Setting {
    label: &'static str,
    /// The share of the base game's rate that it is to reach.
    goal: Option<f64>,
    rules: Rules,
    paths: Paths,
    stack: Stack,
}

fn variant(name: &str) -> Variant {
    let shipped = ruleshift_hooks::shipped(name).expect("a shipped variant");
    Variant::load(&Source::new(shipped.name, shipped.text), &Overrides::none())
        .expect("shipped variants load")
}

fn script(name: &str, hooks: &str) -> Variant {
    let text =
        format!("fn about() {{ #{{ title: \"A bench\", summary: \"For a bench.\" }} }}\n{hooks}");
    Variant::load(&Source::new(name, text), &Overrides::none())
        .expect("a script that changes nothing loads")
}

/// So many value hooks defined, each returning what it is given: the same game, from a script.
fn null_of_value_hooks(count: usize) -> Variant {
    let hooks = ruleshift_game::HOOKS.iter().rev().take(count);
    let hooks: String = hooks.map(|hook| format!("fn {} {{ now }}\n", hook.signature())).collect();
    script("values", &hooks)
}

/// Every event hook defined, each looking at the turn: what being told of everything costs.
fn listener() -> Variant {
    let hooks = ruleshift_game::EVENT_HOOKS.iter();
    let hooks: String =
        hooks.map(|hook| format!("fn {} {{ let t = game.turn; }}\n", hook.signature())).collect();
    script("listener", &hooks)
}

/// An event hook that looks at every card and hardly ever acts.
fn watcher() -> Variant {
    script(
        "watcher",
        "fn on_card_drawn(game, card, owner) { if card == LEADER_CARD && game.turn > 30 { game.note(\"late\"); } }",
    )
}

fn settings(scenario: &Scenario) -> Vec<Setting> {
    let all = ruleshift_game::HOOKS.len();
    let stacks = [
        ("base rules", None, Stack::default()),
        ("ten value hooks", Some(0.95), Stack::new(vec![null_of_value_hooks(10)])),
        ("all value hooks", Some(0.95), Stack::new(vec![null_of_value_hooks(all)])),
        ("event hook on every card", Some(0.7), Stack::new(vec![watcher()])),
        ("every event hook, looking on", None, Stack::new(vec![listener()])),
        ("steady-nerves, loops over units", None, Stack::new(vec![variant("steady-nerves")])),
    ];
    let setting = |(label, goal, stack): (&'static str, Option<f64>, Stack)| {
        let rules = stack.rules().expect("shipped stacks fold");
        Setting { label, goal, paths: Paths::new(&scenario.arena, &rules), rules, stack }
    };
    stacks.map(setting).into()
}

/// Nanoseconds per game.
fn time(scenario: &Scenario, setting: &Setting, doctrine: &Doctrine) -> f64 {
    let timing = Timing::default();
    let table = Table { arena: &scenario.arena, rules: &setting.rules, paths: &setting.paths };
    let (mut attacker, mut defender) =
        (player(doctrine, &setting.rules), player(doctrine, &setting.rules));
    let mut script = setting.stack.script();
    let started = Instant::now();
    for game in 0..GAMES {
        let mut collector = Collector::new(&timing, table);
        let id = GameId { table, seed: game_seed(1, 0, game) };
        let script: Option<&mut dyn EventScript> = match &mut script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        let end = play_one(id, script, &mut *attacker, &mut *defender, &mut collector);
        assert!(matches!(end, GameEnd::Finished(_)), "a bench times whole games: {end:?}");
    }
    started.elapsed().as_nanos() as f64 / f64::from(GAMES)
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// What each player costs: on the attacker's side, with steady against it.
fn players() {
    println!("players against steady, hasty-attack, base rules, one core");
    let scenario = ruleshift_scenarios::shipped("hasty-attack").expect("a shipped scenario");
    let rules = Rules::base();
    let table = Table {
        arena: &scenario.arena,
        rules: &rules,
        paths: &Paths::new(&scenario.arena, &rules),
    };
    let doctrines = ruleshift_players::shipped();
    let find = |name: &str| doctrines.iter().find(|d| d.name == name).cloned();
    let planners = ["planner:playouts=12", "planner", "planner:playouts=192"];
    let names = doctrines.iter().map(|d| d.name.as_str());
    for name in names.chain(planners) {
        let spec: PlayerSpec = name.parse().expect("the text of a player");
        let strategy = Strategy::new(&spec, &mut |name| find(name).ok_or(String::new()))
            .expect("a shipped player");
        let games = if name.starts_with(PLANNER) { 20 } else { 2000 };
        let (mut attacker, mut defender) =
            (strategy.player(&rules, None), player(&find("steady").expect("shipped"), &rules));
        let started = Instant::now();
        for game in 0..games {
            let id = GameId { table, seed: game_seed(1, 0, game) };
            let end = play_one(id, None, &mut *attacker, &mut *defender, &mut ());
            assert!(matches!(end, GameEnd::Finished(_)), "a bench times whole games: {end:?}");
        }
        let rate = f64::from(games) / started.elapsed().as_secs_f64();
        println!("  {name:32} {rate:10.1} games a second");
    }
}

fn main() {
    players();
    let doctrines = ruleshift_players::shipped();
    let steady = doctrines.iter().find(|d| d.name == "steady").expect("a shipped doctrine");
    for (name, _) in ruleshift_scenarios::SHIPPED {
        let scenario = ruleshift_scenarios::shipped(name).expect("a shipped scenario");
        let settings = settings(&scenario);
        let rounds: Vec<Vec<f64>> = (0..ROUNDS)
            .map(|_| settings.iter().map(|s| time(&scenario, s, steady)).collect())
            .collect();
        println!(
            "{name}, steady on both sides, one core, medians of {ROUNDS} rounds of {GAMES} games"
        );
        for (n, setting) in settings.iter().enumerate() {
            let nanos = median(rounds.iter().map(|round| round[n]).collect());
            let share = median(rounds.iter().map(|round| round[0] / round[n]).collect());
            let goal = setting.goal.map_or(String::new(), |goal| format!("  (goal {goal:.2})"));
            let rate = 1e9 / nanos;
            println!("  {:32} {rate:7.0} games a second  {share:.3} of base{goal}", setting.label);
        }
    }
}
