//! Ways to each objective: for every square the next square and the cost still to go.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::arena::Arena;
use crate::cell::{CELLS, Cell};
use crate::choice::Heading;
use crate::rules::Rules;

/// The eight steps, by eighths of a turn from the right edge towards the far edge.
pub const STEPS: [(i32, i32); 8] =
    [(1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1)];

const NOWHERE: u8 = u8::MAX;

/// Ways over one map under one set of rules.
#[derive(Clone)]
pub struct Paths {
    /// Cost of entering each square by a straight step, in hundredths of an inch.
    cost: Vec<u16>,
    marker_cost: Vec<u16>,
    next: Vec<Vec<u8>>,
    to_go: Vec<Vec<u32>>,
    /// Where a usual move leads, by mover (foot, marker), heading and square: players ask this
    /// more often than anything else.
    usual: [Vec<Vec<Cell>>; 2],
}

/// Inches of a usual move: a die's mean, rounded down.
const USUAL: u8 = 3;

impl Paths {
    /// Works out the ways over `arena` under `rules`.
    pub fn new(arena: &Arena, rules: &Rules) -> Paths {
        let foot = |cell: Cell| rules.ground_cost(arena.ground(cell));
        let marker = |cell: Cell| 100 + (foot(cell) - 100) * rules.marker_slowing() / 100;
        let cost: Vec<u16> = Cell::all().map(|cell| foot(cell) as u16).collect();
        let marker_cost = Cell::all().map(|cell| marker(cell) as u16).collect();
        let fields = arena.objectives().iter().map(|objective| field(&cost, objective.at));
        let (next, to_go) = fields.unzip();
        let mut paths = Paths { cost, marker_cost, next, to_go, usual: [vec![], vec![]] };
        paths.usual = [false, true].map(|marker| paths.usual_moves(marker));
        paths
    }

    fn usual_moves(&self, marker: bool) -> Vec<Vec<Cell>> {
        let straight = (0..STEPS.len() as u8).map(Heading::Straight);
        let headings = straight.chain((0..self.next.len() as u8).map(Heading::Objective));
        let from =
            |heading| Cell::all().map(|cell| self.walk(cell, heading, USUAL, marker)).collect();
        headings.map(from).collect()
    }

    /// Cost in hundredths of an inch of the way from `cell` to an objective.
    #[inline]
    pub fn to_go(&self, objective: usize, cell: Cell) -> u32 {
        self.to_go[objective][cell.index()]
    }

    /// The next square from `cell`, and the cost of going there; nothing at the end of the way.
    #[inline]
    pub fn step(&self, cell: Cell, heading: Heading, marker: bool) -> Option<(Cell, u16)> {
        let way = match heading {
            Heading::Straight(way) => way,
            Heading::Objective(objective) => self.next[objective as usize][cell.index()],
        };
        let &(dx, dy) = STEPS.get(way as usize)?;
        let to = cell.step(dx, dy)?;
        let cost = if marker { &self.marker_cost } else { &self.cost }[to.index()];
        Some((to, stretched(cost, way)))
    }

    /// The square that a move of `inches` from `cell` reaches.
    #[inline]
    pub fn reach(&self, cell: Cell, heading: Heading, inches: u8, marker: bool) -> Cell {
        if inches == USUAL {
            let row = match heading {
                Heading::Straight(way) => way as usize,
                Heading::Objective(objective) => STEPS.len() + objective as usize,
            };
            return self.usual[usize::from(marker)][row][cell.index()];
        }
        self.walk(cell, heading, inches, marker)
    }

    fn walk(&self, cell: Cell, heading: Heading, inches: u8, marker: bool) -> Cell {
        let (mut at, mut left) = (cell, u16::from(inches) * 100);
        while let Some((to, cost)) = self.step(at, heading, marker) {
            if cost > left {
                break;
            }
            (at, left) = (to, left - cost);
        }
        at
    }
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
        if far > to_go[index] {
            continue;
        }
        let cell = Cell::at(index);
        for (way, (dx, dy)) in (0u8..).zip(STEPS) {
            // `from` would reach `cell` by the step `way`.
            let Some(from) = cell.step(-dx, -dy) else { continue };
            let through = far + u32::from(stretched(cost[index], way));
            if through < to_go[from.index()] {
                to_go[from.index()] = through;
                next[from.index()] = way;
                queue.push(Reverse((through, from.index())));
            }
        }
    }
    (next, to_go)
}
