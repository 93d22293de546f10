//! Event hooks: what they read and do through the game, in which order, and how they fail.

use ruleshift_game::{Act, EVENT_HOOKS, EventScript, Happening, Side, trial_handle};
use ruleshift_hooks::{Overrides, Source, Stack, Variant};

fn variant(name: &str, body: &str) -> Variant {
    let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{body}");
    Variant::load(&Source::new(name, text), &Overrides::none()).unwrap_or_else(|e| panic!("{e}"))
}

fn script(body: &str) -> Box<dyn EventScript> {
    Stack::new(vec![variant("test", body)]).script().expect("it has an event hook")
}

const CARD: Happening = Happening::CardDrawn { card: 3, owner: Some(Side::Attacker) };
const START: Happening = Happening::GameStart {};

#[test]
fn a_script_listens_to_what_it_defines_and_does_something_in() {
    let script =
        script("fn on_turn_end(game, turn) { game.note(\"end\"); } fn on_game_start(game) { }");
    let heard =
        |name: &str| script.listens(EVENT_HOOKS.iter().position(|hook| hook.name == name).unwrap());
    assert!(heard("on_turn_end") && !heard("on_game_start") && !heard("on_card_drawn"));
    assert!(!script.listens(usize::MAX));
    assert!(Stack::new(vec![variant("quiet", "fn on_game_start(game) { }")]).script().is_none());
}

#[test]
fn acts_reach_the_handle_and_questions_see_them() {
    let mut script = script(
        "fn on_card_drawn(game, card, owner) {
            if card == LEADER_CARD && owner == ATTACKER {
                let before = game.pins(1);
                game.add_pins(1, 2);
                game.remove_pins(1, 1);
                game.grant_action(game.pins(1) - before);
                game.note(`turn ${game.turn}, ${game.units} units, ${card}`);
            }
        }",
    );
    let mut handle = trial_handle(CARD, 0);
    script.call(CARD, &mut handle).unwrap();
    assert_eq!(handle.unit(1).unwrap().pins, 2);
    assert_eq!(handle.acts()[2], Act::Actions { unit: 1, by: 1 });
    assert_eq!(handle.acts()[3], Act::Note("turn 1, 6 units, 3".to_owned()));
}

#[test]
fn hooks_of_a_stack_run_in_its_order() {
    let notes = |names: [&str; 2]| {
        let body = |name: &str| format!("fn on_game_start(game) {{ game.note(\"by {name}\"); }}");
        let variants = names.map(|name| variant(name, &body(name)));
        let mut script = Stack::new(variants.to_vec()).script().unwrap();
        let mut handle = trial_handle(START, 0);
        script.call(START, &mut handle).unwrap();
        handle.acts().to_vec()
    };
    let by = |name: &str| Act::Note(format!("by {name}"));
    assert_eq!(notes(["one", "two"]), [by("one"), by("two")]);
    assert_eq!(notes(["two", "one"]), [by("two"), by("one")]);
}

#[test]
fn equal_games_give_equal_answers() {
    let mut script = script(
        "fn on_card_drawn(game, card, owner) {
            for n in 0..10 { if game.roll() >= 4 { game.add_pins(0, 1); } }
        }",
    );
    let mut play = || {
        let mut handle = trial_handle(CARD, 0);
        script.call(CARD, &mut handle).unwrap();
        handle.acts().to_vec()
    };
    let first = play();
    assert!(!first.is_empty());
    assert_eq!(first, play());
}

