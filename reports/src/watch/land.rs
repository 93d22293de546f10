//! The ground as a picture: areas with smoothed outlines.

use std::fmt::Write;

use contour::ContourBuilder;
use serde::Serialize;

use super::film::Land;

/// Kinds of ground that are long and thin: squares of theirs that touch at a corner belong together.
const THIN: [&str; 8] = ["road", "hedge", "wall", "stream", "ford", "bridge", "trench", "wire"];

/// All ground of one kind.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Patch {
    /// The kind, as a word for style sheets.
    pub(super) kind: String,
    /// The outlines, in inches, the far edge on top.
    pub(super) path: String,
    /// Lines that join what touches at a corner; empty for kinds that are not thin.
    pub(super) joints: String,
}

/// The picture of `land`, thin kinds on top.
pub(super) fn picture(land: &Land) -> Vec<Patch> {
    let kinds = (0u8..).zip(&land.kinds).filter(|(_, kind)| *kind != "open");
    let patch = |(n, kind): (u8, &String)| {
        let path = outline(land, n);
        let joints = if THIN.contains(&kind.as_str()) { joints(land, n) } else { String::new() };
        (!path.is_empty()).then(|| Patch { kind: kind.replace(' ', "-"), path, joints })
    };
    let mut patches: Vec<Patch> = kinds.filter_map(patch).collect();
    patches.sort_by_key(|patch| THIN.contains(&patch.kind.as_str()));
    patches
}

/// The outlines of all squares of a kind, corners cut.
fn outline(land: &Land, kind: u8) -> String {
    // Rows of the picture begin at the far edge.
    let rows = land.squares.chunks(land.width.max(1)).rev().flatten();
    let values: Vec<f64> = rows.map(|&square| f64::from(square == kind)).collect();
    let contours = ContourBuilder::new(land.width, land.height, true).contours(&values, &[0.5]);
    let mut path = String::new();
    for polygon in contours.iter().flatten().flat_map(|contour| contour.geometry()) {
        for ring in std::iter::once(polygon.exterior()).chain(polygon.interiors()) {
            for (n, point) in ring.points().enumerate() {
                let letter = if n == 0 { 'M' } else { 'L' };
                push(&mut path, format_args!("{letter}{} {}", point.x(), point.y()));
            }
            path.push('Z');
        }
    }
    path
}

/// Lines from square to square of a kind that touch at a corner and nowhere else.
fn joints(land: &Land, kind: u8) -> String {
    let is =
        |x: usize, y: usize| x < land.width && land.squares.get(y * land.width + x) == Some(&kind);
    let mut path = String::new();
    for (x, y) in (0..land.height).flat_map(|y| (0..land.width).map(move |x| (x, y))) {
        if !is(x, y) || is(x, y + 1) {
            continue;
        }
        let right = is(x + 1, y + 1) && !is(x + 1, y);
        let left = x > 0 && is(x - 1, y + 1) && !is(x - 1, y);
        for way in [(right, "1"), (left, "-1")].iter().filter(|(there, _)| *there) {
            let (row, dx) = (land.height - 1 - y, way.1);
            push(&mut path, format_args!("M{x}.5 {row}.5l{dx} -1"));
        }
    }
    path
}

/// Adds formatted text; writing to a string cannot fail.
fn push(path: &mut String, text: std::fmt::Arguments) {
    let _ = path.write_fmt(text);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn land(kind: &str, squares: &[u8]) -> Land {
        let kinds = vec!["open".to_owned(), kind.to_owned()];
        Land { width: 3, height: squares.len() / 3, kinds, squares: squares.to_vec() }
    }

    /// By hand: a square in the middle is cut to a diamond through the middles of its edges.
    #[test]
    fn an_area_has_an_outline_with_its_corners_cut() {
        let wood = picture(&land("wood", &[0, 0, 0, 0, 1, 0, 0, 0, 0]));
        assert_eq!((wood.len(), &*wood[0].kind, &*wood[0].joints), (1, "wood", ""));
        let mut points: Vec<&str> =
            wood[0].path.trim_end_matches('Z').split(['M', 'L']).skip(1).collect();
        points.sort_unstable();
        points.dedup();
        assert_eq!(points, ["1 1.5", "1.5 1", "1.5 2", "2 1.5"]);
    }

    #[test]
    fn thin_ground_is_joined_at_corners_and_the_far_edge_is_on_top() {
        let joints = |kind, squares| picture(&land(kind, squares))[0].joints.clone();
        assert_eq!(joints("road", &[1, 1, 0, 0, 0, 1]), "M1.5 1.5l1 -1");
        assert_eq!(joints("wall", &[0, 1, 0, 1, 0, 0]), "M1.5 1.5l-1 -1");
        assert_eq!(joints("wall", &[1, 1, 0, 0, 1, 1]), "", "they share an edge");
        assert_eq!(joints("wood", &[1, 1, 0, 0, 0, 1]), "", "not a thin kind");
    }

    #[test]
    fn open_ground_and_no_ground_have_no_picture() {
        assert_eq!(picture(&land("wood", &[0; 9])), []);
        assert_eq!(picture(&Land::default()), []);
    }
}
