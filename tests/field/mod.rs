//! The base game against the trade: fire, spotting, forces, will, fairness.
//!
//! `cargo test -p ruleshift-tests field -- --nocapture` prints the calibration table, the table of
//! the shipped scenarios and what is used in them. `list` names all checks.
//!
//! Each check names its source and how that is known: S read at the source, C computed, M from
//! memory, P common practice. Only exact checks and directions whose source is S or C may fail a
//! test; everything else is a row of the calibration table, printed by every run with its range.
//! Dupuy's verities: T. N. Dupuy, Understanding War (1987). Directions must hold by 3 standard
//! errors; seeds are fixed.

mod armour;
mod batteries;
mod cards;
mod course;
mod crossing;
mod dusk;
mod fairness;
mod fire;
mod flanks;
mod forces;
mod given;
mod list;
mod measured;
mod organisation;
mod pace;
mod shipped;
mod sighting;
mod skill;
mod table;
mod uses;
mod will;

use crate::support::stats::{Sample, above};

/// Standard errors that make a direction certain enough.
const SURE: f64 = 3.0;

/// Asserts that the first sample's mean is above the second's beyond doubt.
#[track_caller]
fn surely_above(what: &str, first: &Sample, second: &Sample) {
    assert!(first.count > 30.0 && second.count > 30.0, "{what}: too few cases");
    let errors = above(first, second);
    let (one, two) = (first.mean(), second.mean());
    assert!(errors > SURE, "{what}: {one:.4} should be above {two:.4}, {errors:.1} errors");
}
