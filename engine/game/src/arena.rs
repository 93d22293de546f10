//! What a game is played on and with: map, forces, objectives, checked once and shared by all
//! games of a scenario.

use std::fmt;

use crate::cell::{CELLS, Cell};
use crate::kinds::{BySide, Cover, Ground, Kind, Quality, Side};
use crate::limits::{
    MAX_GROUPS, MAX_LEADERS, MAX_MARKERS, MAX_MEN, MAX_OBJECTIVES, MAX_SPOTS, MAX_START_POINTS,
    MAX_TURNS, MAX_UNITS,
};
use crate::sight::Sight;

/// One unit of a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnitSetup {
    /// Name for a reader.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// How well trained it is.
    pub quality: Quality,
    /// Men, 1 to 13.
    pub men: u8,
    /// Grade of a leader, 1 to 3; 0 for other units.
    pub grade: u8,
}

/// One group: its units start under one marker and act on one card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupSetup {
    /// Name for a reader.
    pub name: String,
    /// Its units.
    pub units: Vec<UnitSetup>,
}

/// One side.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SideSetup {
    /// Name of the force for a reader.
    pub name: String,
    /// Its groups.
    pub groups: Vec<GroupSetup>,
    /// Dummy markers.
    pub dummies: u8,
    /// Squares where markers may start: at least one for each group.
    pub spots: Vec<Cell>,
    /// Men lost or fled, in percent, from which the side must test.
    pub break_point: u8,
    /// Points at the start, a handicap.
    pub points: i16,
}

/// One objective.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Objective {
    /// Name for a reader.
    pub name: String,
    /// Its square.
    pub at: Cell,
    /// Points for holding it at a turn's end, by side.
    pub each_turn: BySide<u8>,
    /// Points for holding it at the end of the game, by side.
    pub at_end: BySide<u8>,
    /// Who holds it at the start.
    pub holder: Option<Side>,
}

/// Everything a scenario says, before it is checked.
#[derive(Clone, Debug)]
pub struct Setup {
    /// Title for a reader.
    pub title: String,
    /// The ground of every square, in row order.
    pub ground: Vec<Ground>,
    /// The sides.
    pub sides: BySide<SideSetup>,
    /// The objectives.
    pub objectives: Vec<Objective>,
    /// Turns after which the game ends.
    pub turn_limit: u8,
}

/// One thing that keeps a setup from being played.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetupFault {
    /// What it concerns: `attacker, group 2 (Second platoon), unit 1`.
    pub place: String,
    /// What is wrong and what is expected.
    pub message: String,
}

impl fmt::Display for SetupFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.message)
    }
}

/// A checked scenario with its lines of sight.
#[derive(Clone)]
pub struct Arena {
    setup: Setup,
    ground: [Ground; CELLS],
    cover: [Cover; CELLS],
    sight: Sight,
}

impl Arena {
    /// Checks a setup and works out what does not change from game to game.
    ///
    /// # Errors
    /// Every fault of the setup.
    pub fn new(setup: Setup) -> Result<Arena, Vec<SetupFault>> {
        let faults = check(&setup);
        if !faults.is_empty() {
            return Err(faults);
        }
        let mut ground = [Ground::Open; CELLS];
        ground.copy_from_slice(&setup.ground);
        Ok(Arena { cover: ground.map(Ground::cover), sight: Sight::new(&ground), ground, setup })
    }

    /// What the scenario says.
    pub fn setup(&self) -> &Setup {
        &self.setup
    }

    /// The ground of a square.
    #[inline]
    pub fn ground(&self, cell: Cell) -> Ground {
        self.ground[cell.index()]
    }

    /// The cover a square gives.
    #[inline]
    pub fn cover(&self, cell: Cell) -> Cover {
        self.cover[cell.index()]
    }

    /// The lines of sight.
    #[inline]
    pub fn sight(&self) -> &Sight {
        &self.sight
    }

    /// The objectives.
    pub fn objectives(&self) -> &[Objective] {
        &self.setup.objectives
    }

    /// A unit's name and its group's, by number.
    pub fn unit_name(&self, unit: u8) -> Option<(&str, &str)> {
        let groups = self.setup.sides.0.iter().flat_map(|side| &side.groups);
        let mut units =
            groups.flat_map(|g| g.units.iter().map(|u| (u.name.as_str(), g.name.as_str())));
        units.nth(unit.into())
    }

    /// A group's name, by number.
    pub fn group_name(&self, group: u8) -> Option<&str> {
        let mut groups = self.setup.sides.0.iter().flat_map(|side| &side.groups);
        groups.nth(group.into()).map(|g| g.name.as_str())
    }
}

fn check(setup: &Setup) -> Vec<SetupFault> {
    let mut faults = Faults::default();
    faults.unless(setup.ground.len() == CELLS, "map", || {
        format!("{} squares, expected {CELLS}", setup.ground.len())
    });
    let turns = u16::from(setup.turn_limit);
    faults.unless((1..=MAX_TURNS.min(30)).contains(&turns), "turn_limit", || {
        format!("{turns} turns, expected 1 to 30")
    });
    let objectives = setup.objectives.len();
    faults.unless((1..=MAX_OBJECTIVES).contains(&objectives), "objectives", || {
        format!("{objectives} objectives, expected 1 to {MAX_OBJECTIVES}")
    });
    for objective in &setup.objectives {
        let points = objective.each_turn.0.iter().chain(&objective.at_end.0);
        let most = points.max().copied().unwrap_or(0);
        faults.unless(most <= 20, &format!("objective {}", objective.name), || {
            format!("{most} points, expected 0 to 20")
        });
    }
    for &side in Side::ALL {
        check_side(side, &setup.sides[side], &mut faults);
    }
    check_totals(setup, &mut faults);
    faults.0
}

fn check_side(side: Side, setup: &SideSetup, faults: &mut Faults) {
    let place = side.label();
    faults
        .unless(!setup.groups.is_empty(), place, || "no groups, expected at least one".to_owned());
    let (spots, groups) = (setup.spots.len(), setup.groups.len());
    faults.unless(spots >= groups, place, || {
        format!("{spots} spots for {groups} groups, expected one for each")
    });
    faults.unless(spots <= MAX_SPOTS, place, || {
        format!("{spots} spots, expected at most {MAX_SPOTS}")
    });
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
    for (g, group) in setup.groups.iter().enumerate() {
        let place = format!("{side}, group {} ({})", g + 1, group.name);
        faults.unless((1..=24).contains(&group.units.len()), &place, || {
            format!("{} units, expected 1 to 24", group.units.len())
        });
        for (u, unit) in group.units.iter().enumerate() {
            check_unit(&format!("{place}, unit {} ({})", u + 1, unit.name), unit, faults);
        }
    }
}

fn check_unit(place: &str, unit: &UnitSetup, faults: &mut Faults) {
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
    let count = groups().count();
    faults.unless(count <= MAX_GROUPS, "both sides", || {
        format!("{count} groups, expected at most {MAX_GROUPS}")
    });
    // A rule may raise the dummies of a side to 8.
    let markers = count + 2 * 8;
    faults.unless(markers <= MAX_MARKERS, "both sides", || {
        format!("{markers} markers, expected at most {MAX_MARKERS}")
    });
}

#[derive(Default)]
struct Faults(Vec<SetupFault>);

impl Faults {
    fn unless(&mut self, fine: bool, place: &str, message: impl FnOnce() -> String) {
        if !fine {
            self.0.push(SetupFault { place: place.to_owned(), message: message() });
        }
    }
}
