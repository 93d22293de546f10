//! Whether a sketch can be played: what the loader does not ask, checked before lines of sight are
//! worked out.

use std::fmt;
use std::sync::LazyLock;

use ruleshift_game::{Cell, Gait, Ground, Kind, Rules, STEPS, Setup, Side, SideSetup, Start};

/// The least distance between the two sides' starting squares in inches.
pub(crate) const LEAST_APART: u8 = 18;
/// Most units of both sides: more do not fit into an evening.
pub(crate) const MOST_UNITS: usize = 60;
/// Most cards of the first deck with everybody on the table.
pub(crate) const MOST_CARDS: usize = 40;

/// Why a sketch is drawn again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Rejection {
    /// It does not load; every fault.
    Faults(Vec<String>),
    /// No way leads from a starting square to an objective.
    NoWay {
        /// Whose square.
        side: Side,
        /// The square.
        from: Cell,
        /// The objective's name.
        to: String,
        /// How they would go.
        vehicles: bool,
    },
    /// Two sides start too near each other.
    TooNear {
        /// A square of the attacker.
        attacker: Cell,
        /// A square of the defender.
        defender: Cell,
    },
    /// Troops or a reserve would start in water, wire or mines, or vehicles in a house.
    BadGround {
        /// Whose square.
        side: Side,
        /// The square.
        at: Cell,
        /// Its ground.
        ground: Ground,
    },
    /// There are fewer starting squares than are needed.
    TooFewPlaces {
        /// Whose.
        side: Side,
        /// Needed.
        wanted: usize,
        /// Found.
        found: usize,
    },
    /// There is more of something than an evening has room for.
    TooMany {
        /// Units, or cards.
        what: &'static str,
        /// Counted.
        count: usize,
        /// Allowed.
        most: usize,
    },
}

impl fmt::Display for Rejection {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let at = |cell: &Cell| format!("({}, {})", cell.x, cell.y);
        match self {
            Rejection::Faults(faults) => write!(f, "it does not load: {}", faults.join("; ")),
            Rejection::NoWay { side, from, to, vehicles } => {
                let how = if *vehicles { "for vehicles" } else { "on foot" };
                write!(f, "no way leads {how} from {} of the {side} to {to}", at(from))
            }
            Rejection::TooNear { attacker, defender } => write!(
                f,
                "the sides start less than {LEAST_APART} in apart, at {} and {}",
                at(attacker),
                at(defender)
            ),
            Rejection::BadGround { side, at: cell, ground } => {
                write!(f, "the {side} would start on bad ground at {}: {ground}", at(cell))
            }
            Rejection::TooFewPlaces { side, wanted, found } => {
                write!(f, "the {side} has {found} places to start at, {wanted} are needed")
            }
            Rejection::TooMany { what, count, most } => {
                write!(f, "{count} {what}, expected at most {most}")
            }
        }
    }
}

/// Checks everything.
///
/// # Errors
/// The first thing that is wrong.
pub(crate) fn check(setup: &Setup) -> Result<(), Rejection> {
    size(setup)?;
    for &side in Side::ALL {
        places(side, &setup.sides[side])?;
        ground(setup, side)?;
    }
    apart(setup)?;
    ways(setup)
}

fn size(setup: &Setup) -> Result<(), Rejection> {
    let sides = &setup.sides.0;
    let groups = || sides.iter().flat_map(|side| &side.groups);
    let units = || groups().flat_map(|group| &group.units);
    let leaders = units().filter(|unit| unit.kind == Kind::Leader).count();
    let batteries: usize = sides.iter().map(|side| side.batteries.len()).sum();
    // A turn-end card, a marker card for each side, and one for everybody else.
    let cards = 3 + groups().count() + leaders + batteries;
    for (what, count, most) in
        [("units", units().count(), MOST_UNITS), ("cards", cards, MOST_CARDS)]
    {
        if count > most {
            return Err(Rejection::TooMany { what, count, most });
        }
    }
    Ok(())
}

