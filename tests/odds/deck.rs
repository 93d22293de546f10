//! Cards drawn in turns of games, against what is told of the deck.

use ruleshift_game::Rules;

use super::sheet::{Counts, Under, hold, hold_all};
use crate::deck::{DECKS, count};
use crate::support::stage;

const CHANGED: Under =
    Under::Script("fn turn_end_cards(now) { 3 } fn turn_ends(now, drawn, in_deck) { drawn == 2 }");

/// The rules as they are: turn-end cards are what is tried here.
fn rules(under: Under) -> Rules {
    match under {
        Under::Base => Rules::base(),
        Under::Shipped(typed) => stage::stack(typed).rules().unwrap(),
        Under::Script(hooks) => stage::rules(hooks),
    }
}

#[test]
fn cards_are_drawn_as_often_as_told() {
    for under in [Under::Base, Under::Shipped("two-turn-end-cards"), CHANGED] {
        let sheet = under.sheet("deck", "");
        let ends = sheet.value("The turn-end cards", "turn-end cards in the deck") as u32;
        for deck in DECKS {
            let counter = count(rules(under), ends, deck);
            let case = format!("{} other cards in the deck", deck.0);
            let what = format!("{under:?}: {case}");
            let drawn: Counts = (0..).zip(counter.drawn.iter().copied()).collect();
            let drawn: Counts = drawn.into_iter().filter(|&(_, count)| count > 0).collect();
            hold_all(&what, &drawn, &sheet.spread(&case, "cards drawn in a turn"));
            for (row, sample) in [
                ("a given card is drawn in a turn", counter.group),
                ("a given card waits 2 turns in a row", counter.idle[0]),
                ("a given card waits 3 turns in a row", counter.idle[1]),
            ] {
                let (count, trials) = (sample.mean() * sample.count, sample.count);
                let chance = sheet.value(&case, row);
                hold(&format!("{what}: {row}"), count.round() as u32, trials as u32, chance);
            }
        }
    }
}

/// Fractions as listed with the negative hypergeometric distribution for 10 and 20 cards (scipy's
/// `nhypergeom` agrees), from its closed forms for 6: of each deck a given card, the mean, nobody,
/// all.
#[test]
fn fractions_are_the_known_ones() {
    const KNOWN: [(Under, [[&str; 4]; 3]); 3] = [
        (
            Under::Base,
            [
                ["1/2", "3", "1/7", "1/7"],
                ["1/2", "5", "1/11", "1/11"],
                ["1/2", "10", "1/21", "1/21"],
            ],
        ),
        (
            Under::Script("fn turn_end_cards(now) { 2 }"),
            [
                ["1/3", "2", "1/4", "1/28"],
                ["1/3", "10/3", "1/6", "1/66"],
                ["1/3", "20/3", "1/11", "1/231"],
            ],
        ),
        (
            Under::Shipped("two-turn-end-cards"),
            [
                ["2/3", "4", "1/28", "1/4"],
                ["2/3", "20/3", "1/66", "1/6"],
                ["2/3", "40/3", "1/231", "1/11"],
            ],
        ),
    ];
    let rows = [
        "a given card is drawn in a turn",
        "cards drawn in a turn, mean",
        "nobody acts in a turn",
        "all cards are drawn",
    ];
    for (under, decks) in KNOWN {
        let sheet = under.sheet("deck", "--cards 6 10 20");
        for (cards, known) in [6, 10, 20].into_iter().zip(decks) {
            let case = format!("{cards} other cards in the deck");
            let told = rows.map(|row| sheet.row(&case, row)["fraction"].as_str().unwrap());
            assert_eq!(told, known, "{under:?}: {case}");
        }
    }
}

#[test]
fn the_end_of_the_turn_is_told_as_the_rule_has_it() {
    let sheet = Under::Shipped("two-turn-end-cards:cards=3").sheet("deck", "--cards 8");
    let ends = "number of the one that ends the turn";
    assert_eq!(sheet.value("The turn-end cards", ends), 3.0);
    let given = sheet.row("8 other cards in the deck", "a given card is drawn in a turn");
    assert_eq!(given["fraction"], "3/4");
    let never = Under::Script("fn turn_ends(now, drawn, in_deck) { false }").sheet("deck", "");
    assert_eq!(never.row("The turn-end cards", ends)["why"], "none");
}
