//! Whose blow it was that did the harm told next.

use ruleshift_game::{BatteryId, Event, Kind, Side, State, UnitId};

/// What did the harm that is told next.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Blow {
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
pub(super) enum Doer {
    Unit(UnitId),
    Battery(BatteryId),
}

impl Doer {
    pub(super) fn side(self, state: &State) -> Side {
        match self {
            Doer::Unit(unit) => state.units()[unit as usize].side,
            Doer::Battery(battery) => state.batteries()[battery as usize].side,
        }
    }
}

impl Blow {
    /// What does harm after an event, if something else did before it. Whatever begins something
    /// new ends the blow.
    pub(super) fn after(self, event: &Event) -> Blow {
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
    pub(super) fn doer(self, victim: UnitId, state: &State) -> Option<Doer> {
        let side = |unit: UnitId| state.units()[unit as usize].side;
        match self {
            Blow::Shot(unit) => Some(Doer::Unit(unit)),
            Blow::Shells(battery) => Some(Doer::Battery(battery)),
            Blow::Assault(one, other) if side(one) == side(victim) => Some(Doer::Unit(other)),
            Blow::Assault(one, _) => Some(Doer::Unit(one)),
            Blow::Mine | Blow::Nobody => None,
        }
    }

    /// How it takes men.
    pub(super) fn how(self, state: &State) -> How {
        match self {
            Blow::Shot(unit) => How::of(state.units()[unit as usize].kind),
            Blow::Shells(_) => How::Batteries,
            Blow::Assault(..) => How::Assault,
            Blow::Mine => How::Mines,
            Blow::Nobody => How::Otherwise,
        }
    }
}

/// What takes men, in the order in which it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum How {
    Rifles,
    MachineGuns,
    Mortars,
    Batteries,
    Guns,
    Flame,
    Assault,
    Mines,
    Otherwise,
}

impl How {
    /// Their words.
    pub(super) const WORDS: [&str; 9] = [
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

    /// The weapon that such a unit fires, as the metrics of men lost have it.
    fn of(kind: Kind) -> How {
        match kind {
            Kind::Section | Kind::AssaultSection | Kind::Leader | Kind::Observer | Kind::Truck => {
                How::Rifles
            }
            Kind::LightGun | Kind::TripodGun | Kind::Carrier => How::MachineGuns,
            Kind::LightMortar | Kind::MediumMortar => How::Mortars,
            Kind::Battery => How::Batteries,
            Kind::AntiTankTeam | Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun => How::Guns,
            Kind::FlameTeam => How::Flame,
        }
    }
}
