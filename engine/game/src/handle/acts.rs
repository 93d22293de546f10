//! What an event hook may do: each act is checked and noted, and done in the handle's copy of the
//! state, so that the hook's next question sees it.

use super::Handle;
use crate::deck::Card;
use crate::forces::Start;
use crate::happening::Happening;
use crate::kinds::Side;
use crate::limits::{MAX_ADDED_CARDS, MAX_COUNT, MAX_OFFERED, MAX_PINS, MAX_POINTS_AT_ONCE};
use crate::luck::Purpose;
use crate::script::{Act, Illegal, Offer};
use crate::state::Who;

/// Most acts of one call; how many dice it rolls its allowance of operations bounds.
const MAX_ACTS: u16 = 200;
/// Longest note in bytes.
const MAX_NOTE: usize = 200;
/// Most pins or men in one act: as many as a unit can have.
const MAX_AT_ONCE: i64 = MAX_PINS as i64;

type Done<T = ()> = Result<T, Illegal>;

impl Handle {
    /// Rolls one six-sided die of the game's own luck.
    pub fn roll(&mut self) -> i64 {
        let die = self.state.roll(Purpose::Script, Who::Script, 1).die();
        self.acts.push(Act::Roll(die));
        die.into()
    }

    /// Puts pins on a unit on the table.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 0 to 30.
    pub fn add_pins(&mut self, unit: i64, pins: i64) -> Done {
        let (unit, pins) = self.change(unit, "pins", pins)?;
        let now = &mut self.state.units[unit as usize].pins;
        *now = (*now + pins).min(MAX_PINS);
        if pins == 0 { Ok(()) } else { self.act(Act::AddPins { unit, pins }) }
    }

    /// Takes pins off a unit on the table, as many as it has at most.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 0 to 30.
    pub fn remove_pins(&mut self, unit: i64, pins: i64) -> Done {
        let (unit, pins) = self.change(unit, "pins", pins)?;
        let now = &mut self.state.units[unit as usize].pins;
        let pins = pins.min(*now);
        *now -= pins;
        if pins == 0 { Ok(()) } else { self.act(Act::RemovePins { unit, pins }) }
    }

    /// Gives a unit on the table or in a vehicle one more action in its present or next activation
    /// this turn.
    ///
    /// # Errors
    /// When the unit is not there.
    pub fn grant_action(&mut self, unit: i64) -> Done {
        self.change_actions(unit, 1)
    }

    /// Takes one action from a unit on the table or in a vehicle in its present or next activation
    /// this turn.
    ///
    /// # Errors
    /// When the unit is not there.
    pub fn take_action(&mut self, unit: i64) -> Done {
        self.change_actions(unit, -1)
    }

    fn change_actions(&mut self, unit: i64, by: i8) -> Done {
        if !self.unit(unit)?.here() {
            return Err(Illegal(format!(
                "unit {unit} is neither on the table nor in a vehicle: ask `game.on_table(unit)` first"
            )));
        }
        self.act(Act::Actions { unit: unit as u8, by })
    }

    /// Takes men from a unit on the table, as many as it has at most.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 0 to 30.
    pub fn lose_men(&mut self, unit: i64, men: i64) -> Done {
        let (unit, men) = self.change(unit, "men", men)?;
        let now = &mut self.state.units[unit as usize];
        let men = men.min(now.men);
        now.men -= men;
        if now.men == 0 {
            now.place = crate::state::Place::Lost;
        }
        if men == 0 { Ok(()) } else { self.act(Act::Men { unit, by: -(men as i8) }) }
    }

    /// Brings lost men back to a unit on the table, as many as it had at the start at most.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 0 to 30.
    pub fn return_men(&mut self, unit: i64, men: i64) -> Done {
        let (unit, men) = self.change(unit, "men", men)?;
        let now = &mut self.state.units[unit as usize];
        let men = men.min(now.first_men - now.men);
        now.men += men;
        if men == 0 { Ok(()) } else { self.act(Act::Men { unit, by: men as i8 }) }
    }

    /// Gives a side points, or takes them.
    ///
    /// # Errors
    /// When there is no such side or the number is not -20 to 20.
    pub fn add_points(&mut self, side: i64, points: i64) -> Done {
        let side = self.side(side)?;
        let most = i64::from(MAX_POINTS_AT_ONCE);
        if !(-most..=most).contains(&points) {
            return Err(Illegal(format!("points must be -{most} to {most}, not {points}")));
        }
        self.state.points[side] += points as i16;
        self.act(Act::Points { side, by: points as i16 })
    }

    /// Puts one of the script's own cards into this turn's deck: whether there was time and room.
    ///
    /// # Errors
    /// When the script has no such card or there is no such owner.
    pub fn add_card(&mut self, card: i64, owner: i64) -> Done<bool> {
        let card = self.own_card(card)?;
        let owner = match owner {
            2 => None,
            side => Some(self.side(side).map_err(|_| no_owner(side))?),
        };
        self.put_in(Card::Extra(card, owner, 0))
    }

