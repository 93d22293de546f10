//! The deck against exact chances. Seeds are fixed; the error rates are those of the first run:
//! 4 standard errors are exceeded by chance six times in a hundred thousand.

use super::*;

const TURNS: u32 = 40_000;

/// Ordinary cards drawn before the turn ends, turn after turn, in a deck of `cards` of them and
/// `ends` turn-end cards of which the `last` ends the turn.
fn drawn(cards: u8, ends: u8, last: u8) -> impl Iterator<Item = Vec<Card>> {
    (0..TURNS).map(move |n| {
        let mut deck = Deck::default();
        (0..ends).for_each(|copy| deck.add(Card::TurnEnd(copy)));
        (0..cards).for_each(|group| deck.add(Card::Group(group, 0)));
        deck.shuffle(u64::from(n / 40), (n % 40) as u16 + 1);
        let mut drawn = vec![];
        while let Some(card) = deck.draw() {
            match card {
                Card::TurnEnd(_) if deck.turn_ends_drawn() == last => break,
                Card::TurnEnd(_) => {}
                card => drawn.push(card),
            }
        }
        drawn
    })
}

fn assert_share(count: u32, chance: f64, what: &str) {
    let n = f64::from(TURNS);
    let error = f64::sqrt(chance * (1.0 - chance) / n);
    let share = f64::from(count) / n;
    assert!((share - chance).abs() < 4.0 * error, "{what}: {share}, expected {chance}");
}

/// A given card is drawn before the turn ends with chance j/(k+1), k turn-end cards of which the
/// j-th ends it, whatever the size of the deck; an empty turn with one has chance 1/(N+1). By
/// symmetry: the card falls in any of the k+1 gaps alike.
#[test]
fn a_card_is_drawn_in_its_share_of_turns() {
    for cards in [6, 10, 20] {
        for (ends, last) in [(1, 1), (2, 2), (2, 1), (3, 2)] {
            let (mut mine, mut empty) = (0, 0);
            for drawn in drawn(cards, ends, last) {
                mine += u32::from(drawn.contains(&Card::Group(cards / 2, 0)));
                empty += u32::from(drawn.is_empty());
            }
            let what = format!("{cards} cards, {last} of {ends}");
            assert_share(mine, f64::from(last) / f64::from(ends + 1), &what);
            if ends == 1 {
                assert_share(empty, 1.0 / f64::from(cards + 1), &what);
            }
        }
    }
}

/// How many cards come before the turn ends: the negative hypergeometric distribution, with
/// numerators over a common denominator. For one turn-end card they are all alike; for two, ending
/// at the second, 1, 2, ... N+1 over (N+1)(N+2)/2, at the first the same backwards. (Textbook
/// values, exact fractions; scipy's `nhypergeom` agrees.)
#[test]
fn turns_are_as_long_as_the_law_says() {
    for cards in [6u8, 10, 20] {
        let n = f64::from(cards);
        let pairs = (n + 1.0) * (n + 2.0) / 2.0;
        let second = |k: f64| (k + 1.0) / pairs;
        let first = |k: f64| (n + 1.0 - k) / pairs;
        let law = |ends: u8, last: u8, k: f64| match (ends, last) {
            (1, _) => 1.0 / (n + 1.0),
            (_, 2) => second(k),
            _ => first(k),
        };
        for (ends, last) in [(1, 1), (2, 2), (2, 1)] {
            let mut counts = vec![0; usize::from(cards) + 1];
            drawn(cards, ends, last).for_each(|drawn| counts[drawn.len()] += 1);
            for (k, &count) in counts.iter().enumerate() {
                let what = format!("{cards} cards, {last} of {ends}, {k} drawn");
                assert_share(count, law(ends, last, k as f64), &what);
            }
        }
    }
}

/// Every card is as likely in every place: chi-square over 8 cards by 8 places with 49 degrees of
/// freedom below 85.35, which chance exceeds once in a thousand.
#[test]
fn every_place_is_as_likely() {
    let mut counts = [[0u32; 8]; 8];
    for drawn in drawn(8, 1, 2) {
        for (place, card) in drawn.iter().enumerate() {
            let Card::Group(id, _) = *card else { unreachable!("only group cards are kept") };
            counts[usize::from(id)][place] += 1;
        }
    }
    let expected = f64::from(TURNS) / 8.0;
    let chi: f64 =
        counts.iter().flatten().map(|&n| (f64::from(n) - expected).powi(2) / expected).sum();
    assert!(chi < 85.35, "{chi}");
}
