//! Small scenes to play in, players to play them, and what was seen.

mod battle;
mod drill;
mod forces;
mod measure;
mod player;
mod record;
mod scene;
mod skirmish;

pub(crate) use battle::battle;
pub(crate) use drill::drill;
pub(crate) use forces::{PLATE, of, tank, vehicle, with_gun};
pub(crate) use measure::{Odds, eighths, fixed, two_dice, way};
pub(crate) use player::{By, Lively, idle, opener, shooter, wish};
pub(crate) use record::{Record, Watch};
pub(crate) use scene::{Ready, Scene, leader, unit};
pub(crate) use skirmish::{ask, ask_ready, ask_scene, skirmish, watch, watch_scene};
