//! Squares of the table: 72 by 48, one inch each.

/// Squares along the long edge of the table.
pub const WIDTH: u8 = 72;
/// Squares along the short edge.
pub const HEIGHT: u8 = 48;
/// Squares of the table.
pub const CELLS: usize = WIDTH as usize * HEIGHT as usize;

/// One square of the table; `x` runs along the long edge, `y` along the short one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cell {
    /// Squares from the left edge, 0 to 71.
    pub x: u8,
    /// Squares from the near edge, 0 to 47.
    pub y: u8,
}

/// Room for the squares apart along each edge: powers of two, so that no place in [`RANGES`] needs a
/// check.
const ACROSS: usize = (WIDTH as usize).next_power_of_two();
const DOWN: usize = (HEIGHT as usize).next_power_of_two();

/// Range in whole inches by squares apart along the long and the short edge, rounded down.
static RANGES: [[u8; DOWN]; ACROSS] = {
    let mut ranges = [[0; DOWN]; ACROSS];
    let mut x = 0;
    while x < ACROSS {
        let mut y = 0;
        while y < DOWN {
            ranges[x][y] = ((x * x + y * y) as u32).isqrt() as u8;
            y += 1;
        }
        x += 1;
    }
    ranges
};

impl Cell {
    /// The square at (`x`, `y`), or nothing when it is off the table.
    pub const fn new(x: i32, y: i32) -> Option<Cell> {
        if x >= 0 && x < WIDTH as i32 && y >= 0 && y < HEIGHT as i32 {
            Some(Cell { x: x as u8, y: y as u8 })
        } else {
            None
        }
    }

    /// Place of the square in row order, 0 to 3455.
    #[inline]
    pub const fn index(self) -> usize {
        self.y as usize * WIDTH as usize + self.x as usize
    }

    /// The square at that place in row order.
    pub const fn at(index: usize) -> Cell {
        Cell { x: (index % WIDTH as usize) as u8, y: (index / WIDTH as usize) as u8 }
    }

    /// The square `dx`, `dy` squares away, or nothing when that is off the table.
    #[inline]
    pub const fn step(self, dx: i32, dy: i32) -> Option<Cell> {
        Cell::new(self.x as i32 + dx, self.y as i32 + dy)
    }

    /// Range in whole inches from centre to centre, rounded down (RULES 1.3).
    #[inline]
    pub fn range(self, to: Cell) -> u8 {
        let (x, y) = (self.x.abs_diff(to.x) as usize, self.y.abs_diff(to.y) as usize);
        RANGES[x % ACROSS][y % DOWN]
    }

    /// The eighth of a turn in which `to` lies, counted as moves are; 0 for the square itself.
    pub fn way_to(self, to: Cell) -> u8 {
        let (dx, dy) = (i32::from(to.x) - i32::from(self.x), i32::from(to.y) - i32::from(self.y));
        // The eighths part at 22.5 degrees, whose tangent is the root of 2, less 1: a line is
        // flatter than that if dx + dy is less than the root of 2 times dx.
        let sum = (dx.abs() + dy.abs()).pow(2);
        let flat = sum <= 2 * dx * dx;
        let steep = sum <= 2 * dy * dy;
        match (flat, steep, dx >= 0, dy >= 0) {
            (true, _, true, _) => 0,
            (true, _, false, _) => 4,
            (_, true, _, true) => 2,
            (_, true, _, false) => 6,
            (_, _, true, true) => 1,
            (_, _, false, true) => 3,
            (_, _, false, false) => 5,
            (_, _, true, false) => 7,
        }
    }

    /// The squares after this one along the straight line to `to`, which is the last.
    pub fn line_to(self, to: Cell) -> impl Iterator<Item = Cell> {
        let (dx, dy) = (i32::from(to.x) - i32::from(self.x), i32::from(to.y) - i32::from(self.y));
        let steps = dx.abs().max(dy.abs());
        let nearest = move |d: i32, n: i32| (2 * d * n + steps).div_euclid(2 * steps.max(1));
        (1..=steps).filter_map(move |n| self.step(nearest(dx, n), nearest(dy, n)))
    }

    /// Whether the straight line from this square to `to` comes within `radius` inches of `centre`.
    pub fn line_passes(self, to: Cell, centre: Cell, radius: u8) -> bool {
        let of = |cell: Cell| (i64::from(cell.x), i64::from(cell.y));
        let ((x1, y1), (x2, y2), (x, y)) = (of(self), of(to), of(centre));
        let (dx, dy, px, py) = (x2 - x1, y2 - y1, x - x1, y - y1);
        let length = dx * dx + dy * dy;
        let reach = i64::from(radius) * i64::from(radius);
        if length == 0 {
            return px * px + py * py <= reach;
        }
        let along = (px * dx + py * dy).clamp(0, length);
        // Squared distance to the nearest point of the line, times `length` squared.
        let (ex, ey) = (px * length - along * dx, py * length - along * dy);
        ex * ex + ey * ey <= reach * length * length
    }

    /// All squares in row order.
    pub fn all() -> impl Iterator<Item = Cell> {
        (0..CELLS).map(Cell::at)
    }
}

/// Eighths of a turn between two ways, the shorter way round: 0 to 4.
pub fn turns_between(one: u8, other: u8) -> u8 {
    let apart = (one + 8 - other) % 8;
    apart.min(8 - apart)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_squares_are_one_to_one() {
        for (n, cell) in Cell::all().enumerate() {
            assert_eq!(cell.index(), n);
        }
        assert_eq!(Cell::new(72, 0), None);
        assert_eq!(Cell::default().step(0, -1), None);
    }

    #[test]
    fn ways_are_eighths_of_a_turn() {
        let from = Cell { x: 30, y: 20 };
        let way = |dx, dy| from.way_to(from.step(dx, dy).unwrap());
        for (n, (dx, dy)) in (0..).zip(crate::paths::STEPS) {
            assert_eq!(way(5 * dx, 5 * dy), n);
        }
        // 20 and 25 degrees off the long edge.
        assert_eq!([way(11, 4), way(11, 5)], [0, 1]);
        // 22.4 and 22.6 degrees.
        assert_eq!([way(17, 7), way(12, 5), way(5, 12), way(7, 17)], [0, 1, 1, 2]);
    }

    #[test]
    fn a_line_goes_square_by_square_to_its_end() {
        let (from, to) = (Cell { x: 3, y: 3 }, Cell { x: 8, y: 1 });
        let line: Vec<Cell> = from.line_to(to).collect();
        assert_eq!((line.len(), *line.last().unwrap()), (5, to));
        assert!(line.windows(2).all(|pair| pair[0].range(pair[1]) == 1));
    }

    #[test]
    fn a_line_passes_what_is_near_it_between_its_ends() {
        let (from, to) = (Cell { x: 10, y: 10 }, Cell { x: 30, y: 10 });
        let near = |x, y| from.line_passes(to, Cell { x, y }, 4);
        assert_eq!(
            [near(20, 14), near(20, 15), near(6, 10), near(5, 10)],
            [true, false, true, false]
        );
    }

    /// RULES 1.3.
    #[test]
    fn ranges_are_whole_inches_rounded_down() {
        let from = Cell { x: 10, y: 10 };
        let range = |dx, dy| from.step(dx, dy).unwrap().range(from);
        assert_eq!([range(3, 4), range(1, 1), range(-2, 2), range(0, 0)], [5, 1, 2, 0]);
        assert_eq!(Cell { x: 0, y: 0 }.range(Cell { x: 71, y: 47 }), crate::limits::MAX_RANGE - 1);
    }
}
