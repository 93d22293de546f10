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

/// Range in whole inches by squares apart along the long and the short edge, rounded down.
static RANGES: [[u8; HEIGHT as usize]; WIDTH as usize] = {
    let mut ranges = [[0; HEIGHT as usize]; WIDTH as usize];
    let mut x = 0;
    while x < WIDTH as usize {
        let mut y = 0;
        while y < HEIGHT as usize {
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
        RANGES[self.x.abs_diff(to.x) as usize][self.y.abs_diff(to.y) as usize]
    }

    /// All squares in row order.
    pub fn all() -> impl Iterator<Item = Cell> {
        (0..CELLS).map(Cell::at)
    }
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

    /// RULES 1.3.
    #[test]
    fn ranges_are_whole_inches_rounded_down() {
        let from = Cell { x: 10, y: 10 };
        let range = |dx, dy| from.step(dx, dy).unwrap().range(from);
        assert_eq!([range(3, 4), range(1, 1), range(-2, 2), range(0, 0)], [5, 1, 2, 0]);
        assert_eq!(Cell { x: 0, y: 0 }.range(Cell { x: 71, y: 47 }), crate::limits::MAX_RANGE - 1);
    }
}