    /// Puts one more card of a group with units on the table into this turn's deck: whether there
    /// was time and room, and the group had units there.
    ///
    /// # Errors
    /// When there is no such group.
    pub fn add_group_card(&mut self, group: i64) -> Done<bool> {
        self.group(group)?;
        let group = group as u8;
        let here = self.state.members(group).any(|unit| self.state.units[unit as usize].here());
        if here { self.put_in(Card::Group(group, 0)) } else { Ok(false) }
    }

    /// Takes all cards of a kind and an owner that are still to be drawn out of this turn's deck:
    /// how many there were.
    ///
    /// # Errors
    /// When there is no such kind or owner.
    pub fn remove_cards(&mut self, kind: i64, owner: i64) -> Done<i64> {
        if !(0..crate::CARD_KINDS.len() as i64).contains(&kind) {
            return Err(Illegal(format!(
                "there is no kind of card {kind}: use GROUP_CARD or the like"
            )));
        }
        let wanted = match owner {
            2 => None,
            side => Some(self.side(side).map_err(|_| no_owner(side))?),
        };
        if !self.dealing() {
            return Ok(0);
        }
        let state = &self.state;
        let of = |card: &&Card| i64::from(card.kind()) == kind && card.owner(state) == wanted;
        let cards: Vec<Card> = state.deck.left().iter().filter(of).copied().collect();
        for &card in &cards {
            self.state.deck.remove(card);
            self.act(Act::RemoveCard(card))?;
        }
        Ok(cards.len() as i64)
    }

    /// The card just drawn has no effect.
    ///
    /// # Errors
    /// Anywhere but where a card is drawn.
    pub fn skip_card(&mut self) -> Done<bool> {
        self.settle("skip_card")?;
        self.settled(Act::SkipCard)
    }

    /// The card just drawn goes back among the cards left, by luck, but never on top of them:
    /// whether there was one left.
    ///
    /// # Errors
    /// Anywhere but where a card is drawn.
    pub fn put_back(&mut self) -> Done<bool> {
        self.settle("put_back")?;
        if self.state.deck.left().is_empty() { Ok(false) } else { self.settled(Act::PutBack) }
    }

    /// No further card is drawn this turn: whether cards were being drawn.
    ///
    /// # Errors
    /// After too many acts.
    pub fn end_turn(&mut self) -> Done<bool> {
        if !self.drawing() || self.state.turn_cut {
            return Ok(false);
        }
        self.state.turn_cut = true;
        self.act(Act::EndTurn)?;
        Ok(true)
    }

    /// The reserve of a side that is due first comes now: whether one was waiting.
    ///
    /// # Errors
    /// When there is no such side.
    pub fn bring_reserve(&mut self, side: i64) -> Done<bool> {
        let side = self.side(side)?;
        let Some(ground) = &self.ground else { return Ok(false) };
        let waits = |&(id, group): &(u8, &crate::state::Group)| {
            let start = ground.arena.group(id).map(|setup| &setup.start);
            group.side == side && group.due > 0 && matches!(start, Some(Start::Reserve { .. }))
        };
        let waiting = (0..).zip(self.state.groups()).filter(waits);
        let Some((group, _)) = waiting.min_by_key(|(id, group)| (group.due, *id)) else {
            return Ok(false);
        };
        self.state.groups[group as usize].due = 0;
        self.act(Act::BringReserve { group })?;
        Ok(true)
    }

    /// Nothing is seen beyond so many inches for the rest of the turn.
    ///
    /// # Errors
    /// When the distance is not 1 to 86.
    pub fn limit_sight(&mut self, inches: i64) -> Done {
        let inches = match u8::try_from(inches) {
            Ok(inches @ 1..=crate::limits::MAX_RANGE) => inches,
            _ => return Err(Illegal(format!("sight must be 1 to 86 inches, not {inches}"))),
        };
        self.state.sight_limit = self.state.sight_limit.min(inches);
        self.act(Act::LimitSight { inches })
    }

    /// Sets a counter of the script that runs.
    ///
    /// # Errors
    /// When it has no such counter, or the value is too large.
    pub fn set_counter(&mut self, counter: i64, value: i64) -> Done {
        let counter = self.own_counter(counter)?;
        let most = i64::from(MAX_COUNT);
        if !(-most..=most).contains(&value) {
            return Err(Illegal(format!("a counter holds -{most} to {most}, not {value}")));
        }
        let value = value as i16;
        self.state.counters[counter as usize] = value;
        self.act(Act::SetCounter { counter, value })
    }

    /// Asks a side to choose one of its units on the table, or none: whether it has any.
    ///
    /// # Errors
    /// Anywhere but in `on_extra_card`, for a second question, or when there is no such side.
    pub fn ask_unit(&mut self, side: i64) -> Done<bool> {
        let all: Vec<i64> = (0..self.unit_count()).collect();
        self.ask_of("ask_unit", side, &all)
    }

