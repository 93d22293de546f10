//! What a loaded variant says of itself: digest, options, hooks, changes.

use ruleshift_game::{Hook, Rules};
use ruleshift_hooks::{Overrides, Source, Stack, StackSpec, Variant};

const OPTIONS: &str = "options: #{ less: #{ default: 1, min: 0, max: 3, about: \"how much\" } }";

fn load(text: &str, overrides: Overrides) -> Variant {
    let about = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\", {OPTIONS} }} }}\n");
    let source = Source::new("house", about + text);
    Variant::load(&source, &overrides).unwrap_or_else(|e| panic!("{e}"))
}

fn digest(text: &str) -> String {
    load(text, Overrides::none()).digest()
}

#[test]
fn the_digest_of_value_hooks_is_that_of_their_answers() {
    let one = digest("fn marker_actions(now) { now - 1 }");
    assert_eq!(one, digest("// With a comment.\nfn marker_actions(n) { let x = n; x - LESS }"));
    assert_eq!(one, digest("private fn marker_actions(now) { if now > 0 { now - 1 } else { 0 } }"));
    assert_ne!(one, digest("fn marker_actions(now) { now - 2 }"));
    let none = digest("");
    assert_eq!(none, digest("fn marker_actions(now) { now }"));
    assert_eq!(none, digest("fn on_game_start(game) { /* nothing */ }"));
    assert_eq!(one.len(), 8);
}

#[test]
fn the_digest_of_event_hooks_is_that_of_the_text_and_the_options() {
    let text = "fn on_game_start(game) { game.note(`${LESS}`); }";
    let one = digest(text);
    assert_eq!(one, digest(text));
    assert_ne!(one, digest(&format!("{text} // once more")));
    assert_ne!(one, load(text, Overrides::from([("less", 2)])).digest());
}

#[test]
fn options_are_constants_everywhere() {
    let text = "
        fn marker_actions(now) { helper(now) }
        fn helper(now) { deeper(now) }
        fn deeper(now) { switch now { LESS => 0, _ => now - LESS } }
        fn deploy_distance(now) { LESS }
        fn on_game_start(game) { game.note(said()); }
        fn said() { `less is ${LESS}` }";
    for value in 0..=3 {
        let variant = load(text, Overrides::from([("less", value)]));
        let base = Rules::base().marker_actions();
        assert_eq!(variant.on_base().marker_actions(), base - value as i32);
        assert_eq!(variant.on_base().deploy_distance(), value as i32);
        let mut script = Stack::new(vec![variant]).script().unwrap();
        let start = ruleshift_game::Happening::GameStart {};
        let mut handle = ruleshift_game::trial_handle(start, 0);
        script.call(start, &mut handle).unwrap();
        assert_eq!(handle.acts(), [ruleshift_game::Act::Note(format!("less is {value}"))]);
    }
}

#[test]
fn a_variant_is_named_as_it_is_typed() {
    let plain = load("", Overrides::none());
    let given = load("", Overrides::from([("less", 2)]));
    assert_eq!([plain.spec(), given.spec()], ["house", "house:less=2"]);
    let stack = Stack::new(vec![plain, given]);
    assert_eq!(stack.spec(), "house+house:less=2");
    assert_eq!(stack.spec().parse::<StackSpec>().unwrap().to_string(), stack.spec());
    assert_eq!(Stack::default().spec(), "base");
    let option = &stack.variants()[1].options()[0];
    assert_eq!((option.value, option.spec.range().as_str()), (2, "0 to 3"));
}

#[test]
fn changes_are_told_in_words() {
    let variant = load(
        "fn marker_actions(now) { now - LESS }
         fn turn_ends(now, drawn, in_deck) { drawn == in_deck }
         fn deploy_distance(now) { now }",
        Overrides::none(),
    );
    assert_eq!(variant.value_hooks(), [Hook::TurnEnds, Hook::MarkerActions, Hook::DeployDistance]);
    let text: Vec<String> =
        variant.changes().iter().map(|c| format!("{} {}", c.hook, c.words)).collect();
    insta::assert_snapshot!(text.join("\n"), @r#"
    turn_ends in 30 of 36 cases (true -> false)
    marker_actions always (4 -> 3)
    deploy_distance in no case
    "#);
    assert_eq!(variant.idle_hooks(), [Hook::DeployDistance]);
}

#[test]
fn a_variant_less_a_hook_has_all_but_that() {
    let variant = load(
        "fn marker_actions(now) { now - LESS }
         fn deploy_distance(now) { now + 1 }
         fn on_game_start(game) { game.note(\"begun\"); }",
        Overrides::none(),
    );
    let less = variant.without("marker_actions");
    assert_eq!(less.value_hooks(), [Hook::DeployDistance]);
    assert_eq!(less.on_base().marker_actions(), Rules::base().marker_actions());
    assert_eq!(less.on_base().deploy_distance(), variant.on_base().deploy_distance());
    assert_eq!(
        (less.event_hooks().len(), variant.without("on_game_start").event_hooks().len()),
        (1, 0)
    );
    let stack = Stack::new(vec![less.clone(), less]).rules().unwrap();
    assert_eq!(stack.marker_actions(), Rules::base().marker_actions());
}

#[test]
fn a_stack_may_fail_where_its_variants_do_not() {
    let fewer = load("fn marker_actions(now) { now - 3 }", Overrides::none());
    let faults = Stack::new(vec![fewer.clone(), fewer]).rules().unwrap_err();
    insta::assert_snapshot!(faults, @r#"
    error[out-of-range]: `marker_actions(now = 1)` gave -2, expected 0 to 8
     --> house:2:4
      |
    2 | fn marker_actions(now) { now - 3 }
      |    ^^^^^^^^^^^^^^
      |
      = help: `clamp(..., 0, 8)` keeps it in range
    "#);
}
