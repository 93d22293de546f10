//! Small scenes to play in, players to play them, and what was seen.

mod player;
mod record;
mod scene;
mod skirmish;

pub(crate) use player::{By, Lively, idle, opener, shooter, wish};
pub(crate) use record::{Record, Watch};
pub(crate) use scene::{Ready, Scene, leader, unit};
pub(crate) use skirmish::{ask, skirmish, watch, watch_scene};
