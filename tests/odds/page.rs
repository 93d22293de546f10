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
    let typed = ["odds", "two-turn-end-cards", "--topic", "deck", "--cards", "10"];
    insta::assert_snapshot!(ruleshift(typed).fine().out, @r"
    Exact chances under the base rules and, beside them, under
    two-turn-end-cards
    * marks what differs

    The deck                                base rules            the stack
    ────────────────────────────────────────────────────────────────────────────────
    The turn-end cards
      turn-end cards in the deck                     1         *          2
      number of the one that ends the turn           1         *          2
    10 other cards in the deck
      a given card is drawn in a turn           0.5000 1/2     *     0.6667 2/3
      two given cards are both drawn            0.3333 1/3     *     0.5000 1/2
      cards drawn in a turn, mean               5.0000         *     6.6667 20/3
      nobody acts in a turn                     0.0909 1/11    *     0.0152 1/66
      all cards are drawn                       0.0909 1/11    *     0.1667 1/6
      a given card waits 2 turns in a row       0.2500 1/4     *     0.1111 1/9
      a given card waits 3 turns in a row       0.1250 1/8     *     0.0370 1/27

    - The number of other cards is taken as given, however the rules count them.
    ");
}
