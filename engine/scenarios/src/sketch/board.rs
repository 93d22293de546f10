//! The ground of a sketch square by square, and the search for squares to stand in.

use ruleshift_game::{Cell, Ground};

use crate::build::Build;
use crate::form::{PieceForm, Point};
use crate::library::Library;
use crate::terrain::ground;

/// The ground of every square.
pub(crate) struct Board(Vec<Ground>);

impl Board {
    pub(crate) fn new(pieces: &[PieceForm]) -> Board {
        Board(ground(pieces, &mut Build::new(Library::shipped())))
    }

    pub(crate) fn ground(&self, cell: Cell) -> Ground {
        self.0[cell.index()]
    }

    /// Whether a marker may start there: on dry ground, outside wire and mines.
    pub(crate) fn is_sound(&self, cell: Cell) -> bool {
        let bad = [Ground::Stream, Ground::Ford, Ground::Wire, Ground::Minefield];
        !bad.contains(&self.ground(cell))
    }

    /// Whether a vehicle may start there too.
    pub(crate) fn is_sound_for_vehicles(&self, cell: Cell) -> bool {
        self.is_sound(cell) && self.ground(cell) != Ground::Building
    }

    /// The square nearest to a point among those that fit; of several as near the first in row
    /// order.
    pub(crate) fn nearest(&self, to: Point, fits: impl Fn(Cell) -> bool) -> Option<Point> {
        let away = |cell: &Cell| {
            let (x, y) = point(*cell);
            (x - to.0).pow(2) + (y - to.1).pow(2)
        };
        Cell::all().filter(|&cell| fits(cell)).min_by_key(away).map(point)
    }
}

/// The point that names a square.
pub(crate) fn point(cell: Cell) -> Point {
    (cell.x.into(), cell.y.into())
}

/// Range in whole inches between two points of the table; 0 when one is off it.
pub(crate) fn range(from: Point, to: Point) -> u8 {
    match (Cell::new(from.0, from.1), Cell::new(to.0, to.1)) {
        (Some(from), Some(to)) => from.range(to),
        _ => 0,
    }
}
