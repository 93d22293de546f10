//! The page as it is printed.

use crate::support::ruleshift;

#[test]
fn every_line_of_a_page_fits_and_every_topic_is_on_it() {
    for stack in ["base", "sharp-eyes+quick-feet+shells-on-target+early-suppression"] {
        let out = ruleshift(["odds", stack]).fine().out;
        for title in
            ["The deck", "Spotting", "Fire", "Movement", "Close assault", "Shells of batteries"]
        {
            assert!(out.lines().any(|line| line.starts_with(title)), "{title}: {out}");
        }
        let long: Vec<&str> = out.lines().filter(|line| line.chars().count() > 100).collect();
        assert!(long.is_empty(), "{long:?}");
    }
}

/// A mark stands in just those rows whose values differ.
#[test]
fn what_differs_is_marked() {
    let out = ruleshift(["odds", "sharp-eyes"]).fine().out;
    let marked = |line: &&str| line.contains(" * ") && line.starts_with("  ");
    let rows: Vec<&str> = out.lines().filter(marked).collect();
    assert_eq!(rows.len(), 8, "{rows:?}");
    assert!(rows.iter().all(|row| row.trim_start().starts_with("still")), "{rows:?}");
}

#[test]
fn what_the_figures_do_not_hold_is_said() {
    let events = ruleshift(["odds", "open-turn-end"]).fine().out;
    assert!(events.contains("event hooks, whose acts are not in these figures"), "{events}");
    let other = ruleshift(["odds", "kinder-pin-recovery", "--topic", "deck"]).fine().out;
    assert!(other.contains("changes `pins_recovered`, which is not in these figures"), "{other}");
}

#[test]
fn a_topic_is_told_in_full() {
    let out =
        ruleshift(["odds", "two-turn-end-cards", "--topic", "deck", "--cards", "10"]).fine().out;
    insta::assert_snapshot!(out, @"");
}
