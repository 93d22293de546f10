//! The deck: cards ordered by keyed priorities (RULES 2).
//!
//! Each card draws its priority from luck of its own, so an extra card takes its place without
//! changing the order of the others.

use crate::kinds::Side;
use crate::limits::{MAX_CARDS, MAX_COPIES};
use crate::luck::{Purpose, Stream};
use crate::state::{BatteryId, GroupId, State, UnitId};

/// One card. The last number of each kind tells copies apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Card {
    /// Ends the turn, or brings its end nearer.
    TurnEnd(u8),
    /// Lets a side act with its markers.
    Marker(Side, u8),
    /// Lets a group act.
    Group(GroupId, u8),
    /// Lets a leader give orders.
    Leader(UnitId, u8),
    /// Lets a battery fire.
    Battery(BatteryId, u8),
    /// Leaves a side short of ammunition.
    Shortage(Side, u8),
    /// A card of a house rule's own, by number over the whole rule stack, and the side it is for.
    Extra(u8, Option<Side>, u8),
}

impl Card {
    /// A number that no other card has: the `who` of its priority.
    pub(crate) const fn number(self) -> u16 {
        match self {
            Card::TurnEnd(copy) => copy as u16,
            Card::Marker(side, copy) => 0x1000 | ((side as u16) << 4) | copy as u16,
            Card::Group(group, copy) => 0x2000 | ((group as u16) << 4) | copy as u16,
            Card::Leader(unit, copy) => 0x3000 | ((unit as u16) << 4) | copy as u16,
            Card::Battery(battery, copy) => 0x4000 | ((battery as u16) << 4) | copy as u16,
            Card::Shortage(side, copy) => 0x5000 | ((side as u16) << 4) | copy as u16,
            Card::Extra(card, owner, copy) => {
                let owner = match owner {
                    Some(side) => side as u16,
                    None => 2,
                };
                0x6000 | ((card as u16) << 7) | (owner << 5) | copy as u16
            }
        }
    }

    /// Its place in [`crate::CARD_KINDS`].
    pub(crate) const fn kind(self) -> u8 {
        match self {
            Card::TurnEnd(_) => 0,
            Card::Marker(..) => 1,
            Card::Group(..) => 2,
            Card::Leader(..) => 3,
            Card::Battery(..) => 4,
            Card::Shortage(..) => 5,
            Card::Extra(..) => 6,
        }
    }

    /// The side it is for.
    pub(crate) fn owner(self, state: &State) -> Option<Side> {
        match self {
            Card::TurnEnd(_) => None,
            Card::Marker(side, _) | Card::Shortage(side, _) => Some(side),
            Card::Group(group, _) => Some(state.groups[group as usize].side),
            Card::Leader(unit, _) => Some(state.units[unit as usize].side),
            Card::Battery(id, _) => Some(state.batteries[id as usize].side),
            Card::Extra(_, owner, _) => owner,
        }
    }

    /// The same card as another copy.
    pub(crate) const fn copy(self, copy: u8) -> Card {
        match self {
            Card::TurnEnd(_) => Card::TurnEnd(copy),
            Card::Marker(side, _) => Card::Marker(side, copy),
            Card::Group(group, _) => Card::Group(group, copy),
            Card::Leader(unit, _) => Card::Leader(unit, copy),
            Card::Battery(id, _) => Card::Battery(id, copy),
            Card::Shortage(side, _) => Card::Shortage(side, copy),
            Card::Extra(card, owner, _) => Card::Extra(card, owner, copy),
        }
    }
}

/// The deck of one turn, in the order in which it is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Deck {
    cards: [Card; MAX_CARDS],
    len: u8,
    drawn: u8,
    turn_end_cards: u8,
    turn_ends_drawn: u8,
}

impl Default for Deck {
    fn default() -> Self {
        Deck {
            cards: [Card::TurnEnd(0); MAX_CARDS],
            len: 0,
            drawn: 0,
            turn_end_cards: 0,
            turn_ends_drawn: 0,
        }
    }
}

