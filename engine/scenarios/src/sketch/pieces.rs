//! Pieces of terrain and the room they take.

use ruleshift_game::Ground;
use ruleshift_game::cell::{HEIGHT, WIDTH};

use crate::form::{PieceForm, Point};
use crate::names::GroundName;

/// A rectangle of the table, its edges in whole inches: left, near, right, far.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Room {
    pub(crate) from: Point,
    pub(crate) to: Point,
}

impl Room {
    pub(crate) fn new(x: i32, y: i32, width: i32, depth: i32) -> Room {
        Room { from: (x, y), to: (x + width, y + depth) }
    }

    /// The room around a point.
    pub(crate) fn around((x, y): Point, across: i32, deep: i32) -> Room {
        Room { from: (x - across, y - deep), to: (x + across, y + deep) }
    }

    /// Whether it lies on the table.
    pub(crate) fn is_on_table(self) -> bool {
        let fits = |low: i32, high: i32, most: u8| low >= 0 && high <= i32::from(most);
        fits(self.from.0, self.to.0, WIDTH) && fits(self.from.1, self.to.1, HEIGHT)
    }

    /// Whether the two are less than `apart` inches from each other.
    pub(crate) fn touches(self, other: Room, apart: i32) -> bool {
        self.from.0 < other.to.0 + apart
            && other.from.0 < self.to.0 + apart
            && self.from.1 < other.to.1 + apart
            && other.from.1 < self.to.1 + apart
    }

    /// Its corners, in order.
    pub(crate) fn corners(self) -> Vec<Point> {
        let (x1, y1, x2, y2) = (self.from.0, self.from.1, self.to.0, self.to.1);
        vec![(x1, y1), (x2, y1), (x2, y2), (x1, y2)]
    }
}

/// The inside of a polygon.
pub(crate) fn area(kind: GroundName, area: Vec<Point>) -> PieceForm {
    PieceForm { kind, area, line: vec![], width: 1 }
}

/// A strip along a line.
pub(crate) fn line(kind: GroundName, line: Vec<Point>, width: i32) -> PieceForm {
    PieceForm { kind, area: vec![], line, width }
}

/// The order in which kinds are laid, so that roads cross fields, bridges cross streams, and houses
/// stand on top of everything.
pub(crate) fn layer(kind: GroundName) -> u8 {
    match Ground::from(kind) {
        Ground::Hill => 0,
        Ground::Crops | Ground::Open => 1,
        Ground::Scrub => 2,
        Ground::Wood => 3,
        Ground::Stream => 4,
        Ground::Road => 5,
        Ground::Bridge | Ground::Ford => 6,
        Ground::Hedge | Ground::Wall => 7,
        Ground::Wire | Ground::Minefield => 8,
        Ground::Rubble | Ground::Trench => 9,
        Ground::Building => 10,
    }
}

/// The height of a line that goes from left to right, at a column; that of its nearest end
/// elsewhere.
pub(crate) fn row_at(line: &[Point], x: i32) -> i32 {
    let pair = line.windows(2).find(|pair| (pair[0].0..=pair[1].0).contains(&x));
    let Some([(x1, y1), (x2, y2)]) = pair.and_then(|pair| <[Point; 2]>::try_from(pair).ok()) else {
        let nearest = line.iter().min_by_key(|point| (point.0 - x).abs());
        return nearest.map_or(0, |point| point.1);
    };
    y1 + (y2 - y1) * (x - x1) / (x2 - x1).max(1)
}

/// The column of a line that goes from the near to the far edge, at a row.
pub(crate) fn column_at(line: &[Point], y: i32) -> i32 {
    let turned: Vec<Point> = line.iter().map(|&(x, y)| (y, x)).collect();
    row_at(&turned, y)
}