    /// Asks a side to choose one of these units, or none: whether any of them is its own and on the
    /// table; the others are not offered.
    ///
    /// # Errors
    /// As [`Handle::ask_unit`], and when there is no unit of a number.
    pub fn ask_among(&mut self, side: i64, units: &[i64]) -> Done<bool> {
        self.ask_of("ask_among", side, units)
    }

    fn ask_of(&mut self, name: &str, side: i64, units: &[i64]) -> Done<bool> {
        let side = self.asked_side(name, side)?;
        let mut offered = 0u128;
        for &unit in units {
            let own = self.on_table(unit)? && self.unit(unit)?.side == side;
            offered |= u128::from(own) << unit;
        }
        self.act(Act::Ask { side, offer: Offer::Units(offered) })?;
        Ok(offered != 0)
    }

    /// Asks a side to choose a number from 1 to `options`, or none.
    ///
    /// # Errors
    /// Anywhere but in `on_extra_card`, for a second question, when there is no such side, or when
    /// the number of options is not 1 to 12.
    pub fn ask_option(&mut self, side: i64, options: i64) -> Done<bool> {
        let side = self.asked_side("ask_option", side)?;
        match u8::try_from(options) {
            Ok(options @ 1..=MAX_OFFERED) => {
                self.act(Act::Ask { side, offer: Offer::Options(options) })?;
                Ok(true)
            }
            _ => Err(Illegal(format!("there must be 1 to {MAX_OFFERED} options, not {options}"))),
        }
    }

    /// Notes a line in the game's log.
    ///
    /// # Errors
    /// When the line is too long, or is more than one.
    pub fn note(&mut self, line: &str) -> Done {
        if line.contains(char::is_control) {
            return Err(Illegal("a note is one line, without line ends and the like".to_owned()));
        }
        if line.len() > MAX_NOTE {
            return Err(Illegal(format!(
                "a note has at most {MAX_NOTE} bytes, this one has {}",
                line.len()
            )));
        }
        self.act(Act::Note(line.to_owned()))
    }

    fn change(&self, unit: i64, what: &str, number: i64) -> Done<(u8, u8)> {
        self.placed(unit)?;
        match number {
            0..=MAX_AT_ONCE => Ok((unit as u8, number as u8)),
            _ => Err(Illegal(format!(
                "the number of {what} must be 0 to {MAX_AT_ONCE}, not {number}"
            ))),
        }
    }

    /// Whether cards may be added to the deck and taken out.
    fn dealing(&self) -> bool {
        self.drawing() || matches!(self.happening, Happening::TurnStart { .. })
    }

    fn put_in(&mut self, card: Card) -> Done<bool> {
        let room = usize::from(self.state.added_cards) < MAX_ADDED_CARDS;
        let Some(card) = self.state.deck.next_copy(card).filter(|_| room && self.dealing()) else {
            return Ok(false);
        };
        // Where it will lie is for the game's luck; here it only counts.
        self.state.deck.insert(card, u32::MAX);
        self.state.added_cards += 1;
        self.act(Act::AddCard(card))?;
        Ok(true)
    }

    /// Only a card that was just drawn can be skipped or put back.
    fn settle(&self, name: &str) -> Done {
        match self.happening {
            Happening::CardDrawn { .. } | Happening::ExtraCard { .. } => Ok(()),
            _ => Err(Illegal(format!(
                "`{name}` is about the card just drawn: it belongs into `on_card_drawn` or `on_extra_card`"
            ))),
        }
    }

    fn settled(&mut self, act: Act) -> Done<bool> {
        if self.card_settled {
            return Ok(false);
        }
        self.card_settled = true;
        self.act(act)?;
        Ok(true)
    }

    fn asked_side(&self, name: &str, side: i64) -> Done<Side> {
        if !matches!(self.happening, Happening::ExtraCard { .. }) {
            return Err(Illegal(format!(
                "`{name}` puts a card's one question: it belongs into `on_extra_card`"
            )));
        }
        if self.acts.iter().any(|act| matches!(act, Act::Ask { .. })) {
            return Err(Illegal(
                "a card asks one question and has asked it: for another, use another card"
                    .to_owned(),
            ));
        }
        self.side(side).map_err(|illegal| match side {
            2 => Illegal("NOBODY cannot choose: ask ATTACKER or DEFENDER".to_owned()),
            _ => illegal,
        })
    }

    pub(crate) fn act(&mut self, act: Act) -> Done {
        if self.done == MAX_ACTS {
            return Err(Illegal(format!("one call may act at most {MAX_ACTS} times")));
        }
        self.done += 1;
        self.acts.push(act);
        Ok(())
    }
}

fn no_owner(owner: i64) -> Illegal {
    Illegal(format!("there is no owner {owner}: use ATTACKER, DEFENDER or NOBODY"))
}
