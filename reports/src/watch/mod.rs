//! Games to be watched: what happened in them as data, and the page that shows it.

mod divergence;
mod film;
mod land;
mod page;

pub use divergence::{Divergence, Parted, build_divergence, outcomes};
pub use film::{
    Dice, Film, GroupCard, Happened, Land, Line, MarkerCard, MarkerNow, Parting, Reel, Spot, Step,
    Stroke, UnitCard, UnitNow,
};
pub use page::watch_page;
