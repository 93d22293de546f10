//! Turns, cards, and markers on the move.

use ruleshift_game::{Card, Cell, Event, MarkerId, Side, State};

use super::Story;
use super::words::{capital, marker, square};

impl Story<'_> {
    /// A marker in its place before the game, or that of a reserve as it comes.
    pub(super) fn marker_placed(&self, id: MarkerId, at: Cell, state: &State) -> String {
        let (name, at) = (capital(marker(id, state)), square(at));
        match state.turn() {
            0 => format!("  {name} stands at {at}"),
            _ => format!("    {name} comes on the table at {at}"),
        }
    }

    pub(super) fn turn_started(&self, turn: u16, cards: u8) -> String {
        format!("\nTurn {turn}: {cards} cards in the deck")
    }

    pub(super) fn card_drawn(&self, card: Card, state: &State) -> String {
        format!("  Card: {}", self.card(card, state))
    }

    /// The name of the card that an event draws, and its side by number: 2 for nobody's.
    pub(crate) fn drawn(&self, event: &Event, state: &State) -> Option<(String, u8)> {
        let Event::CardDrawn { card } = *event else { return None };
        let side = match card {
            Card::TurnEnd(_) => None,
            Card::Marker(side, _) | Card::Shortage(side, _) => Some(side),
            Card::Group(group, _) => Some(state.groups()[group as usize].side),
            Card::Leader(unit, _) => Some(state.units()[unit as usize].side),
            Card::Battery(id, _) => Some(state.batteries()[id as usize].side),
            Card::Extra(_, owner, _) => owner,
        };
        Some((self.card(card, state), side.map_or(2, |side| side as u8)))
    }

    pub(super) fn card(&self, card: Card, state: &State) -> String {
        match card {
            Card::TurnEnd(_) => "turn end".to_owned(),
            Card::Marker(side, _) => format!("{side}'s markers"),
            Card::Group(group, _) => {
                format!("{} ({})", self.group(group), state.groups()[group as usize].side)
            }
            Card::Battery(id, _) => {
                format!("{} ({})", self.battery(id), state.batteries()[id as usize].side)
            }
            Card::Shortage(side, _) => format!("{side} short of ammunition"),
            Card::Extra(card, None, _) => self.extra_card(card),
            Card::Extra(card, Some(side), _) => format!("{} ({side})", self.extra_card(card)),
            Card::Leader(unit, _) => {
                format!("{} ({})", self.unit(unit), state.units()[unit as usize].side)
            }
        }
    }

    pub(super) fn ammunition_short(&self, side: Side) -> String {
        format!("    The {side} is short of ammunition to the end of the next turn")
    }

    pub(super) fn marker_moved(&self, event: &Event, state: &State) -> String {
        let Event::MarkerMoved { marker: id, heading, inches, to } = *event else {
            return String::new();
        };
        let (name, way, to) = (capital(marker(id, state)), self.heading(heading), square(to));
        format!("    {name} rolls {inches} in {way} and stops at {to}")
    }
}