impl Deck {
    pub(crate) fn clear(&mut self) {
        *self = Deck { cards: self.cards, ..Deck::default() };
    }

    /// Adds a card; a full deck, which the limits on scenarios and hooks rule out, takes no more.
    pub(crate) fn add(&mut self, card: Card) {
        if (self.len as usize) < MAX_CARDS {
            self.cards[self.len as usize] = card;
            self.len += 1;
            self.turn_end_cards += u8::from(matches!(card, Card::TurnEnd(_)));
        }
    }

    /// Puts the cards in the order of their priorities in that turn of that game.
    pub(crate) fn shuffle(&mut self, seed: u64, turn: u16) {
        sort(&mut self.cards[..self.len as usize], seed, turn);
    }

    /// Puts the cards not drawn yet in the order of their priorities in that turn of that game.
    pub(crate) fn shuffle_left(&mut self, seed: u64, turn: u16) {
        sort(&mut self.cards[self.drawn as usize..self.len as usize], seed, turn);
    }

    pub(crate) fn draw(&mut self) -> Option<Card> {
        let card = *self.cards[..self.len as usize].get(self.drawn as usize)?;
        self.drawn += 1;
        self.turn_ends_drawn += u8::from(matches!(card, Card::TurnEnd(_)));
        Some(card)
    }

    /// The cards not drawn yet, in the order in which they will be: known to nobody at the table.
    pub(crate) fn left(&self) -> &[Card] {
        &self.cards[self.drawn as usize..self.len as usize]
    }

    /// That card with the number of the first copy that is not in the deck, if there is room.
    pub(crate) fn next_copy(&self, card: Card) -> Option<Card> {
        let all = &self.cards[..self.len as usize];
        let free = (0..MAX_COPIES).map(|copy| card.copy(copy)).find(|card| !all.contains(card));
        free.filter(|_| all.len() < MAX_CARDS)
    }

    /// Puts a card among those that are left, behind so many of them.
    pub(crate) fn insert(&mut self, card: Card, behind: u32) {
        let place = (self.drawn as usize + behind as usize).min(self.len as usize);
        self.add(card);
        self.cards[place..self.len as usize].rotate_right(1);
    }

    /// Takes a card that was not drawn yet out of the deck.
    pub(crate) fn remove(&mut self, card: Card) {
        let Some(place) = self.left().iter().position(|&other| other == card) else { return };
        let first = self.drawn as usize + place;
        self.cards[first..self.len as usize].rotate_left(1);
        self.len -= 1;
        self.turn_end_cards -= u8::from(matches!(card, Card::TurnEnd(_)));
    }

    /// Puts the card drawn last back among those that are left, behind so many of them.
    pub(crate) fn put_back(&mut self, behind: u32) {
        let Some(last) = self.drawn.checked_sub(1) else { return };
        let (first, place) = (last as usize, last as usize + behind as usize);
        let place = place.min(self.len as usize - 1);
        self.turn_ends_drawn -= u8::from(matches!(self.cards[first], Card::TurnEnd(_)));
        self.cards[first..=place].rotate_left(1);
        self.drawn = last;
    }

    /// Cards in the deck at the start of the turn, with those added and removed since.
    pub fn len(&self) -> u8 {
        self.len
    }

    /// Whether the deck had no cards at the start of the turn.
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// Cards drawn this turn.
    pub fn drawn(&self) -> u8 {
        self.drawn
    }

    /// Turn-end cards in the deck.
    pub fn turn_end_cards(&self) -> u8 {
        self.turn_end_cards
    }

    /// Turn-end cards drawn this turn.
    pub fn turn_ends_drawn(&self) -> u8 {
        self.turn_ends_drawn
    }
}

