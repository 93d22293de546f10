//! Who did the harm: what each unit and battery did to the enemy.

use std::cmp::Reverse;

use ruleshift_batch::{Blow, Doer};
use ruleshift_game::{BreakCause, Damage, Event, State, UnitId};

use super::page::count;
use super::text::Length;
use super::things::Things;

/// What one of them did to the enemy.
#[derive(Clone, Copy, Debug)]
pub(super) struct Deed {
    pub(super) doer: Doer,
    /// Men hit.
    pub(super) hit: u32,
    /// Men of units that broke under it, or that gave themselves up to it.
    pub(super) driven: u32,
    /// Pins put on units.
    pub(super) pins: u32,
    /// Vehicles knocked out.
    pub(super) vehicles: u32,
}

/// All of them, in the order in which they first did harm.
#[derive(Debug, Default)]
pub(super) struct Deeds(pub(super) Vec<Deed>);

impl Deeds {
    pub(super) fn event(&mut self, event: &Event, blow: Blow, state: &State) {
        match *event {
            Event::MenLost { unit, men, .. } => {
                self.note(blow, unit, state, |deed| deed.hit += u32::from(men));
            }
            Event::PinsAdded { unit, pins, .. } => {
                self.note(blow, unit, state, |deed| deed.pins += u32::from(pins));
            }
            Event::UnitBroke {
                unit,
                men,
                cause: BreakCause::Pins | BreakCause::KnockedOut,
                ..
            } => self.note(blow, unit, state, |deed| deed.driven += u32::from(men)),
            Event::Captured { unit, men, by } => {
                self.note(Blow::Shot(by), unit, state, |deed| deed.driven += u32::from(men));
            }
            Event::VehicleDamaged { unit, damage: Damage::KnockedOut } => {
                self.note(blow, unit, state, |deed| deed.vehicles += 1);
            }
            _ => {}
        }
    }

    /// Adds to the deeds of who struck a unit, if it was an enemy.
    fn note(&mut self, blow: Blow, victim: UnitId, state: &State, add: impl FnOnce(&mut Deed)) {
        let Some(doer) = blow.doer(victim, state) else { return };
        if doer.side(state) == state.units()[victim as usize].side {
            return;
        }
        let place = self.0.iter().position(|deed| deed.doer == doer).unwrap_or_else(|| {
            self.0.push(Deed { doer, hit: 0, driven: 0, pins: 0, vehicles: 0 });
            self.0.len() - 1
        });
        add(&mut self.0[place]);
    }

    /// Those who put most men out of action, of equals those with more pins.
    pub(super) fn lines(&self, things: &Things<'_>, state: &State, length: Length) -> Vec<String> {
        let mut deeds = self.0.clone();
        deeds.sort_by_key(|deed| Reverse((deed.hit + deed.driven, deed.pins)));
        deeds.iter().take(length.deeds()).map(|deed| deed.line(things, state, length)).collect()
    }
}

impl Deed {
    fn line(&self, things: &Things<'_>, state: &State, length: Length) -> String {
        let mut did = Vec::new();
        if self.hit > 0 {
            did.push(format!("{} hit", self.hit));
        }
        if self.driven > 0 {
            did.push(format!("{} driven off", self.driven));
        }
        if self.vehicles > 0 {
            did.push(count(self.vehicles, "vehicle"));
        }
        if self.pins > 0 {
            did.push(count(self.pins, "pin"));
        }
        let own = match self.doer {
            Doer::Unit(id) if length == Length::Full => things.fate(id, state),
            _ => String::new(),
        };
        format!("  {}: {}{own}", things.doer_of(self.doer, state), did.join(", "))
    }
}
