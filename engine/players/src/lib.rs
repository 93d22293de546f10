//! Computer players: doctrines as data, choosing from what one side knows.
//!
//! Every score asks the rules through their hooks, so a player plays the game a variant makes, not
//! the one it was written for. All arithmetic is in integers: a choice is part of a game's result.

mod answering;
mod batteries;
mod chance;
mod close;
mod doctrine;
mod forecast;
mod goal;
mod ground;
mod guns;
mod looking;
mod nearest;
mod planner;
mod restrict;
mod shooting;
mod spec;
mod staying;
mod strategy;
mod utility;
mod weighing;
mod weights;

pub use chance::Chance;
pub use doctrine::{CHANCE, Doctrine, DoctrineError, shipped};
pub use forecast::Forecast;
pub use planner::{Planner, Planning};
pub use restrict::{Behaviour, Restricted};
pub use spec::PlayerSpec;
pub use strategy::{MakeScript, PLANNER, Strategy, WEIGHTS, behaviours};
pub use utility::Utility;
pub use weighing::{Score, Weighing};
pub use weights::Weights;

use ruleshift_game::Rules;

/// A player of `doctrine` under `rules`, ready for any number of games.
pub fn player(doctrine: &Doctrine, rules: &Rules) -> Box<dyn Weighing> {
    match &doctrine.weights {
        Some(weights) => Box::new(Utility::new(weights.clone(), rules)),
        None => Box::new(Chance),
    }
}
