//! What the event hooks of a rule stack did in some games, counted from the events of the games.

use ruleshift_game::limits::MAX_OFFERED;
use ruleshift_game::{Event, Observer, State};
use serde::Serialize;

/// Counts of what event hooks did, over all games together.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(crate) struct Did {
    /// Dice rolled.
    pub(crate) dice_rolled: u64,
    /// Pins put on units.
    pub(crate) pins_put_on: u64,
    /// Pins taken off units.
    pub(crate) pins_taken_off: u64,
    /// Actions given to units.
    pub(crate) actions_given: u64,
    /// Those of them given to units whose activation of that turn was over.
    pub(crate) actions_given_late: u64,
    /// Actions taken from units.
    pub(crate) actions_taken: u64,
    /// Men taken from units.
    pub(crate) men_lost: u64,
    /// Men brought back to units.
    pub(crate) men_brought_back: u64,
    /// Points given to a side.
    pub(crate) points_given: u64,
    /// Points taken from a side.
    pub(crate) points_taken: u64,
    /// Cards put into the deck.
    pub(crate) cards_put_in: u64,
    /// Cards taken out of the deck.
    pub(crate) cards_taken_out: u64,
    /// Cards that had no effect when they were drawn.
    pub(crate) cards_skipped: u64,
    /// Cards that went back into the deck when they were drawn.
    pub(crate) cards_put_back: u64,
    /// Turns ended before their last card.
    pub(crate) turns_ended: u64,
    /// How often sight was limited.
    pub(crate) sight_limited: u64,
    /// Reserves called.
    pub(crate) reserves_called: u64,
    /// How often a counter was set.
    pub(crate) counters_set: u64,
    /// Cards that found no unit to choose, so that nobody was asked.
    pub(crate) nobody_to_ask: u64,
    /// Questions put to a side.
    pub(crate) asked: u64,
    /// Those of them answered with a unit.
    pub(crate) answered_unit: u64,
    /// Those of them answered with each option, the first being option 1; up to the last one taken.
    pub(crate) answered_option: Vec<u64>,
    /// Those of them to which the side wanted nothing.
    pub(crate) unanswered: u64,
    /// Lines noted in the story of the game.
    pub(crate) notes: u64,
}

impl Observer for Did {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::ScriptActed { pins, .. } => {
                count(pins, &mut self.pins_put_on, &mut self.pins_taken_off);
            }
            Event::ActionsChanged { unit, by } => {
                count(by, &mut self.actions_given, &mut self.actions_taken);
                let unit = &state.units()[unit as usize];
                // In the activation that goes on nothing is kept for later.
                if by > 0 && unit.activated && unit.granted > 0 {
                    self.actions_given_late += u64::from(by.unsigned_abs());
                }
            }
            Event::MenChanged { by, .. } => {
                count(by, &mut self.men_brought_back, &mut self.men_lost);
            }
            Event::PointsChanged { by, .. } => {
                count(by, &mut self.points_given, &mut self.points_taken);
            }
            Event::HookRolled { .. } => self.dice_rolled += 1,
            Event::CardAdded { .. } => self.cards_put_in += 1,
            Event::CardRemoved { .. } => self.cards_taken_out += 1,
            Event::CardSkipped { .. } => self.cards_skipped += 1,
            Event::CardPutBack { .. } => self.cards_put_back += 1,
            Event::TurnCut { .. } => self.turns_ended += 1,
            Event::SightLimited { .. } => self.sight_limited += 1,
            Event::ReserveCalled { .. } => self.reserves_called += 1,
            Event::CounterSet { .. } => self.counters_set += 1,
            Event::Asked { units: Some(0), .. } => self.nobody_to_ask += 1,
            Event::Asked { .. } => {
                (self.asked, self.unanswered) = (self.asked + 1, self.unanswered + 1);
            }
            Event::Answered { unit, option, .. } => self.answered(unit.is_some(), option),
            Event::Noted { .. } => self.notes += 1,
            _ => {}
        }
    }
}

/// Adds a change to the count of those up, or of those down.
fn count(by: i16, up: &mut u64, down: &mut u64) {
    *if by > 0 { up } else { down } += u64::from(by.unsigned_abs());
}

