//! What keeps a setup from being played: all faults at once.

use crate::arena::{Setup, SetupFault};
use crate::cell::CELLS;
use crate::forces::{GroupSetup, SideSetup, Start, UnitSetup};
use crate::kinds::{Kind, Side};
use crate::limits::{
    MAX_BATTERIES, MAX_FEATURES, MAX_GROUPS, MAX_LEADERS, MAX_MARKERS, MAX_MEN, MAX_MISSIONS,
    MAX_OBJECTIVES, MAX_SPOTS, MAX_START_POINTS, MAX_UNITS,
};

/// Every fault of a setup.
pub(crate) fn check(setup: &Setup) -> Vec<SetupFault> {
    let mut faults = Faults::default();
    faults.unless(setup.ground.len() == CELLS, "map", || {
        format!("{} squares, expected {CELLS}", setup.ground.len())
    });
    let turns = setup.turn_limit;
    faults.unless((1..=30).contains(&turns), "turn_limit", || {
        format!("{turns} turns, expected 1 to 30")
    });
    let objectives = setup.objectives.len();
    faults.unless((1..=MAX_OBJECTIVES).contains(&objectives), "objectives", || {
        format!("{objectives} objectives, expected 1 to {MAX_OBJECTIVES}")
    });
    for objective in &setup.objectives {
        let points = [&objective.each_turn, &objective.at_end, &objective.leaving];
        let most = points.iter().flat_map(|points| points.0).max().unwrap_or(0);
        faults.unless(most <= 20, &format!("objective {}", objective.name), || {
            format!("{most} points, expected 0 to 20")
        });
    }
    for &side in Side::ALL {
        check_side(side, &setup.sides[side], setup.guns.len(), &mut faults);
    }
    check_totals(setup, &mut faults);
    faults.0
}

fn check_side(side: Side, setup: &SideSetup, guns: usize, faults: &mut Faults) {
    let place = side.label();
    faults
        .unless(!setup.groups.is_empty(), place, || "no groups, expected at least one".to_owned());
    check_starts(place, setup, faults);
    let points = i32::from(setup.points);
    let most = i32::from(MAX_START_POINTS);
    faults.unless((-most..=most).contains(&points), place, || {
        format!("{points} points at the start, expected -{most} to {most}")
    });
    faults.unless(setup.dummies <= 6, place, || {
        format!("{} dummies, expected 0 to 6", setup.dummies)
    });
    faults.unless((1..=100).contains(&setup.break_point), place, || {
        format!("break point {}, expected 1 to 100 percent", setup.break_point)
    });
    for battery in &setup.batteries {
        let place = format!("{place}, battery {}", battery.name);
        faults.unless((1..=MAX_MISSIONS).contains(&battery.missions), &place, || {
            format!("{} missions, expected 1 to {MAX_MISSIONS}", battery.missions)
        });
        faults.unless(battery.response <= 6, &place, || {
            format!("response {}, expected 0 to 6 turns", battery.response)
        });
    }
    for (g, group) in setup.groups.iter().enumerate() {
        let place = format!("{side}, group {} ({})", g + 1, group.name);
        faults.unless((1..=24).contains(&group.units.len()), &place, || {
            format!("{} units, expected 1 to 24", group.units.len())
        });
        if let Start::Reserve { turn, entries } = &group.start {
            faults.unless(!entries.is_empty() && (1..=30).contains(turn), &place, || {
                "a reserve needs a turn from 1 to 30 and squares where it may come".to_owned()
            });
        }
        for (u, unit) in group.units.iter().enumerate() {
            check_unit(&format!("{place}, unit {} ({})", u + 1, unit.name), unit, guns, faults);
        }
    }
}

/// Each group has somewhere to start.
fn check_starts(place: &str, setup: &SideSetup, faults: &mut Faults) {
    let starting =
        |wanted: fn(&GroupSetup) -> bool| setup.groups.iter().filter(|g| wanted(g)).count();
    let (spots, groups) = (setup.spots.len(), starting(|g| g.start == Start::Spot));
    faults.unless(spots >= groups, place, || {
        format!("{spots} spots for {groups} groups, expected one for each")
    });
    faults.unless(spots <= MAX_SPOTS, place, || {
        format!("{spots} spots, expected at most {MAX_SPOTS}")
    });
    let (features, groups) = (setup.features.len(), starting(|g| g.start == Start::Feature));
    faults.unless(features >= groups, place, || {
        format!("{features} features for {groups} groups that hide in them, expected one for each")
    });
    faults.unless(features <= MAX_FEATURES, place, || {
        format!("{features} features, expected at most {MAX_FEATURES}")
    });
}

fn check_unit(place: &str, unit: &UnitSetup, guns: usize, faults: &mut Faults) {
    faults.unless((1..=MAX_MEN).contains(&unit.men), place, || {
        format!("{} men, expected 1 to {MAX_MEN}", unit.men)
    });
    let leader = unit.kind == Kind::Leader;
    let grades = if leader { 1..=3 } else { 0..=0 };
    faults.unless(grades.contains(&unit.grade), place, || {
        let expected =
            if leader { "1 to 3 for a leader" } else { "none for a unit that does not lead" };
        format!("grade {}, expected {expected}", unit.grade)
    });
    faults.unless(unit.kind != Kind::Battery, place, || {
        "a battery is not on the table: list it under `batteries`".to_owned()
    });
    let armoured = unit.armour != [0; 3];
    faults.unless(!armoured || unit.kind.is_vehicle(), place, || {
        format!("armour, expected none for a unit that is a {}", unit.kind)
    });
    faults.unless(unit.gun.is_none_or(|gun| usize::from(gun) < guns), place, || {
        "a gun that is not in the list of guns".to_owned()
    });
}

fn check_totals(setup: &Setup, faults: &mut Faults) {
    let groups = || setup.sides.0.iter().flat_map(|side| &side.groups);
    let units: usize = groups().map(|g| g.units.len()).sum();
    faults.unless(units <= MAX_UNITS, "both sides", || {
        format!("{units} units, expected at most {MAX_UNITS}")
    });
    let leaders = groups().flat_map(|g| &g.units).filter(|unit| unit.kind == Kind::Leader).count();
    faults.unless(leaders <= MAX_LEADERS, "both sides", || {
        format!("{leaders} leaders, expected at most {MAX_LEADERS}")
    });
    let batteries: usize = setup.sides.0.iter().map(|side| side.batteries.len()).sum();
    faults.unless(batteries <= MAX_BATTERIES, "both sides", || {
        format!("{batteries} batteries, expected at most {MAX_BATTERIES}")
    });
    let count = groups().count();
    faults.unless(count <= MAX_GROUPS, "both sides", || {
        format!("{count} groups, expected at most {MAX_GROUPS}")
    });
}

// A marker for each group, and as many dummies for both sides as a rule may ask for.
const _: () = assert!(MAX_GROUPS + 2 * 8 <= MAX_MARKERS);

#[derive(Default)]
struct Faults(Vec<SetupFault>);

impl Faults {
    fn unless(&mut self, fine: bool, place: &str, message: impl FnOnce() -> String) {
        if !fine {
            self.0.push(SetupFault { place: place.to_owned(), message: message() });
        }
    }
}
