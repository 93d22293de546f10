//! Men lost, and whose weapons take them: a loss belongs to the blow told last before it.

use ruleshift_game::{BySide, Event, Kind, Side, State, UnitId};
use ruleshift_record::Metric;

use super::actor::of_unit;
use super::sheet::{End, Sheet, ratio};

/// What takes men, in the order of [`Weapon::COUNTS`].
#[derive(Clone, Copy)]
enum Weapon {
    Rifles,
    MachineGuns,
    Mortars,
    Batteries,
    Guns,
    Flame,
    Assault,
    Mines,
}

impl Weapon {
    /// The count of men lost to each.
    const COUNTS: [Metric; 8] = [
        Metric::MenLostToRifles,
        Metric::MenLostToMachineGuns,
        Metric::MenLostToMortars,
        Metric::MenLostToBatteries,
        Metric::MenLostToGuns,
        Metric::MenLostToFlame,
        Metric::MenLostToAssault,
        Metric::MenLostToMines,
    ];

    /// The weapon that such a unit fires. A carrier fires the machine gun it has; a truck has
    /// nothing to fire.
    fn of(kind: Kind) -> Weapon {
        match kind {
            Kind::Section | Kind::AssaultSection | Kind::Leader | Kind::Observer | Kind::Truck => {
                Weapon::Rifles
            }
            Kind::LightGun | Kind::TripodGun | Kind::Carrier => Weapon::MachineGuns,
            Kind::LightMortar | Kind::MediumMortar => Weapon::Mortars,
            Kind::Battery => Weapon::Batteries,
            Kind::AntiTankTeam | Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun => Weapon::Guns,
            Kind::FlameTeam => Weapon::Flame,
        }
    }
}

/// What may take men.
#[derive(Clone, Copy)]
struct Blow {
    weapon: Weapon,
    /// Side whose fire it is; none for mines and for close assault, where no one strikes his own.
    by: Option<Side>,
}

/// Men lost.
///
/// - Losses of a side: men lost, fled or taken over men at the start; a share, 0 to 1. That losers
///   lose the larger share is Dupuy's (Understanding War, 1987, verities of combat).
/// - Men lost, by side, by weapon and to own fire: men hit, from 0; attacker's and defender's add up
///   to all, and so do weapons but for what a house rule takes.
/// - Shares of weapons: of men hit by fire, or of all men hit; 0 to 1, and 0 without losses.
#[derive(Clone, Default)]
pub(super) struct Men {
    /// What did the harm that is told next.
    blow: Option<Blow>,
    /// Whose gun that was, if it was one.
    gun: Option<UnitId>,
    lost: BySide<u32>,
    to: [u32; Weapon::COUNTS.len()],
    own: u32,
    taken: u32,
}

impl Men {
    pub(super) fn event(&mut self, event: &Event, state: &State) {
        let by = |weapon, side| Some(Blow { weapon, by: side });
        match *event {
            Event::Fired { unit, .. } => {
                let unit = &state.units()[unit as usize];
                self.strikes(by(Weapon::of(unit.kind), Some(unit.side)));
            }
            Event::GunFired { unit, .. } => {
                self.strikes(by(Weapon::Guns, Some(of_unit(unit, state))));
                self.gun = Some(unit);
            }
            // Whoever strikes armour without a shot before it does so hand to hand.
            Event::ArmourStruck { by: striker, .. } if self.gun != Some(striker) => {
                self.strikes(by(Weapon::Assault, None));
            }
            Event::Shelled { battery, .. } => {
                let side = state.batteries()[battery as usize].side;
                self.strikes(by(Weapon::Batteries, Some(side)));
            }
            Event::AssaultFought { .. } => self.strikes(by(Weapon::Assault, None)),
            Event::MineStruck { .. } => self.strikes(by(Weapon::Mines, None)),
            // What a house rule takes, no weapon has.
            Event::MenChanged { .. } => self.strikes(None),
            Event::MenLost { unit, men, .. } => self.lost(unit, men.into(), state),
            Event::Captured { men, .. } => self.taken += u32::from(men),
            _ => {}
        }
    }

    fn strikes(&mut self, blow: Option<Blow>) {
        (self.blow, self.gun) = (blow, None);
    }

    fn lost(&mut self, unit: UnitId, men: u32, state: &State) {
        let side = of_unit(unit, state);
        self.lost[side] += men;
        let Some(blow) = self.blow else { return };
        self.to[blow.weapon as usize] += men;
        self.own += if blow.by == Some(side) { men } else { 0 };
    }

    pub(super) fn report(&self, end: &End, state: &State, to: &mut Sheet) {
        let sides = [Metric::AttackerMenLost, Metric::DefenderMenLost];
        to.sides(Metric::MenLost, sides, self.lost.0);
        to.count(Metric::OwnFire, self.own);
        to.count(Metric::Prisoners, self.taken);
        for (metric, men) in Weapon::COUNTS.into_iter().zip(self.to) {
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
