//! A rule that changes nothing shifts nothing, to the bit.

use ruleshift_game::{EVENT_HOOKS, HOOKS};
use ruleshift_scenarios::SHIPPED;

use crate::rates::times;
use crate::support::Run;

/// Games of each scenario; `RULESHIFT_TRIALS=4` plays a thousand.
const SEEDS: usize = 250;

/// The template gives every value hook its `now` back and every event hook nothing to do.
const TEMPLATE: &str = "variants/base/rules.rhai";

fn shifts_nothing(variant: &str) {
    let run = Run::fine(&format!("{variant} --games 200"));
    let key = |arm| {
        let games = run.arm(arm);
        games.iter().map(|g| (g.scenario, g.game, g.seed, g.digest)).collect::<Vec<_>>()
    };
    assert_eq!(key(0).len(), 200);
    assert_eq!(key(0), key(1), "event for event the same games");
    for shift in run.summary().metrics {
        let found = (shift.shift, shift.low, shift.high);
        assert_eq!(found, (0.0, 0.0, 0.0), "{}", shift.metric);
        assert_eq!(shift.mean.to_bits(), shift.reference_mean.to_bits(), "{}", shift.metric);
        assert_eq!(shift.verdict.word(), "no difference worth noticing", "{}", shift.metric);
    }
}

#[test]
fn the_template_by_path_shifts_nothing() {
    shifts_nothing(TEMPLATE);
}

#[test]
fn base_against_itself_shifts_nothing() {
    shifts_nothing("base");
}

/// A null rule with an event hook that is called and does nothing.
#[test]
fn an_event_hook_that_does_nothing_shifts_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("idle.rhai");
    let text = r#"
        fn about() { #{ title: "Idle", summary: "Looks on." } }
        fn on_card_drawn(game, card, owner) { let seen = game.cards_drawn; }
        fn on_unit_pinned(game, unit, pins) { let seen = game.pins(unit); }
    "#;
    std::fs::write(&path, text).unwrap();
    shifts_nothing(path.to_str().unwrap());
}

/// Every value hook answers `now`, every event hook looks on: event for event the same games over
/// all scenarios, some hundred seeds each: all hooks are asked thousands of times.
#[test]
fn every_hook_that_changes_nothing_shifts_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("onlookers.rhai");
    let text = ruleshift_hooks::template().replace(" { }\n", " { let seen = game.turn; }\n");
    std::fs::write(&path, &text).unwrap();
    let hooks = EVENT_HOOKS.iter().map(|hook| hook.name);
    for name in hooks.chain(HOOKS.iter().map(|hook| hook.name)) {
        let line = text.lines().find(|line| line.starts_with(&format!("fn {name}(")));
        assert!(line.is_some_and(|line| line.contains("now }") || line.contains("seen")), "{name}");
    }
    let path = path.to_str().unwrap();
    let seeds = SEEDS * times() as usize;
    let games = SHIPPED.len() * seeds;
    let run = Run::fine(&format!("{TEMPLATE} {path} --games {games}"));
    let games = |arm| {
        let games = run.arm(arm);
        let keys = games.iter().map(|g| (g.scenario, g.game, g.seed, g.digest));
        keys.collect::<Vec<_>>()
    };
    let base = games(0);
    for scenario in 0..SHIPPED.len() {
        assert_eq!(base.iter().filter(|game| game.0 == scenario).count(), seeds);
    }
    for arm in [1, 2] {
        let other = games(arm);
        let differs = base.iter().zip(&other).find(|(one, other)| one != other);
        assert_eq!(differs, None, "arm {arm}");
        assert_eq!(base.len(), other.len());
    }
}
