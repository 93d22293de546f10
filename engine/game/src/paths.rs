//! Ways to each objective: for every square the next square and the cost still to go.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::arena::Arena;
use crate::cell::{CELLS, Cell};
use crate::choice::Heading;
use crate::kinds::{Ground, Kind};
use crate::rules::Rules;

/// The eight steps, by eighths of a turn from the right edge towards the far edge.
pub const STEPS: [(i32, i32); 8] =
    [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)];

const NOWHERE: u8 = u8::MAX;
/// Cost of a square that cannot be entered.
const CLOSED: u16 = u16::MAX;

/// How a mover pays for ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Gait {
    /// On foot, guns pushed by their crews too.
    Foot,
    /// As a marker.
    Marker,
    /// In a vehicle.
    Vehicle,
}

impl Gait {
    const ALL: [Gait; 3] = [Gait::Foot, Gait::Marker, Gait::Vehicle];

    /// The gait of units of that kind.
    #[inline]
    pub const fn of(kind: Kind) -> Gait {
        if kind.is_vehicle() { Gait::Vehicle } else { Gait::Foot }
    }

    /// Inches of a usual move: the mean of one die for those on foot, of two for vehicles, parts
    /// left off.
    const fn usual(self) -> u8 {
        match self {
            Gait::Foot | Gait::Marker => 3,
            Gait::Vehicle => 7,
        }
    }
}

/// Ways over one map under one set of rules.
#[derive(Clone)]
pub struct Paths {
    /// Cost of entering each square by a straight step, in hundredths of an inch, by gait.
    cost: [Vec<u16>; 3],
    foot: Fields,
    vehicle: Fields,
    /// Where a usual move leads, by gait, heading and square: players ask this more often than
    /// anything else.
    usual: [Vec<Vec<Cell>>; 3],
}

/// For each objective the next step from every square, and the cost still to go.
#[derive(Clone)]
struct Fields {
    next: Vec<Vec<u8>>,
    to_go: Vec<Vec<u32>>,
}

impl Fields {
    fn new(arena: &Arena, cost: &[u16]) -> Fields {
        let fields = arena.objectives().iter().map(|objective| field(cost, objective.at));
        let (next, to_go) = fields.unzip();
        Fields { next, to_go }
    }
}

impl Paths {
    /// Works out the ways over `arena` under `rules`.
    pub fn new(arena: &Arena, rules: &Rules) -> Paths {
        let cost: [Vec<u16>; 3] = Gait::ALL.map(|gait| costs(arena, rules, gait).collect());
        let [foot, _, vehicle] = &cost;
        let (foot, vehicle) = (Fields::new(arena, foot), Fields::new(arena, vehicle));
        let mut paths = Paths { cost, foot, vehicle, usual: [vec![], vec![], vec![]] };
        paths.usual = Gait::ALL.map(|gait| paths.usual_moves(gait));
        paths
    }

    /// Whether these ways over `arena` are also those under `rules`: they follow from the costs.
    pub fn serve(&self, arena: &Arena, rules: &Rules) -> bool {
        let same = |&gait: &Gait| {
            let kept = self.cost[gait as usize].iter().copied();
            kept.eq(costs(arena, rules, gait))
        };
        Gait::ALL.iter().all(same)
    }

    fn usual_moves(&self, gait: Gait) -> Vec<Vec<Cell>> {
        let straight = (0..STEPS.len() as u8).map(Heading::Straight);
        let headings = straight.chain((0..self.foot.next.len() as u8).map(Heading::Objective));
        let walk = |heading, cell| self.walk(cell, heading, gait.usual(), gait);
        headings.map(|heading| Cell::all().map(|cell| walk(heading, cell)).collect()).collect()
    }

    fn fields(&self, gait: Gait) -> &Fields {
        match gait {
            Gait::Foot | Gait::Marker => &self.foot,
            Gait::Vehicle => &self.vehicle,
        }
    }

    /// Cost in hundredths of an inch of the way from `cell` to an objective; the largest number
    /// when there is none.
    #[inline]
    pub fn to_go(&self, objective: usize, cell: Cell, gait: Gait) -> u32 {
        self.fields(gait).to_go[objective][cell.index()]
    }

