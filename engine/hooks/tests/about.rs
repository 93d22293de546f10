//! What a script is told whose description or options are faulty.

mod told;

use ruleshift_hooks::Overrides;
use told::{body, told};

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
      |
      = help: the default is one of the values it may have

    error[about]: option `n` has min 3 above max 1
     --> house:1:96
      |
    1 | ... #{ cards: #{ default: 5, min: 1, max: 4 }, n: #{ default: 1, min: 3, max: 1, stop: 2 } } } }
      |                                                ^
      |
      = help: write `min: 1, max: 3`

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
