//! Laws that hold whatever the rules say and whoever plays.

mod conservation;
mod copies;
mod legality;
mod luck;
mod offered;
mod random_rules;
mod scenes;

pub(crate) use conservation::Laws;
pub(crate) use random_rules::judged;
pub(crate) use scenes::scene;