#[test]
fn a_refused_act_is_a_warning_at_load_and_a_fault_in_play() {
    let hidden =
        variant("rash", "fn on_card_drawn(game, card, owner) {\n    game.add_pins(2, 1);\n}");
    insta::assert_snapshot!(hidden.warnings(), @r#"
    warning[refused]: `on_card_drawn(game, card = TURN_END_CARD, owner = NOBODY)`: unit 2 is not on the table: ask `game.on_table(unit)` first
     --> rash:3:10
      |
    3 |     game.add_pins(2, 1);
      |          ^^^^^^^^
      |
      = help: this is how it went in a made-up game with units 0 to 5, of which 2 and 5 are hidden and 4 may ride
    "#);
    let mut script = Stack::new(vec![hidden]).script().unwrap();
    let mut handle = trial_handle(CARD, 0);
    let fault = script.call(CARD, &mut handle).unwrap_err();
    insta::assert_snapshot!(fault, @r#"
    error[refused]: `on_card_drawn(game, card = LEADER_CARD, owner = ATTACKER)`: unit 2 is not on the table: ask `game.on_table(unit)` first
     --> rash:3:10
      |
    3 |     game.add_pins(2, 1);
      |          ^^^^^^^^
    "#);
    assert_eq!(handle.turn(), 1, "the handle came back");
}

#[test]
fn a_fault_names_the_script_of_the_stack_it_is_in() {
    let good = variant("good", "fn on_game_start(game) { game.note(\"x\"); }");
    let bad = variant("bad", "fn on_game_start(game) { game.grant_action(5); }");
    let mut script = Stack::new(vec![good, bad]).script().unwrap();
    let fault = script.call(START, &mut trial_handle(START, 0)).unwrap_err();
    assert!(fault.message.contains("--> bad:2"), "{fault}");
}

/// What becomes of a card is tried for those it is put in for; without that, for everybody.
#[test]
fn a_card_is_tried_for_those_it_is_put_in_for() {
    let load = |start: &str| {
        let text = format!(
            "fn about() {{ #{{ title: \"T\", summary: \"S.\", cards: #{{ runner: #{{ title: \"R\" }} }} }} }}
            {start}
            fn on_extra_card(game, card, owner) {{ game.ask_unit(owner); }}"
        );
        let loaded = Variant::load(&Source::new("runner", text), &Overrides::none());
        loaded.unwrap_or_else(|faults| panic!("{faults}")).warnings().to_string()
    };
    assert_eq!(load("fn on_turn_start(game, turn) { game.add_card(RUNNER, DEFENDER); }"), "");
    let nobody = load("fn on_turn_start(game, turn) { game.add_card(RUNNER, NOBODY); }");
    assert!(nobody.contains("NOBODY cannot choose: ask ATTACKER or DEFENDER"), "{nobody}");
    assert!(load("").contains("NOBODY cannot choose"));
}

/// A unit may be in a vehicle when it is activated, which a script that acts on it has to ask.
#[test]
fn riders_are_among_the_units_tried() {
    let rash = variant("rash", "fn on_unit_activated(game, unit) { game.add_pins(unit, 1); }");
    assert!(rash.warnings().to_string().contains("unit 4 is not on the table"));
    let careful =
        "fn on_unit_activated(game, unit) { if game.on_table(unit) { game.add_pins(unit, 1); } }";
    assert!(variant("careful", careful).warnings().is_empty());
    let plain = "fn on_unit_activated(game, unit) { game.grant_action(unit); }";
    assert!(variant("plain", plain).warnings().is_empty(), "riders have actions too");
}

/// A script that stays just within its allowance in each call is stopped by that of the game, which
/// is whole again in the next one.
#[test]
fn all_calls_of_a_game_share_an_allowance() {
    let mut script =
        script("fn on_card_drawn(game, card, owner) { for n in 0..2000 { let m = n; } }");
    let mut calls = || {
        script.begin();
        (1..2_000).find_map(|n| script.call(CARD, &mut trial_handle(CARD, 0)).err().map(|f| (n, f)))
    };
    let (after, fault) = calls().expect("it is stopped");
    assert!((200..1_000).contains(&after), "after {after} calls");
    insta::assert_snapshot!(fault, @r#"
    error[budget]: all event hooks together took more than 2000000 operations in one game, the last ones for `on_card_drawn(game, card = LEADER_CARD, owner = ATTACKER)`
     --> test:2:4
      |
    2 | fn on_card_drawn(game, card, owner) { for n in 0..2000 { let m = n; } }
      |    ^^^^^^^^^^^^^
      |
      = help: do less in each call, or in fewer of them
    "#);
    assert_eq!(calls().map(|(n, _)| n), Some(after), "the next game has its own");
}
