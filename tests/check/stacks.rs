//! Several variants at once.

use super::{check, screen};

const SCRIPTS: &[(&str, &str)] = &[
    (
        "three.rhai",
        "fn marker_actions(now) { 3 }\nfn on_turn_end(game, turn) { game.note(\"three\"); }",
    ),
    (
        "more.rhai",
        "fn marker_actions(now) { now + 1 }\nfn on_turn_end(game, turn) { game.note(\"more\"); }",
    ),
    ("less.rhai", "fn marker_actions(now) { now - 1 }"),
    ("high.rhai", "fn marker_actions(now) { 8 }"),
];

#[test]
fn an_order_that_matters_is_told_with_an_example() {
    insta::assert_snapshot!(screen(check(SCRIPTS, "three.rhai+more.rhai --no-games")), @r#"
    three.rhai: T
      S.
      Value hooks: marker_actions
      Event hooks: on_turn_end

      It changes 1 of the N value hooks: marker_actions always (4 -> 3). It acts at
      turn end.

      marker_actions: Actions of each marker on the marker card.
        4 -> 3

    more.rhai: T
      S.
      Value hooks: marker_actions
      Event hooks: on_turn_end

      It changes 1 of the N value hooks: marker_actions always (3 -> 4). It acts at
      turn end.

      marker_actions: Actions of each marker on the marker card.
        3 -> 4

    Together, in this order: three.rhai, then more.rhai
      marker_actions: both three.rhai and more.rhai change it, and their order
        matters: 4, but 3 if more.rhai came first.
      on_turn_end: both three.rhai and more.rhai act, three.rhai first.
    "#);
}

/// Each answer of the second is judged on top of the first.
#[test]
fn each_variant_is_told_on_top_of_those_before_it() {
    let out = screen(check(SCRIPTS, "more.rhai+less.rhai --no-games"));
    let out = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(out.contains("always (4 -> 5)") && out.contains("always (5 -> 4)"), "{out}");
    assert!(out.contains("their order does not matter"), "{out}");
    let out = screen(check(SCRIPTS, "three.rhai+three.rhai --no-games"));
    assert!(out.contains("leaves it nothing to change"), "{out}");
}

#[test]
fn every_pair_of_a_larger_stack_is_looked_at() {
    let out = screen(check(SCRIPTS, "more.rhai+less.rhai+three.rhai --no-games"));
    let order = "Together, in this order: more.rhai, then less.rhai, then three.rhai";
    assert!(out.contains(order), "{out}");
    for pair in ["more.rhai and less.rhai", "more.rhai and three.rhai", "less.rhai and three.rhai"]
    {
        assert!(out.contains(&format!("both {pair} change it")), "{out}");
    }
}

#[test]
fn an_order_that_would_be_at_fault_is_told() {
    let out = screen(check(SCRIPTS, "more.rhai+high.rhai --no-games"));
    assert!(out.contains("high.rhai before more.rhai would be at fault"), "{out}");
    check(SCRIPTS, "high.rhai+more.rhai").fails(1, &["more.rhai:2", "gave 9, expected 0 to 8"]);
}

#[test]
fn games_are_told_for_each_variant_and_for_all_together() {
    let out = check(SCRIPTS, "high.rhai+three.rhai+less.rhai+less.rhai").fine().out;
    let lines: Vec<&str> = out.lines().filter(|line| line.contains("trial games")).collect();
    assert_eq!(lines.len(), 5, "{out}");
    assert!(lines[0].contains("the same game under the base rules"), "{out}");
    assert!(lines[1..4].iter().all(|line| line.contains("the same game without it")), "{out}");
    assert!(lines[4].contains("trial games over"), "{out}");
}
