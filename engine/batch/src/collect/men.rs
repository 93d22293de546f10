//! Men lost, and whose weapons take them.

use ruleshift_game::{BySide, Event, Side, State, UnitId};
use ruleshift_record::Metric;

use super::actor::of_unit;
use super::sheet::{End, Sheet, ratio};
use crate::blow::{Blow, Weapon};

/// The count of men lost to each weapon.
const COUNTS: [Metric; Weapon::COUNT] = [
    Metric::MenLostToRifles,
    Metric::MenLostToMachineGuns,
    Metric::MenLostToMortars,
    Metric::MenLostToBatteries,
    Metric::MenLostToGuns,
    Metric::MenLostToFlame,
    Metric::MenLostToAssault,
    Metric::MenLostToMines,
];

/// Men lost.
///
/// - Losses of a side: men lost, fled or taken over men at the start; a share, 0 to 1. That losers
///   lose the larger share is Dupuy's (Understanding War, 1987, verities of combat).
/// - Men lost, by side, by weapon and to own fire: men hit, from 0; attacker's and defender's add up
///   to all, and so do weapons but for what a house rule takes.
/// - Shares of weapons: of men hit by fire, or of all men hit; 0 to 1, and 0 without losses.
#[derive(Clone, Default)]
pub(super) struct Men {
    /// What does the harm that is told next.
    blow: Blow,
    lost: BySide<u32>,
    to: [u32; Weapon::COUNT],
    own: u32,
    taken: u32,
}

impl Men {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        self.blow = self.blow.after(event);
        match *event {
            Event::MenLost { unit, men, .. } => self.lost(unit, men.into(), state),
            Event::Captured { men, .. } => self.taken += u32::from(men),
            _ => {}
        }
    }

    fn lost(&mut self, unit: UnitId, men: u32, state: &State) {
        let side = of_unit(unit, state);
        self.lost[side] += men;
        let Some(weapon) = self.blow.weapon(state) else { return };
        self.to[weapon as usize] += men;
        let by = self.blow.doer(unit, state).map(|doer| doer.side(state));
        self.own += if by == Some(side) { men } else { 0 };
    }

    pub(super) fn report(&self, end: &End, state: &State, to: &mut Sheet) {
        let sides = [Metric::AttackerMenLost, Metric::DefenderMenLost];
        to.sides(Metric::MenLost, sides, self.lost.0);
        to.count(Metric::OwnFire, self.own);
        to.count(Metric::Prisoners, self.taken);
        for (metric, men) in COUNTS.into_iter().zip(self.to) {
            to.count(metric, men);
        }
        self.weapons(to);
        losses(end.winner, state, to);
    }

    /// Shares of the men lost, by what took them.
    fn weapons(&self, to: &mut Sheet) {
        let men = |weapon| self.to[weapon as usize];
        let fire = self.to[..Weapon::Assault as usize].iter().sum();
        let small = men(Weapon::Rifles) + men(Weapon::MachineGuns);
        let shells = men(Weapon::Mortars) + men(Weapon::Batteries);
        to.ratio(Metric::SmallArmsShare, small, fire);
        to.ratio(Metric::ShellShare, shells, fire);
        to.ratio(Metric::AssaultShare, men(Weapon::Assault), self.lost.0.iter().sum());
    }
}

/// Losses of the sides, and of who won and who lost.
fn losses(winner: Option<Side>, state: &State, to: &mut Sheet) {
    let share = |&side: &Side| {
        let (lost, first) = state.losses(side);
        ratio(lost, first)
    };
    let [attacker, defender] = [Side::Attacker, Side::Defender].each_ref().map(share);
    let (won, lost) = match winner {
        Some(Side::Attacker) => (attacker, defender),
        Some(Side::Defender) => (defender, attacker),
        None => ((attacker + defender) / 2.0, (attacker + defender) / 2.0),
    };
    to.value(Metric::AttackerLosses, attacker);
    to.value(Metric::DefenderLosses, defender);
    to.value(Metric::WinnerLosses, won);
    to.value(Metric::LoserLosses, lost);
}
