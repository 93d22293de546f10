//! Exact chances of the deck, as fractions.
//!
//! With N cards, k turn-end cards and the turn ending at the j-th of these, the number of cards
//! drawn before it has the negative hypergeometric distribution:
//! P(X = x) = C(x+j-1, x) C(N-x+k-j, N-x) / C(N+k, N), with mean jN/(k+1); see Johnson, Kemp and
//! Kotz, Univariate Discrete Distributions (2005), section 6.2.2.

use std::fmt;

use ruleshift_game::Rules;

/// A chance or a mean as a fraction in lowest terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Fraction {
    pub(crate) over: u128,
    pub(crate) under: u128,
}

impl Fraction {
    fn new(over: u128, under: u128) -> Fraction {
        let by = gcd(over, under).max(1);
        Fraction { over: over / by, under: under / by }
    }

    pub(crate) fn value(self) -> f64 {
        self.over as f64 / self.under as f64
    }
}

impl fmt::Display for Fraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.under {
            1 => write!(f, "{}", self.over),
            _ => write!(f, "{}/{}", self.over, self.under),
        }
    }
}

fn gcd(a: u128, b: u128) -> u128 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// Ways to choose `k` of `n`; exact for all `n` up to 66, the largest deck.
fn choose(n: u32, k: u32) -> u128 {
    (1..=u128::from(k.min(n - k))).fold(1, |ways, i| ways * (u128::from(n) + 1 - i) / i)
}

/// A deck of equal cards and turn-end cards.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Deck {
    cards: u32,
    turn_end_cards: u32,
    ends_at: Option<u32>,
}

impl Deck {
    /// A deck of `cards` cards besides the turn-end cards of `rules`.
    pub(crate) fn new(rules: &Rules, cards: u32) -> Deck {
        let turn_end_cards = rules.turn_end_cards();
        let ends_at = (1..=turn_end_cards).find(|&drawn| rules.turn_ends(drawn, turn_end_cards));
        Deck { cards, turn_end_cards: turn_end_cards as u32, ends_at: ends_at.map(|n| n as u32) }
    }

    pub(crate) fn cards(&self) -> u32 {
        self.cards
    }

    pub(crate) fn turn_end_cards(&self) -> u32 {
        self.turn_end_cards
    }

    /// The number of the turn-end card that ends the turn.
    pub(crate) fn ends_at(&self) -> Option<u32> {
        self.ends_at
    }

    /// Chance that a given card is drawn in a turn.
    pub(crate) fn chance_drawn(&self) -> Fraction {
        let j = self.ends_at.unwrap_or(self.turn_end_cards + 1);
        Fraction::new(j.into(), u128::from(self.turn_end_cards) + 1)
    }

    /// Mean number of cards drawn in a turn.
    pub(crate) fn mean_drawn(&self) -> Fraction {
        let Fraction { over, under } = self.chance_drawn();
        Fraction::new(over * u128::from(self.cards), under)
    }

    /// Chance that exactly `drawn` cards are drawn in a turn.
    pub(crate) fn chance_of(&self, drawn: u32) -> Fraction {
        let (n, k) = (self.cards, self.turn_end_cards);
        let Some(j) = self.ends_at else {
            return Fraction::new(u128::from(drawn == n), 1);
        };
        let left = n - drawn;
        let ways = choose(drawn + j - 1, drawn) * choose(left + k - j, left);
        Fraction::new(ways, choose(n + k, n))
    }

    /// Chance that a given card is not drawn in any of so many turns.
    pub(crate) fn chance_waits(&self, turns: u32) -> Fraction {
        let Fraction { over, under } = self.chance_drawn();
        Fraction::new((under - over).pow(turns), under.pow(turns))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn deck(cards: u32, turn_end_cards: u32, ends_at: u32) -> Deck {
        Deck { cards, turn_end_cards, ends_at: Some(ends_at) }
    }

    #[test]
    fn chances_add_up_and_give_the_mean() {
        for (k, j) in [(1, 1), (2, 2), (2, 1), (3, 2), (6, 4)] {
            for cards in [1, 6, 10, 20, 60] {
                let deck = deck(cards, k, j);
                let chances = (0..=cards).map(|x| deck.chance_of(x).value());
                assert!((chances.clone().sum::<f64>() - 1.0).abs() < 1e-12);
                let mean: f64 = chances.enumerate().map(|(x, p)| x as f64 * p).sum();
                assert!((mean - deck.mean_drawn().value()).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn one_turn_end_card_makes_every_number_as_likely() {
        let deck = deck(8, 1, 1);
        assert!((0..=8).all(|x| deck.chance_of(x) == Fraction::new(1, 9)));
    }
}
