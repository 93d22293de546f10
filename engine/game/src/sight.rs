//! Who can see whom: a bit for each pair of squares, worked out once per map (RULES 3.4).

use crate::cell::{CELLS, Cell, HEIGHT, WIDTH};
use crate::kinds::{Ground, SightThrough};

/// Words of a row: a power of two, so that no place in it needs a check.
const WORDS: usize = CELLS.div_ceil(64).next_power_of_two();

/// Most squares of edge-blocking ground on a line of sight, its ends included.
const EDGE_SQUARES: usize = 2;

/// The lines of sight of one map.
#[derive(Clone)]
pub struct Sight {
    rows: Vec<[u64; WORDS]>,
}

/// The squares seen from one square.
#[derive(Clone, Copy)]
pub struct SightRow<'a>(&'a [u64; WORDS]);

/// A square looked up in many rows: its place in a row, worked out once.
#[derive(Clone, Copy, Default)]
pub struct SightSpot {
    word: u8,
    mask: u64,
}

impl From<Cell> for SightSpot {
    fn from(cell: Cell) -> SightSpot {
        let index = cell.index();
        SightSpot { word: (index / 64) as u8, mask: 1 << (index % 64) }
    }
}

impl SightRow<'_> {
    /// Whether `cell` is seen.
    #[inline]
    pub fn sees(self, cell: Cell) -> bool {
        self.sees_spot(cell.into())
    }

    /// Whether a square worked out before is seen.
    #[inline]
    pub fn sees_spot(self, spot: SightSpot) -> bool {
        self.0[spot.word as usize % WORDS] & spot.mask != 0
    }
}

impl Sight {
    /// Works out every line of sight over `ground`.
    pub fn new(ground: &[Ground; CELLS]) -> Sight {
        let map = Map::new(ground);
        let mut rows = vec![[0; WORDS]; CELLS];
        let mut see = |a: usize, b: usize| rows[a][b / 64] |= 1 << (b % 64);
        for (dx, dy) in offsets() {
            let between: Vec<(i32, i32)> = between(dx, dy).collect();
            for y in 0..HEIGHT as i32 - dy {
                let mut seen = map.seen(y, (dx, dy), &between);
                while seen != 0 {
                    let a = (y * WIDTH as i32) as usize + seen.trailing_zeros() as usize;
                    let b = (a as i32 + dy * WIDTH as i32 + dx) as usize;
                    see(a, b);
                    see(b, a);
                    seen &= seen - 1;
                }
            }
        }
        Sight { rows }
    }

    /// The squares seen from `cell`.
    #[inline]
    pub fn from(&self, cell: Cell) -> SightRow<'_> {
        SightRow(&self.rows[cell.index()])
    }

    /// Whether troops in one square see troops in the other: the same both ways.
    #[inline]
    pub fn sees(&self, from: Cell, to: Cell) -> bool {
        self.from(from).sees(to)
    }
}

/// How far the second square may lie from the first, the two in row order: across, then down.
fn offsets() -> impl Iterator<Item = (i32, i32)> {
    let (width, height) = (WIDTH as i32, HEIGHT as i32);
    let down = move |dy| (if dy == 0 { 0 } else { 1 - width }..width).map(move |dx| (dx, dy));
    (0..height).flat_map(down)
}

/// The squares that the straight line between the centres of two squares crosses, both left out, as
/// seen from the first. Asked with the squares in row order only, so that it is the same both ways.
///
/// Goes one square at a time along the longer way, and across it whenever the line is nearer to
/// the next square; halves go up.
fn between(dx: i32, dy: i32) -> impl Iterator<Item = (i32, i32)> {
    let flat = dx.abs() >= dy;
    let (steps, drift) = if flat { (dx.abs(), dy) } else { (dy, dx) };
    (1..steps).map(move |step| {
        let across = (2 * step * drift + steps).div_euclid(2 * steps);
        if flat { (step * dx.signum(), across) } else { (across, step) }
    })
}

/// The squares of one row of the table, a bit each.
type Line = u128;

/// What hinders sight, a line of bits for each row of the table. Lines of sight between squares as
/// far apart as each other are worked out for a whole row at once: six million are asked for a map.
struct Map {
    edge: [Line; HEIGHT as usize],
    blocks: [Line; HEIGHT as usize],
    raised: [Line; HEIGHT as usize],
}

impl Map {
    fn new(ground: &[Ground; CELLS]) -> Map {
        let lines = |has: fn(Ground) -> bool| {
            std::array::from_fn(|y| {
                let row = &ground[y * WIDTH as usize..][..WIDTH as usize];
                row.iter().rev().fold(0, |line, &ground| line << 1 | Line::from(has(ground)))
            })
        };
        Map {
            edge: lines(|ground| ground.sight() == SightThrough::EdgeBlocked),
            blocks: lines(|ground| ground.sight() == SightThrough::Blocked),
            raised: lines(|ground| ground == Ground::Hill),
        }
    }

