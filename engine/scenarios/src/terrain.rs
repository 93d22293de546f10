//! From pieces of terrain to the ground of every square.

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Cell, Ground};

use crate::build::Build;
use crate::form::PieceForm;
use crate::shape::{along, inside};

/// Later pieces lie on top of earlier ones.
pub(crate) fn ground(pieces: &[PieceForm], build: &mut Build) -> Vec<Ground> {
    let mut ground = vec![Ground::Open; Cell::all().count()];
    for (n, piece) in pieces.iter().enumerate() {
        let place = format!("terrain, piece {}", n + 1);
        // Off the table numbers may be too large to reckon with.
        let on_table = check(piece, &place, build);
        if !(1..=10).contains(&piece.width) {
            build.fault(&place, format_args!("width {}, expected 1 to 10", piece.width));
            continue;
        }
        if !on_table {
            continue;
        }
        let covers = |cell| inside(&piece.area, cell) || along(&piece.line, piece.width, cell);
        for cell in Cell::all().filter(|&cell| covers(cell)) {
            ground[cell.index()] = piece.kind.into();
        }
    }
    ground
}

/// Whether all its points are on the table.
fn check(piece: &PieceForm, place: &str, build: &mut Build) -> bool {
    let mut on_table = true;
    for &point in piece.area.iter().chain(&piece.line) {
        if !(0..=i32::from(WIDTH)).contains(&point.0) || !(0..=i32::from(HEIGHT)).contains(&point.1)
        {
            on_table = false;
            build.fault(
                place,
                format_args!("{point:?} is off the table, expected 0 to {WIDTH} and 0 to {HEIGHT}"),
            );
        }
    }
    let shaped = piece.area.len() >= 3 && piece.line.is_empty()
        || piece.line.len() >= 2 && piece.area.is_empty();
    if !shaped {
        build.fault(place, "expected an `area` of 3 points or more, or a `line` of 2 or more");
    }
    on_table
}