    /// Whether a square can be entered.
    #[inline]
    pub fn open(&self, cell: Cell, gait: Gait) -> bool {
        self.cost[gait as usize][cell.index()] != CLOSED
    }

    /// Cost in hundredths of an inch of entering a square by a straight step.
    pub fn cost(&self, cell: Cell, gait: Gait) -> u16 {
        self.cost[gait as usize][cell.index()]
    }

    /// The next square from `cell`, and the cost of going there; nothing at the end of the way.
    #[inline]
    pub fn step(&self, cell: Cell, heading: Heading, gait: Gait) -> Option<(Cell, u16)> {
        let way = match heading {
            Heading::Straight(way) => way,
            Heading::Objective(n) => self.fields(gait).next[n as usize][cell.index()],
        };
        let &(dx, dy) = STEPS.get(way as usize)?;
        let to = cell.step(dx, dy)?;
        let cost = self.cost[gait as usize][to.index()];
        (cost != CLOSED).then(|| (to, stretched(cost, way)))
    }

    /// The square that a move of `inches` from `cell` reaches.
    #[inline]
    pub fn reach(&self, cell: Cell, heading: Heading, inches: u8, gait: Gait) -> Cell {
        if inches == gait.usual() {
            let row = match heading {
                Heading::Straight(way) => way as usize,
                Heading::Objective(objective) => STEPS.len() + objective as usize,
            };
            return self.usual[gait as usize][row][cell.index()];
        }
        self.walk(cell, heading, inches, gait)
    }

    fn walk(&self, cell: Cell, heading: Heading, inches: u8, gait: Gait) -> Cell {
        let (mut at, mut left) = (cell, u16::from(inches) * 100);
        while let Some((to, cost)) = self.step(at, heading, gait) {
            if cost > left {
                break;
            }
            (at, left) = (to, left - cost);
        }
        at
    }
}

/// Cost of entering each square.
fn costs(arena: &Arena, rules: &Rules, gait: Gait) -> impl Iterator<Item = u16> {
    Cell::all().map(move |cell| ground_cost(arena.ground(cell), rules, gait))
}

fn ground_cost(ground: Ground, rules: &Rules, gait: Gait) -> u16 {
    let foot = rules.ground_cost(ground);
    let cost = match gait {
        Gait::Foot => foot,
        Gait::Marker => 100 + (foot - 100) * rules.marker_slowing() / 100,
        Gait::Vehicle => rules.vehicle_cost(ground),
    };
    if cost == 0 { CLOSED } else { cost as u16 }
}

/// Diagonal steps are longer by the square root of two, to the hundredth.
fn stretched(cost: u16, way: u8) -> u16 {
    if way % 2 == 1 { (u32::from(cost) * 141 / 100) as u16 } else { cost }
}

/// Shortest ways from everywhere to `goal`; of equal ways the one found first in fixed order.
fn field(cost: &[u16], goal: Cell) -> (Vec<u8>, Vec<u32>) {
    let mut next = vec![NOWHERE; CELLS];
    let mut to_go = vec![u32::MAX; CELLS];
    let mut queue = BinaryHeap::from([Reverse((0u32, goal.index()))]);
    to_go[goal.index()] = 0;
    while let Some(Reverse((far, index))) = queue.pop() {
        // Into a goal that cannot be entered the way leads up to its edge.
        let entering =
            if cost[index] == CLOSED && index == goal.index() { 100 } else { cost[index] };
        if far > to_go[index] || entering == CLOSED {
            continue;
        }
        let cell = Cell::at(index);
        for (way, (dx, dy)) in (0u8..).zip(STEPS) {
            // `from` would reach `cell` by the step `way`.
            let Some(from) = cell.step(-dx, -dy) else { continue };
            let through = far + u32::from(stretched(entering, way));
            if through < to_go[from.index()] {
                to_go[from.index()] = through;
                next[from.index()] = way;
                queue.push(Reverse((through, from.index())));
            }
        }
    }
    (next, to_go)
}
