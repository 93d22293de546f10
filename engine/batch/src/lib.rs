//! Many games, any number of threads, the same result.
//!
//! Knows the rules of the game and the types of a record; players and house rules come in through
//! the traits of the game crate.

mod blow;
mod cast;
mod collect;
mod play;
mod run;

pub use blow::{Blow, Doer, Weapon};
pub use cast::{ArmCast, Cast, PlayerMaker, Progress, ScriptMaker, Seat};
pub use collect::{CERTAIN, Collector, attacker_chance};
pub use play::{GameEnd, GameId, play_one};
pub use run::{Leg, Ways, play, run, run_on};