impl Did {
    fn answered(&mut self, with_unit: bool, option: Option<u8>) {
        let option = option.map(|option| usize::from(option.clamp(1, MAX_OFFERED)));
        if with_unit || option.is_some() {
            self.unanswered = self.unanswered.saturating_sub(1);
        }
        self.answered_unit += u64::from(with_unit);
        if let Some(option) = option {
            let taken = &mut self.answered_option;
            taken.resize(taken.len().max(option), 0);
            taken[option - 1] += 1;
        }
    }

    /// These counts and others together.
    pub(super) fn and(mut self, other: &Did) -> Did {
        let Did { answered_option, .. } = other;
        let taken = &mut self.answered_option;
        taken.resize(taken.len().max(answered_option.len()), 0);
        taken.iter_mut().zip(answered_option).for_each(|(sum, more)| *sum += more);
        for (sum, more) in self.numbers().into_iter().zip(other.clone().numbers()) {
            *sum += *more;
        }
        self
    }

    /// All counts but those of options.
    fn numbers(&mut self) -> [&mut u64; 23] {
        [
            &mut self.dice_rolled,
            &mut self.pins_put_on,
            &mut self.pins_taken_off,
            &mut self.actions_given,
            &mut self.actions_given_late,
            &mut self.actions_taken,
            &mut self.men_lost,
            &mut self.men_brought_back,
            &mut self.points_given,
            &mut self.points_taken,
            &mut self.cards_put_in,
            &mut self.cards_taken_out,
            &mut self.cards_skipped,
            &mut self.cards_put_back,
            &mut self.turns_ended,
            &mut self.sight_limited,
            &mut self.reserves_called,
            &mut self.counters_set,
            &mut self.nobody_to_ask,
            &mut self.asked,
            &mut self.answered_unit,
            &mut self.unanswered,
            &mut self.notes,
        ]
    }

    /// What was done, in words: `put on 18 pins, gave 1 action and asked twice`; none for nothing.
    pub(super) fn words(&self) -> Option<String> {
        let late = match self.actions_given_late {
            0 => String::new(),
            late => format!(" ({late} to units that had acted already)"),
        };
        let all = [
            (self.dice_rolled, "rolled", "die", ""),
            (self.pins_put_on, "put on", "pin", ""),
            (self.pins_taken_off, "took off", "pin", ""),
            (self.actions_given, "gave", "action", late.as_str()),
            (self.actions_taken, "took", "action", ""),
            (self.men_lost, "took", "man", ""),
            (self.men_brought_back, "brought back", "man", ""),
            (self.points_given, "gave", "point", ""),
            (self.points_taken, "took", "point", ""),
            (self.cards_put_in, "put", "card", " into the deck"),
            (self.cards_taken_out, "took", "card", " out of the deck"),
            (self.cards_skipped, "skipped", "card", ""),
            (self.cards_put_back, "put back", "card", ""),
            (self.turns_ended, "ended", "turn", ""),
            (self.sight_limited, "limited sight", "", ""),
            (self.reserves_called, "called", "reserve", ""),
            (self.counters_set, "set counters", "", ""),
            (self.asked, "asked", "", &self.answers()),
            (self.nobody_to_ask, "found no unit to choose", "", ""),
            (self.notes, "noted", "line", ""),
        ];
        let done = all.iter().filter(|(count, ..)| *count > 0);
        let done: Vec<String> = done
            .map(|&(count, verb, noun, more)| format!("{verb} {}{more}", counted(count, noun)))
            .collect();
        let (last, first) = done.split_last()?;
        let and = if first.is_empty() { "" } else { " and " };
        Some(format!("{}{and}{last}", first.join(", ")))
    }

    /// How questions were answered: ` (answered with a unit 80 times, not at all once)`.
    fn answers(&self) -> String {
        let options = self.answered_option.iter().zip(1..);
        let options = options.map(|(count, n)| (*count, format!("with option {n}")));
        let told: Vec<String> = [(self.answered_unit, "with a unit".to_owned())]
            .into_iter()
            .chain(options)
            .chain([(self.unanswered, "not at all".to_owned())])
            .filter(|(count, _)| *count > 0)
            .map(|(count, answer)| match count == self.asked {
                true => format!("{answer} each time"),
                false => format!("{answer} {}", counted(count, "")),
            })
            .collect();
        format!(" (answered {})", told.join(", "))
    }
}

