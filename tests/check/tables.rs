//! Whole screens.

use super::{check, screen};
use crate::support::{Done, ruleshift};

#[test]
fn a_shipped_variant_on_one_screen() {
    let screen = screen(ruleshift(["check", "kinder-pin-recovery", "--no-games"]));
    insta::assert_snapshot!(screen, @r#"
    kinder-pin-recovery: Kinder pin recovery
      A unit with a leader near loses more pins at turn end.
      Option more = 1 (1 to 4, default 1): pins recovered beyond the base rule
      Value hooks: pins_recovered

      It changes 1 of the N value hooks: pins_recovered in 372 of 744 cases (1
      more). A case is one combination of a hook's arguments.

      pins_recovered: Pins a unit loses at turn end.
                                      led
        quality         cover         false  true
        GREEN, REGULAR  OPEN, LIGHT   1      2 -> 3
                        HARD, DUG_IN  2      3 -> 4
        VETERAN         OPEN, LIGHT   2      3 -> 4
                        HARD, DUG_IN  3      4 -> 5
    "#);
}

#[test]
fn an_event_hook_is_told_by_its_moment_and_games_by_their_number() {
    let out = ruleshift(["check", "steady-nerves"]).fine().out;
    assert!(out.contains("It acts when a card is drawn."), "{out}");
    let line = out.lines().find(|line| line.contains("trial games over")).unwrap();
    let words: Vec<&str> = line.split_whitespace().collect();
    let number = |n: usize| words[n].parse::<usize>().unwrap();
    assert_eq!((number(0), number(4)), (8 * number(4), ruleshift_scenarios::SHIPPED.len()));
    assert!((1..=number(0)).contains(&number(6)), "{line}");
}

/// What event hooks did in the trial games, on one line.
fn did(done: Done) -> String {
    let out = done.fine().out;
    let told = out.split("In these games ").nth(1).unwrap_or_else(|| panic!("{out}"));
    told.split("No faults").next().unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

fn done_in_games(rule: &str) -> String {
    did(check(&[("did.rhai", rule)], "did.rhai"))
}

#[test]
fn what_event_hooks_did_in_the_games_is_told() {
    let games = 8 * ruleshift_scenarios::SHIPPED.len();
    let told = done_in_games("fn on_game_start(game) { game.note(\"x\"); game.add_points(0, 3); }");
    assert_eq!(told, format!("it gave {} points and noted {games} lines.", 3 * games));
    let each = "for unit in 0..game.units { if game.on_table(unit) { game.grant_action(unit); } }";
    let early = done_in_games(&format!("fn on_turn_start(game, turn) {{ {each} }}"));
    assert!(early.starts_with("it gave ") && !early.contains("acted already"), "{early}");
    let late = done_in_games(&format!("fn on_turn_end(game, turn) {{ {each} }}"));
    assert!(late.contains(" to units that had acted already)"), "{late}");
}

#[test]
fn answers_to_the_questions_of_a_card_are_told() {
    let told = did(ruleshift(["check", "command-post"]));
    assert!(told.contains(" asked ") && told.contains("(answered with option 1 "), "{told}");
}

#[test]
fn cards_and_counters_of_a_script_are_named() {
    let out = ruleshift(["check", "relief-by-card", "--no-games"]).fine().out;
    for part in
        ["Card relief: ", "Counter attacker_done: ", "Event hooks: on_turn_start, on_extra_card"]
    {
        assert!(out.contains(part), "`{part}` is not in:\n{out}");
    }
}

#[test]
fn long_tables_are_cut_and_shortened() {
    let rule = "fn fire_dice(now, kind, men, pins) { min(24, now + 1) }
fn unit_actions(now, kind, quality, strength, pins) { if pins > 5 { 0 } else { min(8, now + 1) } }
fn hit_number(now, kind, band, moved) { if moved { min(7, now + 1) } else { now } }
fn sight_limit(now, turn) { if turn == 40 { 5 } else { now - turn } }";
    insta::assert_snapshot!(screen(check(&[("long.rhai", rule)], "long.rhai --no-games")), @r#"
    long.rhai: T
      S.
      Value hooks: unit_actions, sight_limit, fire_dice, hit_number

      It changes 4 of the N value hooks: unit_actions always (from 3 less to 1
      more), sight_limit always (1 to 81 less), fire_dice always (1 more) and
      hit_number in 28 of 128 cases (1 more). A case is one combination of a hook's
      arguments.

      unit_actions: Actions of a unit when its card is drawn.
                                                         pins
        kind                          quality  strength  0-2     3-5     6-30
        SECTION, ASSAULT_SECTION,     GREEN    1-2       1 -> 2  1 -> 2  1 -> 0
        LIGHT_GUN, TRIPOD_GUN,                 3-4       2 -> 3  1 -> 2  1 -> 0
        LIGHT_MORTAR, MEDIUM_MORTAR,  REGULAR  1-2       2 -> 3  1 -> 2  1 -> 0
        ANTI_TANK_TEAM, FLAME_TEAM,            3-4       3 -> 4  2 -> 3  2 -> 0
        OBSERVER, BATTERY             VETERAN  1-2       3 -> 4  2 -> 3  2 -> 0
                                               3-4       4 -> 5  3 -> 4  3 -> 0
        LEADER, ANTI_TANK_GUN, TANK,  GREEN    any       1 -> 2  1 -> 2  1 -> 0
        ASSAULT_GUN, CARRIER, TRUCK   REGULAR  1-2       1 -> 2  1 -> 2  1 -> 0
                                               3-4       2 -> 3  1 -> 2  1 -> 0
                                      VETERAN  1-2       2 -> 3  1 -> 2  1 -> 0
                                               3-4       3 -> 4  2 -> 3  2 -> 0

      sight_limit: Farthest range in inches at which anything is seen.
        turn  answer
        1     86 -> 85
        2     86 -> 84
        3     86 -> 83
        4     86 -> 82
        5     86 -> 81
        6     86 -> 80
        7     86 -> 79
        8     86 -> 78
        9     86 -> 77
        10    86 -> 76
        11    86 -> 75
        12    86 -> 74
        28 more rows with a change are not shown.

      fire_dice: Dice a unit rolls when it fires.
        1 more in every case

      hit_number: Number a die must reach to hit; 7 never hits.
                                             band
        kind                          moved  0       1       2       3
        SECTION, LIGHT_GUN,           false  4       5       6       7
        ANTI_TANK_TEAM, LEADER,       true   5 -> 6  6 -> 7  7       7
        OBSERVER, TANK, ASSAULT_GUN,
        CARRIER, TRUCK
        ASSAULT_SECTION               false  3       5       6       7
                                      true   4 -> 5  6 -> 7  7       7
        TRIPOD_GUN, ANTI_TANK_GUN     false  4       5       6       7
                                      true   6 -> 7  7       7       7
        LIGHT_MORTAR, MEDIUM_MORTAR   false  5       5       5       7
                                      true   7       7       7       7
        FLAME_TEAM                    false  3       3       3       7
                                      true   4 -> 5  4 -> 5  4 -> 5  7
        BATTERY                       false  4       4       4       7
                                      true   5 -> 6  5 -> 6  5 -> 6  7
    "#);
}

#[test]
fn warnings_stand_beside_what_the_variant_changes() {
    let rule = "fn leader_radius(now, grade) { 6 }
fn marker_actions(now) { if now == 4 { now } else { 2 } }
fn turn_limit(now, listed) { if listed == 30 { 20 } else { now } }";
    insta::assert_snapshot!(screen(check(&[("odd.rhai", rule)], "odd.rhai")), @r#"
    odd.rhai: T
      S.
      Value hooks: marker_actions, leader_radius, turn_limit

      It changes 2 of the N value hooks: leader_radius in 2 of 3 cases (from 1 less
      to 1 more) and turn_limit in 1 of 30 cases (30 -> 20). A case is one
      combination of a hook's arguments. It leaves marker_actions as it was.

      leader_radius: Distance in inches over which a leader leads.
        grade  answer
        1      5 -> 6
        2      6
        3      7 -> 6

      turn_limit: Turns after which the game ends.
        listed  answer
        30      30 -> 20
        Everywhere else nothing changes.

    warning[constant-answer]: `leader_radius` answers 6 whatever `grade` is
     --> odd.rhai:2:4
      |
    2 | fn leader_radius(now, grade) { 6 }
      |    ^^^^^^^^^^^^^
      |
      = help: the base rule: 4 in and 1 in for each grade.
      = help: if it is meant so, write `_grade`

    warning[no-change]: `marker_actions` changes nothing: it answers what it is given
     --> odd.rhai:3:4
      |
    3 | fn marker_actions(now) { if now == 4 { now } else { 2 } }
      |    ^^^^^^^^^^^^^^
      |
      = help: the base rule: Four.
      = help: to leave it alone for now, make `now` its whole body

    warning[never-matters]: no trial game would have gone otherwise without `turn_limit`
     --> odd.rhai:4:4
      |
    4 | fn turn_limit(now, listed) { if listed == 30 { 20 } else { now } }
      |    ^^^^^^^^^^ not in 8 S games over S scenarios
      |
      = help: its case comes up in no shipped scenario, or too seldom for so few games
      = help: `ruleshift compare` plays more, and scenarios of your own

      `ruleshift explain ID` tells more, for constant-answer, never-matters,
      no-change.
    "#);
}

/// The template leaves every rule alone on purpose.
#[test]
fn the_template_has_no_warning() {
    let out = screen(ruleshift(["check", "variants/base/rules.rhai"]));
    assert!(out.contains("It changes nothing.") && !out.contains("warning"), "{out}");
}

/// Each hook is left out by itself: one of two that never comes up is found beside one that does.
#[test]
fn a_hook_that_never_matters_is_told_by_itself() {
    let rule = "fn marker_actions(now) { 3 }
fn turn_limit(now, listed) { if listed == 30 { 20 } else { now } }
fn on_turn_end(game, turn) { if turn > 39 { game.note(\"late\"); } }";
    let out = screen(check(&[("two.rhai", rule)], "two.rhai"));
    assert!(out.contains("help: its case comes up in no shipped scenario"), "{out}");
    assert!(out.contains("help: it did nothing there") && !out.contains("In these games"), "{out}");
    for hook in ["turn_limit", "on_turn_end"] {
        let told = format!("no trial game would have gone otherwise without `{hook}`");
        assert!(out.contains(&told), "{out}");
    }
    assert!(!out.contains("without `marker_actions`"), "{out}");
}

#[test]
fn a_game_that_stops_is_a_fault_with_its_ticket() {
    let rule =
        "fn on_card_drawn(game, card, owner) { if game.turn == 2 { game.add_pins(0, 99); } }";
    let done = check(&[("stop.rhai", rule)], "stop.rhai");
    let parts = ["a trial game stopped: turn 2", "stop.rhai:2:", "rs", "explain refused"];
    done.fails(1, &parts);
    check(&[("stop.rhai", rule)], "stop.rhai --no-games").fine();
}
