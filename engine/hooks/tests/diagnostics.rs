//! What a faulty script is told.

use ruleshift_hooks::{Overrides, Source, Variant};

const ABOUT: &str = "fn about() { #{ title: \"T\", summary: \"S.\" } }\n";

/// The diagnostics of a script, warnings of a good one included.
fn told(text: &str, overrides: Overrides) -> String {
    let source = Source::new("house", text);
    match Variant::load(&source, &overrides) {
        Ok(variant) => variant.warnings().render(false),
        Err(faults) => faults.render(false),
    }
}

/// The diagnostics of a script with a good `about` in its first line.
fn body(text: &str) -> String {
    told(&format!("{ABOUT}{text}"), Overrides::none())
}

#[test]
fn syntax_errors() {
    insta::assert_snapshot!(body("fn marker_actions(now) { now - }"), @r#"
    error[syntax]: unexpected '}'
     --> house:2:32
      |
    2 | fn marker_actions(now) { now - }
      |                                ^
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { now"), @r#"
    error[syntax]: the script ends too early
     --> house:2:29
      |
    2 | fn marker_actions(now) { now
      |                             ^
      |
      = help: a `}` or a `)` is missing
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { \"now }"), @r#"
    error[syntax]: this text has no closing quote
     --> house:2:26
      |
    2 | fn marker_actions(now) { "now }
      |                          ^
    "#);
    insta::assert_snapshot!(body("function marker_actions(now) { now }"), @r#"
    error[syntax]: a function begins with `fn`
     --> house:2:10
      |
    2 | function marker_actions(now) { now }
      |          ^^^^^^^^^^^^^^
      |
      = help: write `fn` for `function`
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { eval(\"1\") }"), @r#"
    error[forbidden]: `eval` may not be used
     --> house:2:26
      |
    2 | fn marker_actions(now) { eval("1") }
      |                          ^^^^
      |
      = help: call functions by their names
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let SECTION = 3; now }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:30
      |
    2 | fn marker_actions(now) { let SECTION = 3; now }
      |                              ^^^^^^^
      |
      = help: use another name
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

    error[arguments]: `max` takes 2 arguments, not 1
     --> house:2:41
      |
    2 | fn marker_actions(now) { half(now, 2) + max(now) }
      |                                         ^^^
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
      = help: did you mean `add_pins`?

    error[unknown-name]: the game has no property `turns`
     --> house:2:63
      |
    2 | fn on_turn_end(game, turn) { game.add_pin(0, 1); let t = game.turns; let p = game.pins; }
      |                                                               ^^^^^
      |
      = help: did you mean `turn`?

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
     --> house:3:1
      |
    3 | fn marker_actions(now) { 2 }
      | ^^
      |
      = help: remove one of them
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
fn wrong_answers() {
    insta::assert_snapshot!(body("fn marker_actions(now) { now + 8 }"), @r#"
    error[out-of-range]: `marker_actions(now = 4)` gave 12, expected 0 to 8
     --> house:2:4
      |
    2 | fn marker_actions(now) { now + 8 }
      |    ^^^^^^^^^^^^^^
      |
      = help: `clamp(..., 0, 8)` keeps it in range
    "#);
    insta::assert_snapshot!(body("fn turn_ends(now, drawn, in_deck) { drawn }\nfn marker_actions(now) { \"four\" }"), @r#"
    error[wrong-type]: `turn_ends(now = true, drawn = 1, in_deck = 1)` gave 1, expected true or false
     --> house:2:4
      |
    2 | fn turn_ends(now, drawn, in_deck) { drawn }
      |    ^^^^^^^^^ 36 of 36 answers are wrong

    error[wrong-type]: `marker_actions(now = 4)` gave a text, expected 0 to 8
     --> house:3:4
      |
    3 | fn marker_actions(now) { "four" }
      |    ^^^^^^^^^^^^^^
    "#);
    insta::assert_snapshot!(body("fn fire_dice(now, kind, men, pins) { if kind == SECTION { now + 1 } }"), @r#"
    error[wrong-type]: `fire_dice(now = 3, kind = LIGHT_GUN, men = 1, pins = 0)` gave nothing, expected 0 to 24
     --> house:2:4
      |
    2 | fn fire_dice(now, kind, men, pins) { if kind == SECTION { now + 1 } }
      |    ^^^^^^^^^ 1612 of 2015 answers are wrong
      |
      = help: the last expression is the answer: it has no `;` after it, and an `if` needs its `else`
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { now / (now - 4) }\nfn deploy_distance(now) { now * 9223372036854775807 }"), @r#"
    error[arithmetic]: `marker_actions(now = 4)`: division by zero: 4 / 0
     --> house:2:30
      |
    2 | fn marker_actions(now) { now / (now - 4) }
      |                              ^

    error[arithmetic]: `deploy_distance(now = 2)`: multiplication overflow: 2 * 9223372036854775807
     --> house:3:31
      |
    3 | fn deploy_distance(now) { now * 9223372036854775807 }
      |                               ^
    "#);
    insta::assert_snapshot!(body("fn recovery_under_fire(now, quality, led) { now + 1 }"), @r#"
    error[wrong-type]: `recovery_under_fire(now = false, quality = GREEN, led = false)`: `+` cannot be applied to bool and int
     --> house:2:49
      |
    2 | fn recovery_under_fire(now, quality, led) { now + 1 }
      |                                                 ^
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { throw \"never\" }"), @r#"
    error[refused]: `marker_actions(now = 4)`: never
     --> house:2:26
      |
    2 | fn marker_actions(now) { throw "never" }
      |                          ^^^^^
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
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { SECTION = 1; now }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:26
      |
    2 | fn marker_actions(now) { SECTION = 1; now }
      |                          ^^^^^^^
      |
      = help: use another name
    "#);
    insta::assert_snapshot!(body("fn marker_actions(SECTION) { 1 }"), @r#"
    error[duplicate]: `SECTION` is a constant
     --> house:2:19
      |
    2 | fn marker_actions(SECTION) { 1 }
      |                   ^^^^^^^
      |
      = help: use another name
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let x = 4; x.men }"), @r#"
    error[wrong-type]: `marker_actions(now = 4)`: int has no property `men`
     --> house:2:39
      |
    2 | fn marker_actions(now) { let x = 4; x.men }
      |                                       ^^^
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { if now in 1..4 || now in [4] { 3 } else { 1 } }"), @"");
}

#[test]
fn budgets() {
    insta::assert_snapshot!(body("fn marker_actions(now) { loop { } }"), @r#"
    error[budget]: `marker_actions(now = 4)`: did not end within 5000 operations
     --> house:2:4
      |
    2 | fn marker_actions(now) { loop { } }
      |    ^^^^^^^^^^^^^^
      |
      = help: look for a loop that never ends
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { deep(now) }\nfn deep(n) { deep(n + 1) }"), @r#"
    error[depth]: `marker_actions(now = 4)`: calls are nested deeper than 16
     --> house:2:4
      |
    2 | fn marker_actions(now) { deep(now) }
      |    ^^^^^^^^^^^^^^
      |
      = help: look for a function that calls itself without end
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let list = []; loop { list.push(1); } }"), @r#"
    error[size]: `marker_actions(now = 4)`: a list has grown too large
     --> house:2:4
      |
    2 | fn marker_actions(now) { let list = []; loop { list.push(1); } }
      |    ^^^^^^^^^^^^^^
      |
      = help: keep lists, maps and texts small
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let text = \"x\"; loop { text += text; } }"), @r#"
    error[size]: `marker_actions(now = 4)`: a text has grown too large
     --> house:2:4
      |
    2 | fn marker_actions(now) { let text = "x"; loop { text += text; } }
      |    ^^^^^^^^^^^^^^
      |
      = help: keep lists, maps and texts small
    "#);
}

#[test]
fn event_hooks_are_tried() {
    insta::assert_snapshot!(body("fn on_unit_activated(game, unit) { game.add_pins(unit, \"two\") }"), @r#"
    error[wrong-type]: `on_unit_activated(game, unit = 0)`: `add_pins` does not take (game, int, string)
     --> house:2:41
      |
    2 | fn on_unit_activated(game, unit) { game.add_pins(unit, "two") }
      |                                         ^^^^^^^^
    "#);
    insta::assert_snapshot!(body("fn on_unit_pinned(game, unit, pins) { loop { } }"), @r#"
    error[budget]: `on_unit_pinned(game, unit = 0, pins = 1)`: did not end within 10000 operations
     --> house:2:4
      |
    2 | fn on_unit_pinned(game, unit, pins) { loop { } }
      |    ^^^^^^^^^^^^^^
      |
      = help: look for a loop that never ends
    "#);
}

#[test]
fn about_is_needed() {
    let about = |text: &str| told(text, Overrides::none());
    insta::assert_snapshot!(about("fn marker_actions(now) { now }"), @r#"
    error[about]: the script does not say what it is about
    --> house
     = help: write `fn about() { #{ title: "Short title", summary: "What it changes." } }`
    "#);
    insta::assert_snapshot!(about("fn about() { let x = 1; #{ title: \"T\" } }"), @r#"
    error[about]: `about` must hold one map of plain values
     --> house:1:4
      |
    1 | fn about() { let x = 1; #{ title: "T" } }
      |    ^^^^^
      |
      = help: write `fn about() { #{ title: "Short title", summary: "What it changes." } }`
    "#);
    insta::assert_snapshot!(about("fn about(x) { #{ title: \"T\" } }"), @r#"
    error[about]: `about` takes no arguments
     --> house:1:4
      |
    1 | fn about(x) { #{ title: "T" } }
      |    ^^^^^
      |
      = help: write `fn about() { ... }`
    "#);
    insta::assert_snapshot!(about("fn about() { #{ title: 3, sumary: \"S\" } }"), @r#"
    error[about]: `about` lacks its `summary`
     --> house:1:4
      |
    1 | fn about() { #{ title: 3, sumary: "S" } }
      |    ^^^^^
      |
      = help: add `summary: "..."`

    error[about]: `title` must be a text
     --> house:1:24
      |
    1 | fn about() { #{ title: 3, sumary: "S" } }
      |                        ^
      |
      = help: write `title: "..."`

    error[about]: `about` has no entry `sumary`
     --> house:1:27
      |
    1 | fn about() { #{ title: 3, sumary: "S" } }
      |                           ^^^^^^
      |
      = help: did you mean `summary`?
    "#);
}

#[test]
fn options_are_checked() {
    let options = |text: &str| {
        let text =
            format!("fn about() {{ #{{ title: \"T\", summary: \"S.\", options: {text} }} }}");
        told(&text, Overrides::none())
    };
    insta::assert_snapshot!(options("3"), @r#"
    error[about]: `options` must be a map
     --> house:1:53
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: 3 } }
      |                                                     ^
      |
      = help: write `options: #{ cards: #{ default: 2, min: 1, max: 4, about: "..." } }`
    "#);
    insta::assert_snapshot!(options("#{ Cards: #{ default: 2, min: 1, max: 4 } }"), @r#"
    error[about]: `Cards` is no name for an option
     --> house:1:56
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: #{ Cards: #{ default: 2, min: 1, max: 4 }...
      |                                                        ^^^^^
      |
      = help: use small letters, digits and `_`: its constant has large letters
    "#);
    insta::assert_snapshot!(options("#{ cards: #{ default: 5, min: 1, max: 4 }, n: #{ default: 1, min: 3, max: 1, stop: 2 } }"), @r#"
    error[about]: option `cards` has default 5, expected 1 to 4
     --> house:1:56
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: #{ cards: #{ default: 5, min: 1, max: 4 }...
      |                                                        ^^^^^

    error[about]: option `n` has min 3 above max 1
     --> house:1:96
      |
    1 | ... #{ cards: #{ default: 5, min: 1, max: 4 }, n: #{ default: 1, min: 3, max: 1, stop: 2 } } } }
      |                                                ^

    error[about]: option `n` has no entry `stop`
     --> house:1:130
      |
    1 | ...ax: 4 }, n: #{ default: 1, min: 3, max: 1, stop: 2 } } } }
      |                                               ^^^^
      |
      = help: did you mean `step`?
    "#);
    insta::assert_snapshot!(options("#{ section: #{ default: 2, min: \"1\" } }"), @r#"
    error[about]: option `section` lacks its `max`
     --> house:1:56
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: #{ section: #{ default: 2, min: "1" } } } }
      |                                                        ^^^^^^^
      |
      = help: add `max: 1`

    error[about]: the constant `SECTION` of option `section` exists already
     --> house:1:56
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: #{ section: #{ default: 2, min: "1" } } } }
      |                                                        ^^^^^^^
      |
      = help: use another name for the option

    error[about]: `min` must be a whole number
     --> house:1:85
      |
    1 | fn about() { #{ title: "T", summary: "S.", options: #{ section: #{ default: 2, min: "1" } } } }
      |                                                                                     ^
    "#);
}

#[test]
fn values_of_options_are_checked() {
    let text = "fn about() { #{ title: \"T\", summary: \"S.\", options: #{ cards: #{ default: 2, min: 1, max: 4 } } } }";
    insta::assert_snapshot!(told(text, Overrides::from([("cards", 5), ("crads", 2)])), @r#"
    error[unknown-option]: `house` has no option `crads`
    --> house
     = help: did you mean `cards`?

    error[option-range]: option `cards` is 5, expected 1 to 4
    --> house
    "#);
    insta::assert_snapshot!(body(""), @"");
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
