//! Invented names of places and forces.

use super::draw::Draw;

const HEADS: [&str; 18] = [
    "Brask", "Corv", "Drel", "Elst", "Fenn", "Gral", "Hask", "Ister", "Kest", "Lorm", "Morv",
    "Nesk", "Orst", "Prell", "Rusk", "Skarn", "Tarv", "Ulver",
];
const TAILS: [&str; 12] =
    ["beck", "dale", "en", "ford", "gard", "holm", "itz", "mere", "nau", "ova", "rode", "wick"];
const FORCES: [&str; 10] = [
    "Marsh Regiment",
    "Fen Guards",
    "Ford Brigade",
    "Lowland Rifles",
    "Heath Regiment",
    "Lake Brigade",
    "Quarry Rifles",
    "Dune Regiment",
    "River Guards",
    "Moor Brigade",
];

/// A place.
pub(crate) fn place(draw: &mut Draw) -> String {
    format!("{}{}", draw.pick(&HEADS), draw.pick(&TAILS))
}

/// Two forces, never the same.
pub(crate) fn forces(draw: &mut Draw) -> [&'static str; 2] {
    let mut forces = FORCES;
    draw.shuffle(&mut forces);
    [forces[0], forces[1]]
}
