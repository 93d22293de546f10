//! Chances of the deck.
//!
//! With N cards, k turn-end cards and the turn ending at the j-th of these, the number of cards
//! drawn before it has the negative hypergeometric distribution:
//! P(X = x) = C(x+j-1, x) C(N-x+k-j, N-x) / C(N+k, N), with mean jN/(k+1); see Johnson, Kemp and
//! Kotz, Univariate Discrete Distributions (2005), section 6.2.2.

use ruleshift_game::{Hook, Rules};

use super::chances::Chances;
use super::dice::choose;
use super::fraction::{Fraction, fraction};
use super::page::{Group, Value};
use super::scene::Scene;
use super::topic::Sheet;

/// Hooks that these chances ask.
pub(crate) const HOOKS: &[Hook] = &[Hook::TurnEndCards, Hook::TurnEnds];

/// What a table cannot show and is held fixed.
pub(crate) fn held(_: &Scene) -> Vec<String> {
    vec!["The number of other cards is taken as given, however the rules count them.".to_owned()]
}

/// A deck of equal cards and turn-end cards.
#[derive(Clone, Copy, Debug)]
struct Deck {
    cards: u64,
    turn_end_cards: u64,
    /// The number of the turn-end card that ends the turn.
    ends_at: Option<u64>,
}

impl Deck {
    fn new(rules: &Rules, cards: u32) -> Deck {
        let turn_end_cards = rules.turn_end_cards();
        let ends_at = (1..=turn_end_cards).find(|&drawn| rules.turn_ends(drawn, turn_end_cards));
        Deck {
            cards: cards.into(),
            turn_end_cards: turn_end_cards as u64,
            ends_at: ends_at.map(|n| n as u64),
        }
    }

    /// Chance that some given cards are all drawn in a turn. Each of them in turn finds the gaps
    /// between the turn-end cards and the given cards before it all alike (by symmetry).
    fn chance_all_drawn(&self, given: u64) -> Fraction {
        let Some(j) = self.ends_at else { return fraction(1, 1) };
        let gaps = (0..given).map(|n| fraction(j + n, self.turn_end_cards + 1 + n));
        gaps.product()
    }

    /// How many cards are drawn in a turn.
    fn drawn(&self) -> Chances<i32> {
        let (n, k) = (self.cards, self.turn_end_cards);
        let Some(j) = self.ends_at else { return Chances::certain(n as i32) };
        let chance = |x: u64| {
            let ways = choose(x + j - 1, x) * choose(n - x + k - j, n - x);
            ways / choose(n + k, n)
        };
        Chances::of((0..=n).map(|x| (x as i32, chance(x))))
    }

    /// Chance that a given card is not drawn in any of so many turns.
    fn chance_waits(&self, turns: usize) -> Fraction {
        num_traits::pow(fraction(1, 1) - self.chance_all_drawn(1), turns)
    }
}

/// The groups of the topic under one set of rules.
pub(crate) fn groups(sheet: &Sheet<'_>) -> Vec<Group> {
    let deck = Deck::new(sheet.rules, 1);
    let ends = deck.ends_at.map_or(Value::Word("none"), |n| Value::Number(n as i32));
    let mut ending = Group::new("The turn-end cards");
    ending.row("turn-end cards in the deck", Value::Number(deck.turn_end_cards as i32));
    ending.row("number of the one that ends the turn", ends);
    let decks = sheet.scene.cards.iter().map(|&cards| of_size(&Deck::new(sheet.rules, cards)));
    std::iter::once(ending).chain(decks).collect()
}

fn of_size(deck: &Deck) -> Group {
    let drawn = deck.drawn();
    let of = |count: u64| Value::Chance(drawn.chance(|&n| n == count as i32));
    let plural = if deck.cards == 1 { "card" } else { "cards" };
    let mut group = Group::new(format!("{} other {plural} in the deck", deck.cards));
    group.row("a given card is drawn in a turn", Value::Chance(deck.chance_all_drawn(1)));
    if deck.cards > 1 {
        group.detail("two given cards are both drawn", Value::Chance(deck.chance_all_drawn(2)));
    }
    group.row("cards drawn in a turn, mean", Value::Mean(drawn.mean(|&n| n)));
    group.row("nobody acts in a turn", of(0));
    group.row("all cards are drawn", of(deck.cards));
    group.row("a given card waits 2 turns in a row", Value::Chance(deck.chance_waits(2)));
    group.detail("a given card waits 3 turns in a row", Value::Chance(deck.chance_waits(3)));
    group.spread("cards drawn in a turn", &drawn);
    group
}

#[cfg(test)]
mod tests {
    use super::super::fraction::whole;
    use super::*;

    fn deck(cards: u64, turn_end_cards: u64, ends_at: u64) -> Deck {
        Deck { cards, turn_end_cards, ends_at: Some(ends_at) }
    }

    /// Mean jN/(k+1) and variance N(N+k+1) j (k+1-j) / ((k+1)^2 (k+2)) as scipy's `nhypergeom`
    /// documents them.
    #[test]
    fn chances_add_up_and_give_mean_and_variance() {
        for (k, j) in [(1, 1), (2, 2), (2, 1), (3, 2), (6, 4)] {
            for n in [1, 6, 10, 20, 60] {
                let drawn = deck(n, k, j).drawn();
                assert_eq!(drawn.chance(|_| true), fraction(1, 1));
                let mean = drawn.mean(|&x| x);
                assert_eq!(mean, fraction(j * n, k + 1));
                let variance = drawn.mean(|&x| x * x) - &mean * &mean;
                let under = (k + 1) * (k + 1) * (k + 2);
                assert_eq!(variance, fraction(n * (n + k + 1) * j * (k + 1 - j), under));
                assert_eq!(mean, deck(n, k, j).chance_all_drawn(1) * whole(n as i32));
            }
        }
    }

    /// Numerators over a common denominator, recomputed with exact fractions (scipy's `nhypergeom`
    /// agrees).
    #[test]
    fn three_turn_end_cards_ending_at_the_second_have_the_known_law() {
        let ways = [11, 20, 27, 32, 35, 36, 35, 32, 27, 20, 11];
        let known = Chances::of((0..).zip(ways.map(|ways| fraction(ways, 286))));
        assert_eq!(deck(10, 3, 2).drawn(), known);
    }

    /// By symmetry: 1/3, 1/4 with one turn-end card; 1/2, 2/5 at the second of two; 3/10, 1/5 at the
    /// second of three (recomputed by listing all orders).
    #[test]
    fn given_cards_are_all_drawn_with_the_known_chances() {
        for (k, j, two, three) in
            [(1, 1, (1, 3), (1, 4)), (2, 2, (1, 2), (2, 5)), (3, 2, (3, 10), (1, 5))]
        {
            let deck = deck(10, k, j);
            assert_eq!(deck.chance_all_drawn(2), fraction(two.0, two.1));
            assert_eq!(deck.chance_all_drawn(3), fraction(three.0, three.1));
        }
    }
}
