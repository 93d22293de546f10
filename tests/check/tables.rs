//! Whole screens.

use super::{check, screen};
use crate::support::ruleshift;

#[test]
fn a_shipped_variant_on_one_screen() {
    let screen = screen(ruleshift(["check", "kinder-pin-recovery", "--no-games"]));
    insta::assert_snapshot!(screen, @"");
}

#[test]
fn an_event_hook_is_told_by_its_moment_and_games_by_their_number() {
    let out = screen(ruleshift(["check", "steady-nerves"]));
    assert!(out.contains("It acts when a card is drawn."), "{out}");
    let line = out.lines().find(|line| line.contains("trial games over")).unwrap();
    let words: Vec<&str> = line.split_whitespace().collect();
    let number = |n: usize| words[n].parse::<usize>().unwrap();
    assert_eq!((number(0), number(4)), (8 * number(4), ruleshift_scenarios::SHIPPED.len()));
    assert!((1..=number(0)).contains(&number(6)), "{line}");
}

#[test]
fn long_tables_are_cut_and_shortened() {
    let rule = "fn fire_dice(now, kind, men, pins) { min(24, now + 1) }
fn unit_actions(now, kind, quality, strength, pins) { if pins > 5 { 0 } else { min(8, now + 1) } }
fn hit_number(now, kind, band, moved) { if moved { min(7, now + 1) } else { now } }
fn sight_limit(now, turn) { if turn == 40 { 5 } else { now - turn } }";
    insta::assert_snapshot!(screen(check(&[("long.rhai", rule)], "long.rhai --no-games")), @"");
}

#[test]
fn warnings_stand_beside_what_the_variant_changes() {
    let rule = "fn leader_radius(now, grade) { 6 }
fn marker_actions(now) { if now == 4 { now } else { 2 } }
fn turn_limit(now, listed) { if listed == 30 { 20 } else { now } }";
    insta::assert_snapshot!(screen(check(&[("odd.rhai", rule)], "odd.rhai")), @"");
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