/// `1 pin`, `3 pins`; without a noun `once`, `3 times`.
fn counted(count: u64, noun: &str) -> String {
    match (count, noun) {
        (1, "") => "once".to_owned(),
        (_, "") => format!("{count} times"),
        (1, _) => format!("1 {noun}"),
        (_, "man") => format!("{count} men"),
        (_, "die") => format!("{count} dice"),
        _ => format!("{count} {noun}s"),
    }
}

#[cfg(test)]
mod tests {
    use ruleshift_game::{Card, Side};

    use super::*;
    use crate::trial::{LEADER, SECTION, start};

    fn answered(unit: Option<u8>, option: Option<u8>) -> Event {
        Event::Answered { card: 0, side: Side::Attacker, unit, option }
    }

    fn asked(options: Option<u8>) -> Event {
        let units = options.is_none().then_some(2);
        Event::Asked { card: 0, side: Side::Attacker, units, options }
    }

    fn did(events: &[Event]) -> Did {
        let state = start();
        let mut did = Did::default();
        events.iter().for_each(|event| did.event(event, &state));
        did
    }

    #[test]
    fn gains_and_losses_are_counted_apart_and_games_are_added_up() {
        let first = did(&[
            Event::ScriptActed { unit: SECTION, pins: 3 },
            Event::ScriptActed { unit: SECTION, pins: -2 },
            Event::PinsAdded { unit: SECTION, pins: 9, now: 9 },
            Event::MenChanged { unit: LEADER, by: -1 },
        ]);
        let words = "put on 3 pins, took off 2 pins and took 1 man";
        assert_eq!(first.words().as_deref(), Some(words));
        let both = did(&[Event::MenChanged { unit: LEADER, by: -2 }]).and(&first);
        assert_eq!((both.pins_put_on, both.men_lost), (3, 3));
        assert_eq!(did(&[Event::UnitLost { unit: LEADER }]), Did::default());
        assert_eq!(Did::default().words(), None);
    }

    #[test]
    fn whatever_a_house_rule_does_has_words() {
        let (card, side) = (Card::Marker(Side::Defender, 0), Side::Defender);
        for (event, words) in [
            (Event::HookRolled { die: 3 }, "rolled 1 die"),
            (
                Event::Asked { card: 0, side, units: Some(0), options: None },
                "found no unit to choose once",
            ),
            (Event::ActionsChanged { unit: LEADER, by: -1 }, "took 1 action"),
            (Event::MenChanged { unit: LEADER, by: 2 }, "brought back 2 men"),
            (Event::PointsChanged { side, by: 3 }, "gave 3 points"),
            (Event::PointsChanged { side, by: -1 }, "took 1 point"),
            (Event::CardAdded { card }, "put 1 card into the deck"),
            (Event::CardRemoved { card }, "took 1 card out of the deck"),
            (Event::CardSkipped { card }, "skipped 1 card"),
            (Event::CardPutBack { card }, "put back 1 card"),
            (Event::TurnCut { turn: 2 }, "ended 1 turn"),
            (Event::ReserveCalled { group: 0 }, "called 1 reserve"),
            (Event::SightLimited { inches: 9 }, "limited sight once"),
            (Event::CounterSet { counter: 0, value: 0 }, "set counters once"),
            (Event::Noted { text: 0 }, "noted 1 line"),
        ] {
            assert_eq!(did(&[event]).words().as_deref(), Some(words));
        }
    }

    #[test]
    fn each_answer_is_counted_and_a_question_without_one_too() {
        let units = did(&[asked(None), answered(Some(SECTION), None), asked(None)]);
        let words = "asked 2 times (answered with a unit once, not at all once)";
        assert_eq!(units.words().as_deref(), Some(words));
        let options = did(&[asked(Some(3)), answered(None, Some(2))]);
        assert_eq!(
            options.words().as_deref(),
            Some("asked once (answered with option 2 each time)")
        );
        let both = options.and(&units);
        assert_eq!((both.asked, both.unanswered), (3, 1));
        assert_eq!(both.answered_option, [0, 1]);
        assert_eq!(did(&[asked(Some(3)), answered(None, None)]).unanswered, 1);
    }
}