/// A spot for each marker, dummies too, and a feature more than are used: else nothing is hidden.
fn places(side: Side, setup: &SideSetup) -> Result<(), Rejection> {
    let starting = |start: &Start| setup.groups.iter().filter(|g| g.start == *start).count();
    let hidden = starting(&Start::Feature);
    let spots = (starting(&Start::Spot) + usize::from(setup.dummies), setup.spots.len());
    let features = (if hidden > 0 { hidden + 1 } else { 0 }, setup.features.len());
    for (wanted, found) in [spots, features] {
        if found < wanted {
            return Err(Rejection::TooFewPlaces { side, wanted, found });
        }
    }
    Ok(())
}

/// Squares where a side's troops start, each with whether vehicles may be among them.
fn starts(setup: &SideSetup) -> Vec<(Cell, bool)> {
    let vehicles = |start: &Start| {
        let mut groups = setup.groups.iter().filter(|group| group.start == *start);
        groups.any(|group| group.units.iter().any(|unit| unit.kind.is_vehicle()))
    };
    let (on_spots, hidden) = (vehicles(&Start::Spot), vehicles(&Start::Feature));
    let mut starts: Vec<(Cell, bool)> = setup.spots.iter().map(|&at| (at, on_spots)).collect();
    starts.extend(setup.features.iter().map(|feature| (feature.at, hidden)));
    for group in &setup.groups {
        if let Start::Reserve { entries, .. } = &group.start {
            let vehicles = group.units.iter().any(|unit| unit.kind.is_vehicle());
            starts.extend(entries.iter().map(|&at| (at, vehicles)));
        }
    }
    starts
}

fn ground(setup: &Setup, side: Side) -> Result<(), Rejection> {
    let bad = [Ground::Stream, Ground::Ford, Ground::Wire, Ground::Minefield];
    for (at, vehicles) in starts(&setup.sides[side]) {
        let ground = setup.ground[at.index()];
        if bad.contains(&ground) || (vehicles && ground == Ground::Building) {
            return Err(Rejection::BadGround { side, at, ground });
        }
    }
    Ok(())
}

/// Reserves come from an edge; everybody else must not start under the enemy's nose.
fn apart(setup: &Setup) -> Result<(), Rejection> {
    let places = |side: Side| {
        let side = &setup.sides[side];
        side.spots.iter().copied().chain(side.features.iter().map(|feature| feature.at))
    };
    for attacker in places(Side::Attacker) {
        for defender in places(Side::Defender) {
            if attacker.range(defender) < LEAST_APART {
                return Err(Rejection::TooNear { attacker, defender });
            }
        }
    }
    Ok(())
}

/// Every objective can be reached under the base rules from every starting square.
fn ways(setup: &Setup) -> Result<(), Rejection> {
    static BASE: LazyLock<Rules> = LazyLock::new(Rules::base);
    let rules = &*BASE;
    let near = rules.holding_distance().unsigned_abs() as u8;
    for gait in [Gait::Foot, Gait::Vehicle] {
        let vehicles = gait == Gait::Vehicle;
        let open = |cell: Cell| {
            let ground = setup.ground[cell.index()];
            let cost =
                if vehicles { rules.vehicle_cost(ground) } else { rules.ground_cost(ground) };
            cost > 0
        };
        for objective in &setup.objectives {
            // Where a vehicle cannot go, it holds from as near as the rules let it.
            let goal = |cell: Cell| {
                if vehicles { cell.range(objective.at) <= near } else { cell == objective.at }
            };
            let reached = reached(goal, open);
            for &side in Side::ALL {
                let cut_off =
                    |&(at, drives): &(Cell, bool)| (drives || !vehicles) && !reached[at.index()];
                if let Some((from, _)) = starts(&setup.sides[side]).into_iter().find(cut_off) {
                    let to = objective.name.clone();
                    return Err(Rejection::NoWay { side, from, to, vehicles });
                }
            }
        }
    }
    Ok(())
}

/// The squares from which a way over open squares leads to a goal.
fn reached(goal: impl Fn(Cell) -> bool, open: impl Fn(Cell) -> bool) -> Vec<bool> {
    let mut reached: Vec<bool> = Cell::all().map(|cell| goal(cell) && open(cell)).collect();
    let mut edge: Vec<Cell> = Cell::all().filter(|cell| reached[cell.index()]).collect();
    while let Some(cell) = edge.pop() {
        for next in STEPS.iter().filter_map(|&(dx, dy)| cell.step(dx, dy)) {
            if open(next) && !reached[next.index()] {
                reached[next.index()] = true;
                edge.push(next);
            }
        }
    }
    reached
}
