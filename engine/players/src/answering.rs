//! What a card's offer is worth: each answer has been tried with other luck, and what it brought
//! about is weighed. No card is known by name.

use ruleshift_game::{Act, Card, Prospects, Side, Unit};

use crate::guns::MAN;
use crate::utility::Judge;

/// What a point is worth, in hundredths of a pin.
const POINT: i32 = 300;
/// What a pin is worth in the same.
const PIN: i32 = 100;
/// Actions that a unit may be expected to get from a card.
const ACTIONS_OF_A_CARD: i32 = 2;

impl Judge<'_> {
    /// What the answer at that place among the choices is worth, on average over the tries.
    pub(crate) fn answering(&self, place: usize) -> i32 {
        let acts = self.view.prospects().of(place);
        acts.iter().map(|act| self.act(act)).sum::<i32>() / Prospects::TRIES
    }

    fn act(&self, act: &Act) -> i32 {
        match *act {
            Act::AddPins { unit, pins } => self.for_unit(unit, |_| -PIN * i32::from(pins)),
            Act::RemovePins { unit, pins } => self.steadied(unit, pins.into()),
            Act::Actions { unit, by } => self.more_actions(unit, by.into()),
            Act::Men { unit, by } => self.for_unit(unit, |_| MAN * i32::from(by)),
            Act::Points { side, by } => self.signed(side, self.harmful(POINT * i32::from(by))),
            Act::AddCard(card) => self.card(card),
            Act::RemoveCard(card) => -self.card(card),
            Act::BringReserve { group } if !self.view.own_group(group).is_empty() => {
                self.harmful(MAN)
            }
            _ => 0,
        }
    }

    /// Harm as the weights have it.
    fn harmful(&self, harm: i32) -> i32 {
        harm * self.weights.shoot / 25
    }

    /// Good for a side, seen from this one.
    fn signed(&self, side: Side, good: i32) -> i32 {
        if side == self.view.side() { good } else { -good }
    }

    /// Harm to a unit or good for it, seen from this side.
    fn for_unit(&self, id: u8, good: impl Fn(&Unit) -> i32) -> i32 {
        self.view.unit(id).map_or(0, |unit| self.signed(unit.side, self.harmful(good(unit))))
    }

    fn steadied(&self, id: u8, pins: i32) -> i32 {
        self.view.unit(id).map_or(0, |unit| self.signed(unit.side, self.relief(unit, pins)))
    }

    /// Actions are of use in the activation under way or in one to come.
    fn more_actions(&self, id: u8, by: i32) -> i32 {
        let Some(unit) = self.view.unit(id) else { return 0 };
        let acting = self.view.doing().unit == Some(id);
        if unit.activated && !acting {
            return 0;
        }
        let one = if unit.suppressed(self.view.rules()) {
            self.rally(unit, 0)
        } else if unit.side == self.view.side() {
            self.ordered(unit)
        } else {
            PIN
        };
        self.signed(unit.side, by * one)
    }

    /// A card of a group of this side lets its units act once more.
    fn card(&self, card: Card) -> i32 {
        let Card::Group(group, _) = card else { return 0 };
        let units = self.view.own_group(group).iter().filter(|unit| unit.here());
        units.map(|unit| ACTIONS_OF_A_CARD * self.ordered(unit)).sum()
    }
}
