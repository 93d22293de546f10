//! Whose weapons take the men: a loss belongs to the blow told last before it.

use ruleshift_game::{Event, Kind, Side, State, UnitId};
use ruleshift_record::Metric;

use super::Collector;

/// Men lost to each kind of fire: neither hand to hand nor by mines.
pub(super) const FIRE: [Metric; 6] = [
    Metric::MenLostToRifles,
    Metric::MenLostToMachineGuns,
    Metric::MenLostToMortars,
    Metric::MenLostToBatteries,
    Metric::MenLostToGuns,
    Metric::MenLostToFlame,
];

/// What may take men.
#[derive(Clone, Copy)]
pub(super) struct Blow {
    /// The count of men lost to such weapons.
    weapon: Metric,
    /// Side whose fire it is; none for mines and for close assault, where no one strikes his own.
    by: Option<Side>,
}

impl Collector<'_> {
    pub(super) fn harm(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Fired { unit, .. } => {
                self.contact(state);
                self.blow = Some(fire(unit, state));
            }
            Event::GunFired { unit, rolled, needed, .. } => {
                self.contact(state);
                self.shots_at_armour += 1;
                self.add(Metric::GunHits, (rolled >= needed).into());
                self.blow = Some(Blow { weapon: Metric::MenLostToGuns, ..fire(unit, state) });
            }
            Event::ArmourStruck { rolled, needed, .. } => {
                self.strikes += 1;
                self.add(Metric::ArmourPierced, (rolled >= needed).into());
            }
            Event::Shelled { battery, .. } => {
                self.contact(state);
                let by = Some(state.batteries()[battery as usize].side);
                self.blow = Some(Blow { weapon: Metric::MenLostToBatteries, by });
            }
            Event::AssaultFought { .. } => {
                self.contact(state);
                self.blow = Some(Blow { weapon: Metric::MenLostToAssault, by: None });
            }
            Event::MineStruck { .. } => {
                self.blow = Some(Blow { weapon: Metric::MenLostToMines, by: None });
            }
            // What a house rule takes, no weapon has.
            Event::MenChanged { .. } => self.blow = None,
            Event::MenLost { unit, men, .. } => self.men_lost(unit, men.into(), state),
            _ => {}
        }
    }

    fn contact(&mut self, state: &State) {
        self.first_contact.get_or_insert(state.turn());
    }

    fn men_lost(&mut self, unit: UnitId, men: u32, state: &State) {
        self.add(Metric::MenLost, men);
        let Some(blow) = self.blow else { return };
        self.add(blow.weapon, men);
        let own = blow.by == Some(state.units()[unit as usize].side);
        self.add(Metric::OwnFire, if own { men } else { 0 });
    }
}

fn fire(unit: UnitId, state: &State) -> Blow {
    let unit = &state.units()[unit as usize];
    Blow { weapon: weapon(unit.kind), by: Some(unit.side) }
}

/// The count of men lost to the fire of such a unit. A carrier fires the machine gun it has; a
/// truck has nothing to fire.
fn weapon(kind: Kind) -> Metric {
    match kind {
        Kind::Section | Kind::AssaultSection | Kind::Leader | Kind::Observer | Kind::Truck => {
            Metric::MenLostToRifles
        }
        Kind::LightGun | Kind::TripodGun | Kind::Carrier => Metric::MenLostToMachineGuns,
        Kind::LightMortar | Kind::MediumMortar => Metric::MenLostToMortars,
        Kind::Battery => Metric::MenLostToBatteries,
        Kind::AntiTankTeam | Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun => {
            Metric::MenLostToGuns
        }
        Kind::FlameTeam => Metric::MenLostToFlame,
    }
}
