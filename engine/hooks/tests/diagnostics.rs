//! What a script with a faulty make-up is told.

mod told;

use ruleshift_hooks::{Overrides, Source, Variant};
use told::{ABOUT, body};

#[test]
fn syntax_errors() {
    insta::assert_snapshot!(body("fn marker_actions(now) { now - }"), @r#"
    error[syntax]: a value is missing before `}`
     --> house:2:32
      |
    2 | fn marker_actions(now) { now - }
      |                                ^
      |
      = help: a value is a number, a name, a call, a text, a list or a map
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { now"), @r#"
    error[syntax]: the script ends too early
     --> house:2:29
      |
    2 | fn marker_actions(now) { now
      |                             ^
      |
      = help: a `}` or a `)` is missing
      = help: `marker_actions` on line 2 is not closed
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { \"now }"), @r#"
    error[syntax]: this text has no closing quote
     --> house:2:26
      |
    2 | fn marker_actions(now) { "now }
      |                          ^
      |
      = help: end it with the sign it begins with, in the same line
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("function marker_actions(now) { now }"), @r#"
    error[syntax]: a function begins with `fn`
     --> house:2:1
      |
    2 | function marker_actions(now) { now }
      | ^^^^^^^^
      |
      = help: write `fn` for `function`
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { eval(\"1\") }"), @r#"
    error[forbidden]: `eval` may not be used
     --> house:2:26
      |
    2 | fn marker_actions(now) { eval("1") }
      |                          ^^^^
      |
      = help: call functions by their names
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let SECTION = 3; now }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:30
      |
    2 | fn marker_actions(now) { let SECTION = 3; now }
      |                              ^^^^^^^
      |
      = help: use another name
      = help: more may follow once this is mended
    "#);
}

#[test]
fn hooks_that_do_not_exist() {
    insta::assert_snapshot!(body("fn marker_action(now) { now }\nfn on_card_draw(game, card) { }"), @r#"
    error[unknown-hook]: there is no hook `marker_action`
     --> house:2:4
      |
    2 | fn marker_action(now) { now }
      |    ^^^^^^^^^^^^^
      |
      = help: did you mean `marker_actions(now)`?

    error[unknown-hook]: there is no hook `on_card_draw`
     --> house:3:4
      |
    3 | fn on_card_draw(game, card) { }
      |    ^^^^^^^^^^^^
      |
      = help: did you mean `on_card_drawn(game, card, owner)`?
    "#);
    insta::assert_snapshot!(body("fn weather(now) { now }\nprivate fn spare(a) { a }"), @r#"
    warning[unused]: `weather` is no hook, and no hook calls it
     --> house:2:4
      |
    2 | fn weather(now) { now }
      |    ^^^^^^^
      |
      = help: remove it, or write `private fn` to keep it
    "#);
}

#[test]
fn wrong_arguments() {
    insta::assert_snapshot!(body("fn marker_actions() { 3 }\nfn pins_recovered(now, quality, pins, cover, led) { now }"), @r#"
    error[arguments]: `marker_actions` takes 1 argument, not 0
     --> house:2:4
      |
    2 | fn marker_actions() { 3 }
      |    ^^^^^^^^^^^^^^
      |
      = help: write `fn marker_actions(now)`

    error[arguments]: `quality` stands where `pins_recovered` is given `pins`
     --> house:3:4
      |
    3 | fn pins_recovered(now, quality, pins, cover, led) { now }
      |    ^^^^^^^^^^^^^^
      |
      = help: arguments come in this order: `fn pins_recovered(now, pins, quality, cover, led)`
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { half(now, 2) + max(now) }\nfn half(a) { a / 2 }"), @r#"
    error[arguments]: `half` takes 1 argument, not 2
     --> house:2:26
      |
    2 | fn marker_actions(now) { half(now, 2) + max(now) }
      |                          ^^^^
      |
      = help: write `half(a)`

    error[arguments]: `max` takes 2 arguments, not 1
     --> house:2:41
      |
    2 | fn marker_actions(now) { half(now, 2) + max(now) }
      |                                         ^^^
      |
      = help: write `max(a, b)`
    "#);
}

#[test]
fn names_that_are_taken_or_unknown() {
    insta::assert_snapshot!(body("fn max(a, b) { a }\nfn roll(game) { 6 }"), @r#"
    error[reserved-name]: `max` is the name of a function that scripts are given
     --> house:2:4
      |
    2 | fn max(a, b) { a }
      |    ^^^
      |
      = help: use another name

    error[reserved-name]: `roll` is the name of a function that scripts are given
     --> house:3:4
      |
    3 | fn roll(game) { 6 }
      |    ^^^^
      |
      = help: use another name
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { mni(now, SECTIN) + helper }\nfn helper() { now }\nfn use_it(now) { 1 }\nfn unit_actions(now, kind, quality, strength, pins) { helper() + knd }"), @r#"
    error[unknown-function]: there is no function `mni`
     --> house:2:26
      |
    2 | fn marker_actions(now) { mni(now, SECTIN) + helper }
      |                          ^^^
      |
      = help: did you mean `min`?

    error[unknown-name]: `SECTIN` stands for nothing
     --> house:2:35
      |
    2 | fn marker_actions(now) { mni(now, SECTIN) + helper }
      |                                   ^^^^^^
      |
      = help: did you mean `SECTION`?

    error[unknown-name]: `helper` stands for nothing
     --> house:2:45
      |
    2 | fn marker_actions(now) { mni(now, SECTIN) + helper }
      |                                             ^^^^^^
      |
      = help: to call the function, write `helper(...)`

    error[unknown-name]: `now` stands for nothing
     --> house:3:15
      |
    3 | fn helper() { now }
      |               ^^^
      |
      = help: a function sees its arguments, its own variables and the constants

    warning[unused]: `use_it` is no hook, and no hook calls it
     --> house:4:4
      |
    4 | fn use_it(now) { 1 }
      |    ^^^^^^
      |
      = help: remove it, or write `private fn` to keep it

    error[unknown-name]: `knd` stands for nothing
     --> house:5:66
      |
    5 | fn unit_actions(now, kind, quality, strength, pins) { helper() + knd }
      |                                                                  ^^^
      |
      = help: did you mean `kind`?
    "#);
    insta::assert_snapshot!(body("fn on_turn_end(game, turn) { game.add_pin(0, 1); let t = game.turns; let p = game.pins; }"), @r#"
    error[unknown-function]: there is no method `add_pin`
     --> house:2:35
      |
    2 | fn on_turn_end(game, turn) { game.add_pin(0, 1); let t = game.turns; let p = game.pins; }
      |                                   ^^^^^^^
      |
      = help: did you mean `game.add_pins(unit, number)`?

    error[unknown-name]: the game has no property `turns`
     --> house:2:63
      |
    2 | fn on_turn_end(game, turn) { game.add_pin(0, 1); let t = game.turns; let p = game.pins; }
      |                                                               ^^^^^
      |
      = help: did you mean `game.turn`?

    error[unknown-name]: the game has no property `pins`
     --> house:2:83
      |
    2 | fn on_turn_end(game, turn) { game.add_pin(0, 1); let t = game.turns; let p = game.pins; }
      |                                                                                   ^^^^
      |
      = help: write `game.pins(unit)`
    "#);
    insta::assert_snapshot!(body("fn move_dice(now, kind) { switch kind { SECTON => 2, _ => now } }"), @r#"
    error[syntax]: a case must be a number, a text or a constant
     --> house:2:41
      |
    2 | fn move_dice(now, kind) { switch kind { SECTON => 2, _ => now } }
      |                                         ^^^^^^
      |
      = help: did you mean `SECTION`?
      = help: more may follow once this is mended
    "#);
}

#[test]
fn statements_outside_functions_and_double_names() {
    insta::assert_snapshot!(body("let x = 3;\nconst Y = 4;"), @r#"
    error[top-level]: this stands outside every function
     --> house:2:1
      |
    2 | let x = 3;
      | ^^^
      |
      = help: a script consists of functions; for a number to be chosen later, use an option in `about`

    error[top-level]: this stands outside every function
     --> house:3:1
      |
    3 | const Y = 4;
      | ^^^^^
      |
      = help: a script consists of functions; for a number to be chosen later, use an option in `about`
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { 1 }\nfn marker_actions(now) { 2 }"), @r#"
    error[duplicate]: `marker_actions` is defined twice
     --> house:3:4
      |
    3 | fn marker_actions(now) { 2 }
      |    ^^^^^^^^^^^^^^
      |
      = help: remove one of them, or give one another name
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { f(1) }\nfn f(a) { 1 }\nfn f(a, b) { 2 }"), @r#"
    error[duplicate]: `f` is defined twice
     --> house:4:4
      |
    4 | fn f(a, b) { 2 }
      |    ^
      |
      = help: give one of them another name
    "#);
}

#[test]
fn constants_are_no_variables() {
    insta::assert_snapshot!(body("fn marker_actions(now) { let m = #{ SECTION: 1 }; now }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:37
      |
    2 | fn marker_actions(now) { let m = #{ SECTION: 1 }; now }
      |                                     ^^^^^^^
      |
      = help: use another name
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { SECTION = 1; now }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:26
      |
    2 | fn marker_actions(now) { SECTION = 1; now }
      |                          ^^^^^^^
      |
      = help: use another name
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(SECTION) { 1 }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:19
      |
    2 | fn marker_actions(SECTION) { 1 }
      |                   ^^^^^^^
      |
      = help: use another name
      = help: more may follow once this is mended
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let x = 4; x.men }"), @r#"
    error[wrong-type]: `marker_actions(now = 4)`: int has no property `men`
     --> house:2:39
      |
    2 | fn marker_actions(now) { let x = 4; x.men }
      |                                       ^^^
      |
      = help: only maps and `game` have properties
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { if now in 1..4 || now in [4] { 3 } else { 1 } }"), @"");
}

#[test]
fn a_long_list_of_faults_is_cut_short() {
    let text = body(&format!("fn marker_actions(now) {{ {} now }}", "wrong; ".repeat(500)));
    assert_eq!(text.matches("error[unknown-name]").count(), ruleshift_hooks::limits::MAX_FAULTS);
    assert!(text.contains("there are more than these 50 faults"));
}

#[test]
fn a_fault_is_plain_data_too() {
    let source = Source::new("house", format!("{ABOUT}fn marker_actoins(now) {{ now }}"));
    let faults = Variant::load(&source, &Overrides::none()).unwrap_err();
    let [fault] = faults.list() else { panic!("{faults}") };
    assert_eq!((fault.id.text(), fault.line, fault.column), ("unknown-hook", Some(2), Some(4)));
    assert_eq!(source.text[fault.span.clone().unwrap()], *"marker_actoins");
    assert_eq!(fault.help, ["did you mean `marker_actions(now)`?"]);
    assert!(faults.render(true).contains("\u{1b}["), "colour when asked");
}
