//! What a script is told whose hooks answer wrongly or do not answer.

mod told;

use told::body;

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
      |
      = help: answer with `true`, `false` or a comparison such as `now > 1`

    error[wrong-type]: `marker_actions(now = 4)` gave a text, expected 0 to 8
     --> house:3:4
      |
    3 | fn marker_actions(now) { "four" }
      |    ^^^^^^^^^^^^^^
      |
      = help: answer with a whole number
    "#);
    insta::assert_snapshot!(body("fn fire_dice(now, kind, men, pins) { if kind == SECTION { now + 1 } }"), @r#"
    error[wrong-type]: `fire_dice(now = 1, kind = ASSAULT_SECTION, men = 1, pins = 0)` gave nothing, expected 0 to 24
     --> house:2:4
      |
    2 | fn fire_dice(now, kind, men, pins) { if kind == SECTION { now + 1 } }
      |    ^^^^^^^^^ 6045 of 6448 answers are wrong
      |
      = help: the last expression is the answer, and an `if` needs its `else`
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { now / (now - 4) }\nfn deploy_distance(now) { now * 9223372036854775807 }"), @r#"
    error[arithmetic]: `marker_actions(now = 4)`: division by zero: 4 / 0
     --> house:2:30
      |
    2 | fn marker_actions(now) { now / (now - 4) }
      |                              ^
      |
      = help: test for 0 before you divide

    error[arithmetic]: `deploy_distance(now = 2)`: the result is too large: 2 * 9223372036854775807
     --> house:3:31
      |
    3 | fn deploy_distance(now) { now * 9223372036854775807 }
      |                               ^
      |
      = help: numbers are at most 9223372036854775807
    "#);
    insta::assert_snapshot!(body("fn recovery_under_fire(now, quality, led) { now + 1 }"), @r#"
    error[wrong-type]: `recovery_under_fire(now = false, quality = GREEN, led = false)`: `+` cannot be applied to bool and int
     --> house:2:49
      |
    2 | fn recovery_under_fire(now, quality, led) { now + 1 }
      |                                                 ^
      |
      = help: both sides must be of one type
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
fn budgets() {
    insta::assert_snapshot!(body("fn marker_actions(now) { loop { } }"), @r#"
    error[budget]: `marker_actions(now = 4)`: did not end within 5000 operations
     --> house:2:26
      |
    2 | fn marker_actions(now) { loop { } }
      |                          ^^^^
      |
      = help: look for a loop that never ends, or do less in it
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { deep(now) }\nfn deep(n) { deep(n + 1) }"), @r#"
    error[depth]: `marker_actions(now = 4)`: calls are nested deeper than 16
     --> house:3:14
      |
    3 | fn deep(n) { deep(n + 1) }
      |              ^^^^
      |
      = help: look for a function that calls itself without end
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let list = []; loop { list.push(1); } }"), @r#"
    error[size]: `marker_actions(now = 4)`: a list has grown too large
     --> house:2:41
      |
    2 | fn marker_actions(now) { let list = []; loop { list.push(1); } }
      |                                         ^^^^
      |
      = help: at most 128 elements are allowed
    "#);
    insta::assert_snapshot!(body("fn marker_actions(now) { let text = \"x\"; loop { text += text; } }"), @r#"
    error[size]: `marker_actions(now = 4)`: a text has grown too large
     --> house:2:42
      |
    2 | fn marker_actions(now) { let text = "x"; loop { text += text; } }
      |                                          ^^^^
      |
      = help: at most 1024 bytes are allowed
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
      |
      = help: `game.add_pins(unit, number)`: Puts pins on a unit on the table, 30 at most.
    "#);
    insta::assert_snapshot!(body("fn on_unit_pinned(game, unit, pins) { loop { } }"), @r#"
    error[budget]: `on_unit_pinned(game, unit = 0, pins = 1)`: did not end within 10000 operations
     --> house:2:39
      |
    2 | fn on_unit_pinned(game, unit, pins) { loop { } }
      |                                       ^^^^
      |
      = help: look for a loop that never ends, or do less in it
    "#);
}
