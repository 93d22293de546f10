//! What house rules did when something happened.

use ruleshift_game::Event;

use super::page::listed;

/// What the event hooks of a rule stack did, counted.
#[derive(Debug, Default)]
pub(super) struct House {
    counts: [u32; KINDS.len()],
}

/// What they may do, one and many.
const KINDS: [[&str; 2]; 10] = [
    ["change of pins", "changes of pins"],
    ["change of actions", "changes of actions"],
    ["change of men", "changes of men"],
    ["change of points", "changes of points"],
    ["card added or taken out", "cards added or taken out"],
    ["card without effect or put back", "cards without effect or put back"],
    ["turn cut short", "turns cut short"],
    ["reserve called", "reserves called"],
    ["limit of sight", "limits of sight"],
    ["choice offered", "choices offered"],
];

impl House {
    pub(super) fn event(&mut self, event: &Event) {
        let kind = match *event {
            Event::ScriptActed { .. } => 0,
            Event::ActionsChanged { .. } => 1,
            Event::MenChanged { .. } => 2,
            Event::PointsChanged { .. } => 3,
            Event::CardAdded { .. } | Event::CardRemoved { .. } => 4,
            Event::CardSkipped { .. } | Event::CardPutBack { .. } => 5,
            Event::TurnCut { .. } => 6,
            Event::ReserveCalled { .. } => 7,
            Event::SightLimited { .. } => 8,
            Event::Asked { .. } => 9,
            _ => return,
        };
        self.counts[kind] += 1;
    }

    /// What they did, in a line; nothing when they did nothing.
    pub(super) fn line(&self) -> Option<String> {
        let did = KINDS.iter().zip(self.counts).filter(|(_, count)| *count > 0);
        let did: Vec<String> = did
            .map(|([one, many], count)| format!("{count} {}", if count == 1 { one } else { many }))
            .collect();
        (!did.is_empty()).then(|| format!("House rules, by events: {}", listed(&did)))
    }
}
