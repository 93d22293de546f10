//! Who can see whom: a bit for each pair of squares, worked out once per map (RULES 3.4).

use crate::cell::{CELLS, Cell, WIDTH};
use crate::kinds::{Ground, SightThrough};

/// Words of a row: a power of two, so that no place in it needs a check.
const WORDS: usize = CELLS.div_ceil(64).next_power_of_two();

/// Most squares of edge-blocking ground on a line of sight, its ends included.
const EDGE_SQUARES: u32 = 2;

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
    /// Works out every line of sight over `ground`, in row order of the squares.
    pub fn new(ground: &[Ground; CELLS]) -> Sight {
        let clutter = Clutter::new(ground);
        let hindrance = ground.map(Hindrance::of);
        let mut rows = vec![[0; WORDS]; CELLS];
        for a in 0..CELLS {
            for b in a..CELLS {
                if clutter.clear(Cell::at(a), Cell::at(b)) || line(&hindrance, a, b) {
                    rows[a][b / 64] |= 1 << (b % 64);
                    rows[b][a / 64] |= 1 << (a % 64);
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

fn hinders(ground: Ground) -> bool {
    ground.sight() != SightThrough::Clear || ground == Ground::Hill
}

/// Counts of hindering squares, to pass at once the many pairs with none between them.
struct Clutter(Vec<u32>);

impl Clutter {
    const STRIDE: usize = WIDTH as usize + 1;

    fn new(ground: &[Ground; CELLS]) -> Clutter {
        let mut sums = vec![0; Self::STRIDE * (CELLS / WIDTH as usize + 1)];
        for cell in Cell::all() {
            let (x, y) = (cell.x as usize, cell.y as usize);
            let here = u32::from(hinders(ground[cell.index()]));
            sums[(y + 1) * Self::STRIDE + x + 1] =
                here + sums[y * Self::STRIDE + x + 1] + sums[(y + 1) * Self::STRIDE + x]
                    - sums[y * Self::STRIDE + x];
        }
        Clutter(sums)
    }

    /// Whether the rectangle with these corners holds nothing that hinders sight.
    fn clear(&self, a: Cell, b: Cell) -> bool {
        let at = |x: u8, y: u8| self.0[y as usize * Self::STRIDE + x as usize];
        let (left, right) = (a.x.min(b.x), a.x.max(b.x) + 1);
        let (low, high) = (a.y.min(b.y), a.y.max(b.y) + 1);
        at(right, high) + at(left, low) == at(left, high) + at(right, low)
    }
}

/// What a square does to the lines across it.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Hindrance {
    edge: u32,
    blocks: bool,
    raised: bool,
}

impl Hindrance {
    fn of(ground: Ground) -> Hindrance {
        Hindrance {
            edge: u32::from(ground.sight() == SightThrough::EdgeBlocked),
            blocks: ground.sight() == SightThrough::Blocked,
            raised: ground == Ground::Hill,
        }
    }
}

/// Whether the straight line between the centres of two squares is a line of sight. Asked with the
/// squares in row order only, so the answer is the same both ways.
///
/// Goes one square at a time along the longer way, and across it whenever the line is nearer to
/// the next square; halves go up. No division: six million lines are asked for a map.
fn line(hindrance: &[Hindrance; CELLS], from: usize, to: usize) -> bool {
    let (a, b) = (Cell::at(from), Cell::at(to));
    let (dx, dy) = (i32::from(b.x) - i32::from(a.x), i32::from(b.y) - i32::from(a.y));
    let row = WIDTH as isize;
    let (along, across, steps, drift) = if dx.abs() >= dy.abs() {
        (dx.signum() as isize, row, dx.abs(), dy)
    } else {
        (dy.signum() as isize * row, 1, dy.abs(), dx)
    };
    let from_above = hindrance[from].raised || hindrance[to].raised;
    let mut edges = hindrance[from].edge + if from == to { 0 } else { hindrance[to].edge };
    let (mut index, mut rest) = (from as isize, steps);
    for _ in 1..steps {
        (index, rest) = (index + along, rest + 2 * drift);
        if rest >= 2 * steps {
            (index, rest) = (index + across, rest - 2 * steps);
        } else if rest < 0 {
            (index, rest) = (index - across, rest + 2 * steps);
        }
        let here = hindrance[index as usize];
        edges += here.edge;
        if here.blocks || edges > EDGE_SQUARES || (here.raised && !from_above) {
            return false;
        }
    }
    edges <= EDGE_SQUARES
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
}
