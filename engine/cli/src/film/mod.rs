//! Films of games: what `reports` shows on a page, taken while a game is played.

mod camera;
mod cast;
mod reel;
mod seen;
#[cfg(test)]
mod tests;

pub(crate) use camera::{Camera, Take};
pub(crate) use cast::film;
pub(crate) use reel::reel;
