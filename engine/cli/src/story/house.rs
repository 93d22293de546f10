//! What house rules do when something happens.

use ruleshift_game::{Event, Side, State, UnitId};
use ruleshift_hooks::Stack;

use super::Story;
use super::words::{capital, counted, men};

/// Names that the scripts of a rule stack give to things of their own.
#[derive(Default)]
pub(crate) struct HouseNames {
    pub(super) cards: Vec<String>,
    pub(super) counters: Vec<String>,
}

impl HouseNames {
    pub(crate) fn of(stack: &Stack) -> HouseNames {
        HouseNames {
            cards: stack.cards().map(|card| card.title.clone()).collect(),
            counters: stack.counters().map(|counter| counter.about.clone()).collect(),
        }
    }
}

impl Story<'_> {
    pub(super) fn extra_card(&self, card: u8) -> String {
        self.names.cards.get(usize::from(card)).map_or_else(|| format!("card {card}"), Clone::clone)
    }

    /// What a house rule did.
    pub(super) fn house_rule(&self, event: &Event, state: &State) -> String {
        let what = match *event {
            Event::ScriptActed { unit, pins } => {
                let change = if pins > 0 { "takes" } else { "loses" };
                let count = counted(pins.unsigned_abs() as u8, "pin");
                format!("{} {change} {count}", self.unit(unit))
            }
            Event::HookRolled { die } => format!("rolls {die}"),
            Event::ActionsChanged { unit, by } => {
                let change = if by > 0 { "has" } else { "loses" };
                let more = if by > 0 { " more" } else { "" };
                let actions = counted(by.unsigned_abs() as u8, "action");
                format!("{} {change} {actions}{more}", self.unit(unit))
            }
            Event::MenChanged { unit, by } => {
                let one = by.unsigned_abs() == 1;
                let change = match (by > 0, one) {
                    (true, true) => "comes back",
                    (true, false) => "come back",
                    (false, true) => "is taken",
                    (false, false) => "are taken",
                };
                let (men, unit) = (men(by.unsigned_abs() as u8), self.units(unit, state));
                format!("{men} {change}, {unit}")
            }
            Event::PointsChanged { side, by } => {
                let change = if by >= 0 { "gains" } else { "loses" };
                format!("the {side} {change} {}", counted(by.unsigned_abs() as u8, "point"))
            }
            Event::CardAdded { card } => format!("{} joins the deck", self.card(card, state)),
            Event::CardRemoved { card } => format!("{} leaves the deck", self.card(card, state)),
            Event::CardSkipped { .. } => "the card has no effect".to_owned(),
            Event::CardPutBack { .. } => "the card goes back into the deck".to_owned(),
            Event::TurnCut { .. } => "no more cards are drawn this turn".to_owned(),
            Event::ReserveCalled { group } => format!("{} is called up", self.group(group)),
            Event::SightLimited { inches } => {
                format!("nothing is seen beyond {inches} in this turn")
            }
            Event::CounterSet { counter, value } => {
                let name = self.names.counters.get(usize::from(counter));
                let name = name.map_or_else(|| format!("counter {counter}"), Clone::clone);
                format!("{name}: {value}")
            }
            _ => return String::new(),
        };
        format!("    House rule: {what}")
    }

    /// What a card asks, and the answer to it.
    pub(super) fn question(&self, event: &Event) -> String {
        match *event {
            Event::Asked { card, side, units, options } => self.asked(card, side, units, options),
            Event::Answered { side, unit, option, .. } => self.answered(side, unit, option),
            _ => String::new(),
        }
    }

    fn asked(&self, card: u8, side: Side, units: Option<u8>, options: Option<u8>) -> String {
        let card = self.extra_card(card);
        match (units, options) {
            (Some(0), _) => format!("    {card}: the {side} has no unit to choose"),
            (Some(1), _) => format!("    {card}: the {side} may choose a unit"),
            (Some(units), _) => format!("    {card}: the {side} may choose one of {units} units"),
            (None, options) => {
                let options = counted(options.unwrap_or_default(), "option");
                format!("    {card}: the {side} may choose one of {options}")
            }
        }
    }

    fn answered(&self, side: Side, unit: Option<UnitId>, option: Option<u8>) -> String {
        let side = capital(side);
        match (unit, option) {
            (Some(unit), _) => format!("    {side} chooses {}", self.unit(unit)),
            (None, Some(option)) => format!("    {side} chooses option {option}"),
            (None, None) => format!("    {side} wants none of it"),
        }
    }
}