    /// The squares of row `y` from which the square at that offset is seen, on the table.
    fn seen(&self, y: i32, (dx, dy): (i32, i32), between: &[(i32, i32)]) -> Line {
        // The bit of a square tells of what lies at that offset from it.
        let shifted = |lines: &[Line; HEIGHT as usize], (dx, dy): (i32, i32)| {
            let line = lines[(y + dy) as usize];
            if dx < 0 { line << -dx } else { line >> dx }
        };
        let ends = if (dx, dy) == (0, 0) { &[(0, 0)][..] } else { &[(0, 0), (dx, dy)] };
        // How many squares of edge-blocking ground there are: one or more, two or more, and so on.
        let mut edges = [0; EDGE_SQUARES + 1];
        let mut count = |at| {
            let edge = shifted(&self.edge, at);
            for n in (1..edges.len()).rev() {
                edges[n] |= edges[n - 1] & edge;
            }
            edges[0] |= edge;
        };
        ends.iter().for_each(|&at| count(at));
        let (mut blocked, mut hill) = (0, 0);
        for &at in between {
            count(at);
            blocked |= shifted(&self.blocks, at);
            hill |= shifted(&self.raised, at);
        }
        let above = ends.iter().fold(0, |above, &at| above | shifted(&self.raised, at));
        let table = (1 << WIDTH) - 1;
        let on_table = if dx < 0 { table << -dx & table } else { table >> dx };
        !(blocked | edges[EDGE_SQUARES] | hill & !above) & on_table
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map(pieces: &[(Ground, std::ops::Range<u8>, std::ops::Range<u8>)]) -> [Ground; CELLS] {
        let mut ground = [Ground::Open; CELLS];
        for (kind, xs, ys) in pieces {
            for cell in Cell::all().filter(|cell| xs.contains(&cell.x) && ys.contains(&cell.y)) {
                ground[cell.index()] = *kind;
            }
        }
        ground
    }

    fn at(x: u8, y: u8) -> Cell {
        Cell { x, y }
    }

    /// RULES 3.4: open ground never hinders sight.
    #[test]
    fn all_is_seen_in_the_open() {
        let sight = Sight::new(&map(&[]));
        assert!(sight.sees(at(0, 0), at(71, 47)) && sight.sees(at(5, 5), at(5, 5)));
    }

    /// RULES 3.4: a line may begin or end in a building, never cross it.
    #[test]
    fn buildings_hide_what_is_behind_them() {
        let sight = Sight::new(&map(&[(Ground::Building, 20..22, 10..13)]));
        assert!(!sight.sees(at(10, 11), at(30, 11)), "across");
        assert!(sight.sees(at(10, 11), at(20, 11)), "in");
        assert!(!sight.sees(at(10, 11), at(21, 11)), "through the first square to the second");
    }

    /// RULES 3.4: two squares of edge-blocking ground, no more.
    #[test]
    fn woods_are_seen_into_two_squares_deep() {
        let sight = Sight::new(&map(&[(Ground::Wood, 20..30, 0..48)]));
        assert!(sight.sees(at(10, 11), at(21, 11)));
        assert!(!sight.sees(at(10, 11), at(22, 11)));
        assert!(sight.sees(at(25, 11), at(26, 11)) && !sight.sees(at(25, 11), at(27, 11)));
    }

    /// RULES 3.4: a hill hides what is behind it from those below.
    #[test]
    fn hills_are_seen_over_only_from_above() {
        let sight = Sight::new(&map(&[(Ground::Hill, 20..24, 5..15)]));
        assert!(!sight.sees(at(10, 10), at(40, 10)));
        assert!(sight.sees(at(22, 10), at(40, 10)) && sight.sees(at(10, 10), at(23, 10)));
    }

    /// A line walked square by square, the first of the two squares first in row order.
    fn walked(ground: &[Ground; CELLS], from: Cell, to: Cell) -> bool {
        let [x, y] = [i32::from(from.x), i32::from(from.y)];
        let (dx, dy) = (i32::from(to.x) - x, i32::from(to.y) - y);
        let steps = dx.abs().max(dy).max(1);
        // The whole number that is nearest, of two the higher one.
        let place = |drift: i32, step: i32| {
            let near = drift * step / steps - 1..;
            { near }.find(|n| 2 * (drift * step - n * steps) < steps).expect("it is near")
        };
        let way: Vec<Ground> = (0..=dx.abs().max(dy))
            .map(|n| ground[Cell::new(x + place(dx, n), y + place(dy, n)).expect("on it").index()])
            .collect();
        let inner = way.get(1..way.len() - 1).unwrap_or_default();
        let edges = way.iter().filter(|g| g.sight() == SightThrough::EdgeBlocked).count();
        let above = way[0] == Ground::Hill || way[way.len() - 1] == Ground::Hill;
        edges <= EDGE_SQUARES
            && inner.iter().all(|g| g.sight() != SightThrough::Blocked)
            && (above || inner.iter().all(|&g| g != Ground::Hill))
    }

    /// All lines of a table that has something of everything everywhere, and much that is open.
    #[test]
    fn lines_worked_out_together_are_those_walked_one_by_one() {
        let mut ground = [Ground::Open; CELLS];
        let mut state = 1_u32;
        for here in &mut ground {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let any = [Ground::Building, Ground::Wood, Ground::Hill, Ground::Wood];
            *here = *any.get(state as usize >> 26).unwrap_or(&Ground::Open);
        }
        let sight = Sight::new(&ground);
        let (mut seen, mut pairs) = (0, 0);
        for from in Cell::all().step_by(13) {
            for to in Cell::all().filter(|to| to.index() >= from.index()) {
                let sees = walked(&ground, from, to);
                assert_eq!((sight.sees(from, to), sight.sees(to, from)), (sees, sees));
                (seen, pairs) = (seen + u32::from(sees), pairs + 1);
            }
        }
        assert!(seen > pairs / 20 && seen < pairs / 2, "{seen} of {pairs}: no test of lines");
    }
}
