//! How a game opened: the first blow struck, and the first troops found.

use ruleshift_batch::Doer;
use ruleshift_game::{Cell, Event, GroupId, RevealCause, State, UnitId};

use super::things::Things;

/// The first blow.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    pub(super) turn: u16,
    by: Doer,
    /// Where he stood; none for a battery.
    from: Option<Cell>,
    target: UnitId,
    at: Cell,
    assault: bool,
}

/// What is known of the opening.
#[derive(Debug, Default)]
pub(super) struct Opening {
    pub(super) contact: Option<Contact>,
    found: Option<(u16, GroupId, RevealCause)>,
}

impl Opening {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        let at = |unit: UnitId| state.units()[unit as usize].at;
        let contact = |by, from, target, assault| Contact {
            turn: state.turn(),
            by,
            from,
            target,
            at: at(target),
            assault,
        };
        let first = match *event {
            Event::Fired { unit, target, .. } | Event::GunFired { unit, target, .. } => {
                contact(Doer::Unit(unit), Some(at(unit)), target, false)
            }
            Event::AssaultFought { unit, target, .. } => {
                contact(Doer::Unit(unit), Some(at(unit)), target, true)
            }
            Event::Shelled { battery, target, .. } => {
                contact(Doer::Battery(battery), None, target, false)
            }
            Event::MarkerRevealed { group: Some(group), cause, .. } => {
                self.found.get_or_insert((state.turn(), group, cause));
                return;
            }
            _ => return,
        };
        self.contact.get_or_insert(first);
    }

    pub(super) fn lines(&self, things: &Things<'_>, state: &State) -> Vec<String> {
        let mut lines = Vec::new();
        if let Some((turn, group, cause)) = self.found {
            let how = match cause {
                RevealCause::Spotted => "are spotted",
                RevealCause::PlainSight => "come into plain sight",
                RevealCause::Contact => "are met by the enemy",
                RevealCause::OpenedFire => "open fire from hiding",
            };
            let group = things.group(group, state);
            lines.push((turn, format!("  Turn {turn}: the first troops {how}: {group}")));
        }
        lines.push(match self.contact {
            Some(contact) => (contact.turn, contact.line(things, state)),
            None => (u16::MAX, "  Not a shot was fired".to_owned()),
        });
        // A battery may shell before anybody is found.
        lines.sort_by_key(|(turn, _)| *turn);
        lines.into_iter().map(|(_, line)| line).collect()
    }
}

impl Contact {
    fn line(&self, things: &Things<'_>, state: &State) -> String {
        let (by, target) = (things.doer(self.by, state), things.unit(self.target, state));
        let how = match (self.by, self.assault) {
            (Doer::Battery(_), _) => "shells",
            (_, true) => "assaults",
            (_, false) => "fires at",
        };
        let near = things.near(self.at).map_or_else(String::new, |near| format!(", {near}"));
        let range =
            self.from.map_or_else(String::new, |from| format!(" at {} in", from.range(self.at)));
        format!("  Turn {}: the first blow{near}: {by} {how} {target}{range}", self.turn)
    }
}
