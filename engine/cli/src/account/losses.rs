//! What each side lost, and to what.

use ruleshift_batch::{Blow, Weapon};
use ruleshift_game::{BreakCause, BySide, Damage, Event, Side, State};

use super::page::count;
use crate::story::capital;

/// What takes men, in the order of [`Weapon`], and at last what is no weapon.
const TAKERS: [&str; Weapon::COUNT + 1] = [
    "rifles",
    "machine guns",
    "mortars",
    "batteries",
    "guns",
    "flame",
    "hand to hand",
    "mines",
    "otherwise",
];

/// What one side lost, in men but for the last two.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Lost {
    /// Men hit, by what took them.
    pub(super) hit: [u32; TAKERS.len()],
    /// Of them, those that their own side hit.
    pub(super) own: u32,
    /// Men who fled with units that broke.
    pub(super) fled: u32,
    /// Men taken prisoner.
    pub(super) taken: u32,
    /// Men whom a house rule brought back.
    pub(super) back: u32,
    /// Units that broke.
    pub(super) broken: u32,
    /// Armoured vehicles knocked out, or left by a crew that broke.
    pub(super) armour: u32,
}

impl Lost {
    /// Men hit.
    pub(super) fn all_hit(&self) -> u32 {
        self.hit.iter().sum()
    }
}

/// What both sides lost.
#[derive(Debug, Default)]
pub(super) struct Losses(pub(super) BySide<Lost>);

impl Losses {
    pub(super) fn event(&mut self, event: &Event, blow: Blow, state: &State) {
        let unit = |id: u8| state.units()[id as usize];
        match *event {
            Event::MenLost { unit: id, men, .. } => {
                let side = unit(id).side;
                let lost = &mut self.0[side];
                let taker = blow.weapon(state).map_or(Weapon::COUNT, |weapon| weapon as usize);
                lost.hit[taker] += u32::from(men);
                let by = blow.doer(id, state).map(|doer| doer.side(state));
                lost.own += if by == Some(side) { men.into() } else { 0 };
            }
            Event::UnitBroke { unit: id, men, .. } => {
                let lost = &mut self.0[unit(id).side];
                lost.fled += u32::from(men);
                lost.broken += 1;
            }
            Event::Captured { unit: id, men, .. } => self.0[unit(id).side].taken += u32::from(men),
            Event::MenChanged { unit: id, by: by @ 1.. } => self.0[unit(id).side].back += by as u32,
            _ => {}
        }
        self.count_armour(event, state);
    }

    fn count_armour(&mut self, event: &Event, state: &State) {
        let (Event::VehicleDamaged { unit, damage: Damage::KnockedOut }
        | Event::UnitBroke { unit, cause: BreakCause::Pins | BreakCause::GroupTest, .. }) = *event
        else {
            return;
        };
        let unit = state.units()[unit as usize];
        self.0[unit.side].armour += u32::from(unit.armoured());
    }

    /// A line for each side.
    pub(super) fn lines(&self, state: &State) -> Vec<String> {
        Side::ALL.iter().map(|&side| self.line(side, state)).collect()
    }

    fn line(&self, side: Side, state: &State) -> String {
        let lost = &self.0[side];
        let (gone, first) = state.losses(side);
        let mut parts = vec![hit(lost)];
        for (men, what) in
            [(lost.fled, "fled"), (lost.taken, "taken prisoner"), (lost.back, "brought back")]
        {
            if men > 0 {
                parts.push(format!("{men} {what}"));
            }
        }
        let groups = || state.groups().iter().filter(|group| group.side == side);
        let groups_gone = groups().filter(|group| group.gone).count();
        let mut text =
            format!("  {}: {gone} of {}: {}", capital(side), count(first, "man"), parts.join(", "));
        let armoured = state.units().iter().filter(|unit| unit.side == side && unit.armoured());
        match armoured.count() {
            0 => {}
            all => text += &format!("; {} of {all} armoured vehicles", lost.armour),
        }
        text += &format!("; {groups_gone} of {} groups", groups().count());
        text
    }
}

/// Men hit, with what took them.
fn hit(lost: &Lost) -> String {
    let by = TAKERS.iter().zip(lost.hit).filter(|(_, men)| *men > 0);
    let mut by: Vec<String> = by.map(|(word, men)| format!("{word} {men}")).collect();
    if lost.own > 0 {
        by.push(format!("of these by its own fire {}", lost.own));
    }
    let by = if by.is_empty() { String::new() } else { format!(" ({})", by.join(", ")) };
    format!("{} hit{by}", lost.all_hit())
}