/// Sorts cards by their priorities.
fn sort(cards: &mut [Card], seed: u64, turn: u16) {
    let mut order = [(0, Card::TurnEnd(0)); MAX_CARDS];
    let order = &mut order[..cards.len()];
    for (place, &card) in order.iter_mut().zip(&*cards) {
        *place = (Stream::keyed(seed, Purpose::Deck, turn, card.number(), 0).next(), card);
    }
    order.sort_unstable();
    for (card, &(_, ordered)) in cards.iter_mut().zip(&*order) {
        *card = ordered;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(cards: &[Card], seed: u64) -> Vec<Card> {
        let mut deck = Deck::default();
        cards.iter().for_each(|&card| deck.add(card));
        deck.shuffle(seed, 1);
        std::iter::from_fn(|| deck.draw()).collect()
    }

    /// RULES 2.3.
    #[test]
    fn an_extra_card_leaves_the_order_of_the_others_alone() {
        let cards: Vec<Card> = (0..9).map(|n| Card::Group(n, 0)).collect();
        let more = [&cards[..], &[Card::TurnEnd(0), Card::Leader(3, 0)]].concat();
        for seed in 0..200 {
            let mut with = order(&more, seed);
            with.retain(|card| matches!(card, Card::Group(..)));
            assert_eq!(with, order(&cards, seed));
        }
    }

    /// Scenarios and hooks at their limits just fill the deck.
    #[test]
    fn the_deck_has_room_for_all_that_rules_may_ask_for() {
        let most = |name: &str| crate::hook_by_name(name).unwrap().spec().result.len() - 1;
        let groups = crate::limits::MAX_GROUPS * most("group_cards");
        let leaders = crate::limits::MAX_LEADERS * most("leader_cards");
        // Turn-end cards are counted from 1.
        let turn_ends = most("turn_end_cards") + 1;
        let sides = 2 * (most("marker_cards") + most("shortage_cards"));
        let batteries = crate::limits::MAX_BATTERIES * most("battery_cards");
        let added = crate::limits::MAX_ADDED_CARDS;
        assert_eq!(turn_ends + sides + groups + leaders + batteries + added, MAX_CARDS);
    }

    /// RULES 18.1, 18.4.
    #[test]
    fn cards_are_put_in_taken_out_and_put_back_where_they_are_said_to() {
        let cards: Vec<Card> = (0..5).map(|n| Card::Group(n, 0)).collect();
        let mut deck = Deck::default();
        cards.iter().for_each(|&card| deck.add(card));
        assert_eq!(deck.draw(), Some(cards[0]));
        deck.insert(Card::TurnEnd(0), 2);
        let [_, b, c, d, e] = cards[..] else { unreachable!() };
        assert_eq!(deck.left(), [b, c, Card::TurnEnd(0), d, e]);
        assert_eq!(
            (deck.draw(), deck.draw(), deck.draw()),
            (Some(b), Some(c), Some(Card::TurnEnd(0)))
        );
        deck.put_back(1);
        assert_eq!((deck.left(), deck.turn_ends_drawn()), (&[d, Card::TurnEnd(0), e][..], 0));
        deck.remove(Card::TurnEnd(0));
        assert_eq!((deck.left(), deck.turn_end_cards()), (&[d, e][..], 0));
        assert_eq!(deck.next_copy(d), Some(Card::Group(3, 1)));
        deck.insert(Card::TurnEnd(0), 9);
        assert_eq!(
            std::iter::from_fn(|| deck.draw()).collect::<Vec<_>>(),
            [d, e, Card::TurnEnd(0)]
        );
    }

    #[test]
    fn every_card_is_drawn_once() {
        let cards: Vec<Card> =
            (0..9).map(|n| Card::Group(n, 0)).chain([Card::TurnEnd(0)]).collect();
        let mut drawn = order(&cards, 5);
        drawn.sort_unstable();
        let mut all = cards;
        all.sort_unstable();
        assert_eq!(drawn, all);
    }
}

#[cfg(test)]
mod odds;
