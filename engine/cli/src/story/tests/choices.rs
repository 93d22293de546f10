//! Choices are told in the words of the story.

use std::collections::BTreeMap;

use ruleshift_game::{Choice, View};

use super::super::{HouseNames, Story};
use crate::trial::{STAGE, decisions};

/// The name of a choice in the code, which stands for all choices of its kind.
fn kind(choice: Choice) -> String {
    let name = format!("{choice:?}");
    name.split([' ', '(']).next().unwrap_or_default().to_owned()
}

/// The first choice of each kind that the attacker is offered in a few games, as it is told.
#[test]
fn every_kind_of_choice_is_told() {
    let story = Story::new(&STAGE.arena, &STAGE.rules, HouseNames::default(), false);
    let mut told = BTreeMap::new();
    decisions(|view: &View<'_>, choices| {
        for &choice in choices {
            told.entry(kind(choice)).or_insert_with(|| {
                format!("{}: {}", story.chooser(view), story.choice(choice, view))
            });
        }
    });
    let told: Vec<String> = told.into_values().collect();
    // Held fire and cards that ask belong to house rules, which have no part in these games.
    let expected = [
        "Attacker's observer: correct the fire of battery",
        "Attacker's section: rush at Defender's leader",
        "Attacker marker a: call fire of battery on 40,30",
        "Attacker's section: dig",
        "Attacker's section: get out, right",
        "Attacker marker a: do no more",
        "Attacker's section: fire at Defender's tripod machine gun",
        "Attacker's battery: fire",
        "Attacker's tank: leave the table",
        "Attacker's section: get into carrier",
        "Attacker marker a: move right",
        "Attacker marker a: give up the marker to open fire",
        "Attacker's leader: order tank to act",
        "Attacker's leader: order tank to take pins off",
        "Attacker's markers: act with marker a",
        "Attacker's markers: act with leader",
        "Attacker, where leader appears: at 24,18",
        "Attacker's leader: take pins off",
        "Attacker marker a: search copse",
        "Attacker marker a: look for defender marker c",
        "Attacker marker a: stop at 25,23",
        "Attacker's tank: turn to face right",
    ];
    assert_eq!(told, expected);
}

/// None of them is empty, and none names a thing by its number.
#[test]
fn choices_are_told_by_name() {
    let story = Story::new(&STAGE.arena, &STAGE.rules, HouseNames::default(), false);
    let mut count = 0;
    decisions(|view: &View<'_>, choices| {
        let texts = choices.iter().map(|&choice| story.choice(choice, view));
        for text in texts.chain([story.chooser(view)]) {
            assert!(!text.trim().is_empty());
            for word in ["unit ", "group ", "battery ", "feature ", "objective ", "after "] {
                let numbered = text.match_indices(word).any(|(at, _)| {
                    text[at + word.len()..].starts_with(|c: char| c.is_ascii_digit())
                });
                assert!(!numbered, "{text}");
            }
            count += 1;
        }
    });
    assert!(count > 10_000, "{count}");
}
