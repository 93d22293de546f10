//! What a scenario may give its sides, and what shows that it is used.

use ruleshift_game::{Event, Kind, Setup, Start, State};

/// One use of something: what it is called, and in what share of the games at least that have it;
/// none where it takes a rare occasion.
pub(super) struct Use {
    pub(super) name: &'static str,
    pub(super) least: f64,
    pub(super) given: fn(&Setup) -> bool,
    pub(super) done: fn(&Event, &State) -> bool,
}

fn has(setup: &Setup, wanted: impl Fn(Kind) -> bool) -> bool {
    let groups = setup.sides.0.iter().flat_map(|side| &side.groups);
    groups.flat_map(|group| &group.units).any(|unit| wanted(unit.kind))
}

/// Whether such units of one side face armour of the other.
fn against_armour(setup: &Setup, kind: Kind) -> bool {
    [0, 1].into_iter().any(|n| {
        let units = |n: usize| setup.sides.0[n].groups.iter().flat_map(|group| &group.units);
        units(n).any(|unit| unit.kind == kind) && units(1 - n).any(|unit| unit.armour[0] > 0)
    })
}

fn kind(state: &State, unit: u8) -> Kind {
    state.units()[unit as usize].kind
}

fn starts(setup: &Setup, wanted: fn(&Start) -> bool) -> bool {
    setup.sides.0.iter().flat_map(|side| &side.groups).any(|group| wanted(&group.start))
}

const fn fights(kind: Kind) -> bool {
    matches!(kind, Kind::Tank | Kind::AssaultGun)
}

const fn mortar(kind: Kind) -> bool {
    matches!(kind, Kind::LightMortar | Kind::MediumMortar)
}

/// Whether a unit of such a kind fired at men, or at armour.
fn fired(event: &Event, state: &State, wanted: fn(Kind) -> bool) -> bool {
    match *event {
        Event::Fired { unit, .. } | Event::GunFired { unit, .. } => wanted(kind(state, unit)),
        _ => false,
    }
}

fn gun_fired(event: &Event, state: &State, wanted: Kind) -> bool {
    matches!(*event, Event::GunFired { unit, .. } if kind(state, unit) == wanted)
}

fn moved(event: &Event, state: &State, wanted: fn(Kind) -> bool) -> bool {
    matches!(*event, Event::UnitMoved { unit, .. } if wanted(kind(state, unit)))
}

pub(super) const USES: [Use; 18] = [
    Use {
        name: "a battery fires",
        least: 0.2,
        given: |setup| setup.sides.0.iter().any(|side| !side.batteries.is_empty()),
        done: |event, _| matches!(event, Event::BatteryFired { smoke: false, .. }),
    },
    Use {
        name: "a battery lays smoke",
        least: 0.0,
        given: |setup| setup.sides.0.iter().any(|side| side.batteries.iter().any(|b| b.smoke)),
        done: |event, _| matches!(event, Event::BatteryFired { smoke: true, .. }),
    },
    Use {
        name: "mortars fire",
        least: 0.1,
        given: |setup| has(setup, mortar),
        done: |event, state| fired(event, state, mortar),
    },
    Use {
        name: "tripod guns fire",
        least: 0.2,
        given: |setup| has(setup, |kind| kind == Kind::TripodGun),
        done: |event, state| fired(event, state, |kind| kind == Kind::TripodGun),
    },
    Use {
        name: "flame teams fire",
        least: 0.02,
        given: |setup| has(setup, |kind| kind == Kind::FlameTeam),
        done: |event, state| fired(event, state, |kind| kind == Kind::FlameTeam),
    },
    Use {
        name: "anti-tank guns fire at armour",
        least: 0.1,
        given: |setup| against_armour(setup, Kind::AntiTankGun),
        done: |event, state| gun_fired(event, state, Kind::AntiTankGun),
    },
    Use {
        name: "anti-tank teams fire at armour",
        least: 0.02,
        given: |setup| against_armour(setup, Kind::AntiTankTeam),
        done: |event, state| gun_fired(event, state, Kind::AntiTankTeam),
    },
    Use {
        name: "tanks and assault guns move",
        least: 0.2,
        given: |setup| has(setup, fights),
        done: |event, state| moved(event, state, fights),
    },
    Use {
        name: "tanks and assault guns fire",
        least: 0.2,
        given: |setup| has(setup, fights),
        done: |event, state| fired(event, state, fights),
    },
    Use {
        name: "carriers move",
        least: 0.2,
        given: |setup| has(setup, Kind::carries),
        done: |event, state| moved(event, state, Kind::carries),
    },
    Use {
        name: "carriers fire",
        least: 0.2,
        given: |setup| has(setup, |kind| kind == Kind::Carrier),
        done: |event, state| fired(event, state, |kind| kind == Kind::Carrier),
    },
    Use {
        name: "someone rides",
        least: 0.0,
        given: |setup| has(setup, Kind::carries),
        done: |event, _| matches!(event, Event::Mounted { .. }),
    },
    Use {
        name: "reserves arrive",
        least: 0.2,
        given: |setup| starts(setup, |start| matches!(start, Start::Reserve { .. })),
        done: |event, _| matches!(event, Event::ReserveTested { rolled, needed, .. } if rolled >= needed),
    },
    Use {
        name: "leaders rally",
        least: 0.2,
        given: |setup| has(setup, |kind| kind == Kind::Leader),
        done: |event, _| matches!(event, Event::Rallied { leader: Some(_), .. }),
    },
    Use {
        name: "close assaults come to grips",
        least: 0.05,
        given: |setup| has(setup, Kind::is_section),
        done: |event, _| matches!(event, Event::Charged { reached: true, .. }),
    },
    Use {
        name: "units dig in",
        least: 0.0,
        given: |setup| has(setup, Kind::is_section),
        done: |event, _| matches!(event, Event::Dug { done: true, .. }),
    },
    Use {
        name: "units leave the table",
        least: 0.0,
        given: |setup| setup.objectives.iter().any(|objective| objective.leaving.0 != [0; 2]),
        done: |event, _| matches!(event, Event::UnitLeft { .. }),
    },
    Use {
        name: "hidden groups ambush or are found",
        least: 0.2,
        given: |setup| starts(setup, |start| *start == Start::Feature),
        // Takes more than one event: see `uses`.
        done: |_, _| false,
    },
];
