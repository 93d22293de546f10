//! Carrying out what event hooks did.

use super::Drawn;
use crate::event::Event;
use crate::game::Game;
use crate::happening::Happening;
use crate::kinds::Side;
use crate::luck::Purpose;
use crate::script::Act;
use crate::script::Offer;
use crate::stage::{Asked, Stage};
use crate::state::{Place, UnitId, Who};

/// Most actions a unit may have or be granted.
const MAX_ACTIONS: u8 = 12;

impl Game<'_> {
    pub(crate) fn carry_out_act(&mut self, act: Act) {
        match act {
            Act::AddPins { unit, pins } if self.there(unit) => {
                self.emit(Event::ScriptActed { unit, pins: pins.into() });
                self.add_pins(unit, pins);
            }
            Act::RemovePins { unit, pins } => {
                let now = &mut self.state.units[unit as usize].pins;
                *now = now.saturating_sub(pins);
                self.emit(Event::ScriptActed { unit, pins: -i16::from(pins) });
            }
            Act::Actions { unit, by } => self.change_actions(unit, by),
            Act::Men { unit, by } if self.there(unit) => self.change_men(unit, by),
            // The unit is gone by an earlier act.
            Act::AddPins { .. } | Act::Men { .. } => {}
            Act::Points { side, by } => {
                self.state.points[side] += by;
                self.emit(Event::PointsChanged { side, by });
            }
            Act::AddCard(card) => self.add_card(card),
            Act::RemoveCard(card) => {
                self.state.deck.remove(card);
                self.emit(Event::CardRemoved { card });
            }
            Act::SkipCard => self.house.card = Drawn::Skipped,
            Act::PutBack => self.put_card_back(),
            Act::EndTurn => {
                self.state.turn_cut = true;
                self.emit(Event::TurnCut { turn: self.state.turn });
            }
            Act::BringReserve { group } => {
                self.emit(Event::ReserveCalled { group });
                let luck = self.state.roll(Purpose::Reserve, Who::Group(group), 0);
                self.bring_reserve(group, luck);
            }
            Act::LimitSight { inches } => {
                self.state.sight_limit = self.state.sight_limit.min(inches);
                self.emit(Event::SightLimited { inches });
            }
            Act::SetCounter { counter, value } => {
                self.state.counters[counter as usize] = value;
                self.emit(Event::CounterSet { counter, value });
            }
            Act::Ask { side, offer } => self.ask(side, offer),
            Act::Roll(die) => self.emit(Event::HookRolled { die }),
            Act::Note(line) => self.emit_note(&line),
        }
    }

    fn there(&self, unit: UnitId) -> bool {
        self.state.units[unit as usize].place == Place::Table
    }

    /// In the activation that goes on, or in the next one.
    fn change_actions(&mut self, id: UnitId, by: i8) {
        let acting = self.state.doing.unit == Some(id);
        let unit = &mut self.state.units[id as usize];
        if acting {
            unit.actions = unit.actions.saturating_add_signed(by).min(MAX_ACTIONS);
        } else {
            let most = MAX_ACTIONS as i8;
            unit.granted = unit.granted.saturating_add(by).clamp(-most, most);
        }
        self.emit(Event::ActionsChanged { unit: id, by: by.into() });
    }

    fn change_men(&mut self, id: UnitId, by: i8) {
        let men = by.unsigned_abs();
        let unit = &mut self.state.units[id as usize];
        if by > 0 {
            unit.men = (unit.men + men).min(unit.first_men);
        }
        let men = men.min(unit.men);
        self.emit(Event::MenChanged { unit: id, by: by.into() });
        if by < 0 && men > 0 {
            self.lose_men(id, men);
        }
    }

    /// Before the shuffle the place does not matter; after it, luck finds one.
    fn add_card(&mut self, card: crate::deck::Card) {
        self.state.added_cards += 1;
        if self.state.doing.stage == Stage::Start {
            self.state.deck.insert(card, u32::MAX);
        } else {
            let left = self.state.deck.left().len() as u32;
            let mut luck = self.state.roll(Purpose::Deck, Who::Script, 0);
            self.state.deck.insert(card, luck.below(left + 1));
        }
        self.emit(Event::CardAdded { card });
    }

    fn put_card_back(&mut self) {
        let left = self.state.deck.left().len() as u32;
        let mut luck = self.state.roll(Purpose::Deck, Who::Script, 0);
        self.state.deck.put_back(1 + luck.below(left));
        self.house.card = Drawn::PutBack;
    }

    fn ask(&mut self, side: Side, offer: Offer) {
        let Some((card, owner)) = self.house.extra_card else { return };
        let (units, options) = match offer {
            Offer::Units(offered) => (Some(offered.count_ones() as u8), None),
            Offer::Options(count) => (None, Some(count)),
        };
        if units != Some(0) {
            self.state.doing.asked = Some(Asked { card, owner, side, offer });
        }
        self.emit(Event::Asked { card, side, units, options });
    }

    /// The side has chosen what a card asked (RULES 18.3).
    pub(crate) fn answer(&mut self, chosen: Option<u8>) {
        let Some(asked) = self.state.doing.asked.take() else { return };
        let Asked { card, owner, side, offer } = asked;
        let (unit, option) = match offer {
            Offer::Units(_) => (chosen, None),
            Offer::Options(_) => (None, chosen),
        };
        self.emit(Event::Answered { card, side, unit, option });
        if let Some(chosen) = chosen {
            self.happen(Happening::Chosen { card, owner, chosen });
        }
    }
}
