//! Decisions are told in few lines that say enough.

use ruleshift_players::Score;

use super::excerpt;
use super::ranking::{Weighed, rows};

/// Choices with a text, a value and games; the one at `chosen` was chosen.
fn told(choices: &[(&str, i64, u32)], chosen: usize, shown: usize) -> Vec<String> {
    let weighed = choices.iter().enumerate().map(|(place, &(text, value, tries))| Weighed {
        text: text.to_owned(),
        score: Score { value, tries },
        chosen: place == chosen,
    });
    rows(weighed.collect(), shown)
}

#[test]
fn the_best_comes_first_and_the_chosen_one_is_marked() {
    let choices = [("dig", -3, 0), ("fire at Defender's gun", 41, 0), ("move up", 8, 0)];
    assert_eq!(
        told(&choices, 1, 5),
        [
            "> fire at Defender's gun  41",
            "  move up                  8",
            "  dig                     -3"
        ]
    );
}

#[test]
fn choices_alike_share_a_line_and_the_rest_is_counted() {
    let choices = [
        ("do no more", 0, 0),
        ("move up", -6, 0),
        ("a", 5, 0),
        ("b", 5, 0),
        ("c", 5, 0),
        ("d", 5, 0),
        ("d", 5, 0),
        ("e", 4, 0),
        ("f", 3, 0),
        ("g", 2, 0),
    ];
    assert_eq!(
        told(&choices, 2, 4),
        [
            "> a                   5",
            "  b; c; 2 more alike  5",
            "  e                   4",
            "  f                   3",
            "  3 more, down to -6"
        ]
    );
    assert_eq!(told(&choices, 2, usize::MAX).len(), choices.len());
}

#[test]
fn nothing_but_one_and_the_rest_alike_takes_two_lines() {
    let mut choices = vec![("do no more", 0, 0)];
    choices.extend([("turn", -6, 0); 7]);
    assert_eq!(
        told(&choices, 0, 5),
        ["> do no more                 0", "  turn; turn; 5 more alike  -6"]
    );
}

#[test]
fn a_choice_below_those_shown_is_shown_all_the_same() {
    let choices =
        [("a", 9, 64), ("b", 8, 64), ("c", 7, 1), ("d", 6, 64), ("e", 5, 64), ("f", 4, 64)];
    assert_eq!(
        told(&choices, 4, 3),
        ["  a  9  (64 games)", "  b  8  (64 games)", "> e  5  (64 games)", "  3 more, down to 4"]
    );
}

#[test]
fn what_is_forbidden_has_no_score() {
    let lowest = Score::FORBIDDEN.value;
    let choices = [("do no more", 0, 0), ("take pins off", lowest, 0), ("move up", -6, 0)];
    assert_eq!(
        told(&choices, 0, 5),
        ["> do no more   0", "  move up     -6", "  forbidden: take pins off"]
    );
}

#[test]
fn one_decision_is_told_with_its_turn_and_card_and_what_came_of_it() {
    let before = "\nTurn 1: 9 cards in the deck\n  Card: One\n\nTurn 2: 9 cards in the deck\n  Card: Two\n    x\n";
    let decision = "      [7] who\n    moved\n";
    let text = format!("{before}{decision}      [8] who\n");
    assert_eq!(
        excerpt(&text, before.len(), before.len() + decision.len()),
        format!("\nTurn 2: 9 cards in the deck\n  Card: Two\n{decision}")
    );
}
