//! Whose blow it was that did the harm told next: a loss belongs to the blow told last before it.

use ruleshift_game::{BatteryId, Event, Kind, Side, State, UnitId};

/// What did the harm that is told next.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Blow {
    /// Nothing that has an author: a test at turn end, a house rule.
    #[default]
    Nobody,
    /// A unit's shot.
    Shot(UnitId),
    /// A battery's shells.
    Shells(BatteryId),
    /// A close assault, in which both strike.
    Assault(UnitId, UnitId),
    /// A mine.
    Mine,
}

/// Who can do harm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doer {
    /// A unit on the table.
    Unit(UnitId),
    /// A battery off the table.
    Battery(BatteryId),
}

impl Doer {
    /// Whose it is.
    #[must_use]
    pub fn side(self, state: &State) -> Side {
        match self {
            Doer::Unit(unit) => state.units()[unit as usize].side,
            Doer::Battery(battery) => state.batteries()[battery as usize].side,
        }
    }
}

impl Blow {
    /// What does harm after an event, if something else did before it. Whatever begins something
    /// new ends the blow.
    #[must_use]
    pub fn after(self, event: &Event) -> Blow {
        match *event {
            Event::Fired { unit, .. } | Event::GunFired { unit, .. } => Blow::Shot(unit),
            Event::ArmourStruck { by, unit, .. } if self != Blow::Shot(by) => {
                Blow::Assault(by, unit)
            }
            Event::Shelled { battery, .. } => Blow::Shells(battery),
            Event::AssaultFought { unit, target, .. } | Event::Charged { unit, target, .. } => {
                Blow::Assault(unit, target)
            }
            Event::MineStruck { .. } => Blow::Mine,
            Event::CardDrawn { .. }
            | Event::UnitActivated { .. }
            | Event::UnitMoved { .. }
            | Event::Recovered { .. }
            | Event::GroupTested { .. }
            | Event::ScriptActed { .. }
            | Event::MenChanged { .. }
            | Event::TurnEnded { .. } => Blow::Nobody,
            _ => self,
        }
    }

    /// Who did harm to a unit by it.
    #[must_use]
    pub fn doer(self, victim: UnitId, state: &State) -> Option<Doer> {
        let side = |unit: UnitId| state.units()[unit as usize].side;
        match self {
            Blow::Shot(unit) => Some(Doer::Unit(unit)),
            Blow::Shells(battery) => Some(Doer::Battery(battery)),
            Blow::Assault(one, other) if side(one) == side(victim) => Some(Doer::Unit(other)),
            Blow::Assault(one, _) => Some(Doer::Unit(one)),
            Blow::Mine | Blow::Nobody => None,
        }
    }

    /// The weapon with which it takes men; none when no weapon does.
    #[must_use]
    pub fn weapon(self, state: &State) -> Option<Weapon> {
        match self {
            Blow::Shot(unit) => Some(Weapon::of(state.units()[unit as usize].kind)),
            Blow::Shells(_) => Some(Weapon::Batteries),
            Blow::Assault(..) => Some(Weapon::Assault),
            Blow::Mine => Some(Weapon::Mines),
            Blow::Nobody => None,
        }
    }
}

/// What takes men: fire first, in the order in which it is reported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weapon {
    /// Rifles of sections, leaders, observers and drivers.
    Rifles,
    /// Machine guns, on a tripod or not, and those of carriers.
    MachineGuns,
    /// Mortars on the table.
    Mortars,
    /// Batteries off the table.
    Batteries,
    /// Anti-tank weapons and guns of vehicles.
    Guns,
    /// Flame.
    Flame,
    /// Close assault.
    Assault,
    /// Mines.
    Mines,
}

impl Weapon {
    /// How many there are.
    pub const COUNT: usize = Weapon::Mines as usize + 1;

    /// The weapon that such a unit fires. A carrier fires the machine gun it has; a truck has
    /// nothing to fire.
    #[must_use]
    pub fn of(kind: Kind) -> Weapon {
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
