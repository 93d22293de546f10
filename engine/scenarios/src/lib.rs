//! Scenario files: reading, checking, and the shipped ones; force lists and the armoury they draw
//! on.
//!
//! A scenario is a RON file; see `files/` for some to copy. Coordinates are whole inches from the
//! near left corner of the table, `x` to 72, `y` to 48. A group lists its units or takes them from
//! a force list of `forces/`.

mod armoury;
mod build;
mod catalogue;
mod choices;
mod digest;
mod form;
mod groups;
mod library;
mod lists;
mod load;
mod names;
mod nearest;
mod origin;
mod reinforce;
mod shape;
mod shipped;
mod sides;
mod sketch;
mod support;
mod terrain;
#[cfg(test)]
mod tests;
mod text;
mod units;
mod weapons;

pub use armoury::{Armoury, GunEntry, VehicleClass};
pub use catalogue::{FORCE_HEADS, ForceSummary, force_list, force_lists};
pub use choices::choices;
pub use library::armoury;
pub use lists::{ForceList, Others, Part, Published};
pub use load::{Scenario, ScenarioError};
pub use origin::Confidence;
pub use shipped::{SHIPPED, shipped};
pub use sketch::{
    MOST_SKETCHES, Mission, Rejection, Sketch, SketchError, Sketched, Terrain, named, several,
};
pub use support::{Support, parted};
pub use weapons::{AssaultRow, FireRow, WeaponTable, weapons};
