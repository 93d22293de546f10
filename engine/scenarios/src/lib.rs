//! Scenario files: reading, checking, and the shipped ones.
//!
//! A scenario is a RON file; see `files/` for two to copy. Coordinates are whole inches from the
//! near left corner of the table, `x` to 72, `y` to 48.

mod form;
mod load;
mod shape;
mod shipped;

pub use load::{Scenario, ScenarioError};
pub use shipped::{SHIPPED, shipped};
