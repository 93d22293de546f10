//! Which squares a piece of terrain covers. All arithmetic is in half inches, so that the centre
//! of a square is a whole number.

use ruleshift_game::Cell;

use crate::form::Point;

/// Whether the centre of `cell` is inside the polygon, by the even-odd rule.
pub(crate) fn inside(polygon: &[Point], cell: Cell) -> bool {
    let (x, y) = centre(cell);
    let mut inside = false;
    for (n, &(x1, y1)) in polygon.iter().enumerate() {
        let (x2, y2) = polygon[(n + 1) % polygon.len()];
        let (x1, y1, x2, y2) = (2 * x1, 2 * y1, 2 * x2, 2 * y2);
        if (y1 > y) != (y2 > y) {
            // The edge crosses the ray to the right of the centre, compared without dividing.
            let cross = (x2 - x1) * (y - y1) - (x - x1) * (y2 - y1);
            inside ^= (cross > 0) == (y2 > y1);
        }
    }
    inside
}

/// Whether the centre of `cell` is within the strip of `width` inches along the line: nearer to
/// it than seven tenths of the width, so that a strip one inch wide has no gaps.
pub(crate) fn along(line: &[Point], width: i32, cell: Cell) -> bool {
    let (x, y) = centre(cell);
    line.windows(2).any(|pair| {
        let [(x1, y1), (x2, y2)] = [(2 * pair[0].0, 2 * pair[0].1), (2 * pair[1].0, 2 * pair[1].1)];
        let (dx, dy) = (i64::from(x2 - x1), i64::from(y2 - y1));
        let (px, py) = (i64::from(x - x1), i64::from(y - y1));
        let length = dx * dx + dy * dy;
        let reach = i64::from(width * width) * 2;
        let along = (px * dx + py * dy).clamp(0, length);
        if length == 0 {
            return px * px + py * py <= reach;
        }
        // Squared distance to the nearest point of the segment, times `length` squared.
        let (ex, ey) = (px * length - along * dx, py * length - along * dy);
        ex * ex + ey * ey <= reach * length * length
    })
}

fn centre(cell: Cell) -> (i32, i32) {
    (2 * i32::from(cell.x) + 1, 2 * i32::from(cell.y) + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covered(test: impl Fn(Cell) -> bool) -> usize {
        Cell::all().filter(|&cell| test(cell)).count()
    }

    #[test]
    fn a_rectangle_covers_its_area() {
        let polygon = [(10, 10), (14, 10), (14, 13), (10, 13)];
        assert_eq!(covered(|cell| inside(&polygon, cell)), 12);
        let turned: Vec<_> = polygon.iter().rev().copied().collect();
        assert_eq!(covered(|cell| inside(&turned, cell)), 12);
    }

    #[test]
    fn a_triangle_covers_half_its_rectangle() {
        let area = covered(|cell| inside(&[(0, 0), (20, 0), (0, 20)], cell));
        assert!((190..=210).contains(&area), "{area}");
    }

    #[test]
    fn a_strip_has_no_gaps() {
        let slanting = [(3, 5), (40, 29)];
        for x in 4..39 {
            assert!((0..48).any(|y| along(&slanting, 1, Cell { x, y })), "column {x}");
        }
        assert_eq!(covered(|cell| along(&[(0, 10), (72, 10)], 2, cell)), 144);
    }
}
