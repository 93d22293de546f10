//! Close assault.

use ruleshift_game::{Cell, Event, State, UnitId};

use super::Story;
use super::words::{counted, men, square};

impl Story<'_> {
    pub(super) fn charged(&self, event: &Event, state: &State) -> String {
        let Event::Charged { unit, target, inches, to, reached } = *event else {
            return String::new();
        };
        let end = if reached { "and is upon the enemy" } else { "too short" };
        let (unit, target, to) = (self.unit(unit), self.units(target, state), square(to));
        format!("      {unit} rushes at {target}: {inches} in, to {to}, {end}")
    }

    pub(super) fn assault_fought(&self, event: &Event) -> String {
        let Event::AssaultFought { unit, target, dice, hits, enemy_dice, enemy_hits } = *event
        else {
            return String::new();
        };
        let part =
            |unit, dice, hits| format!("{} {dice} dice, {}", self.unit(unit), counted(hits, "hit"));
        let (own, enemy) = (part(unit, dice, hits), part(target, enemy_dice, enemy_hits));
        format!("        Hand to hand: {own}; {enemy}")
    }

    pub(super) fn fell_back(&self, unit: UnitId, to: Cell, state: &State) -> String {
        format!("        {} falls back to {}", self.units(unit, state), square(to))
    }

    pub(super) fn captured(&self, unit: UnitId, taken: u8, by: UnitId, state: &State) -> String {
        let (unit, by) = (self.units(unit, state), self.unit(by));
        format!("        {unit} surrenders to {by}: {} taken", men(taken))
    }

    pub(super) fn pursued(&self, unit: UnitId, to: Cell) -> String {
        format!("        {} takes the place, {}", self.unit(unit), square(to))
    }
}
