//! One finished game.

use crate::{Metric, Values};

/// Which game of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GameKey {
    /// Index into the plan's arms.
    pub arm: usize,
    /// Index into the plan's scenarios.
    pub scenario: usize,
    /// Number of the game within its arm and scenario, from 0.
    pub game: u32,
}

/// What one finished game says: which it was, every metric, and how the margin went.
#[derive(Clone, Debug, PartialEq)]
pub struct GameRow {
    /// Index into the plan's arms.
    pub arm: usize,
    /// Index into the plan's scenarios.
    pub scenario: usize,
    /// Number of the game within its arm and scenario, from 0.
    pub game: u32,
    /// Seed of the game's luck: the same in every arm, so games pair up by it.
    pub seed: u64,
    /// Digest of the game's event stream.
    pub digest: u64,
    /// The metrics.
    pub values: Values,
    /// The attacker's points less the defender's at the end of each turn played, the last one with
    /// all that counts at the end.
    pub margins: Vec<i16>,
}

impl GameRow {
    /// Which game of the plan it was.
    pub fn key(&self) -> GameKey {
        GameKey { arm: self.arm, scenario: self.scenario, game: self.game }
    }

    /// The value of one metric.
    pub fn get(&self, metric: Metric) -> f64 {
        self.values[metric as usize]
    }
}
