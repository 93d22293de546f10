//! Where the games of a run go as they are played.

use super::{Played, StoppedArm};

/// Takes blocks of a plan one after the other.
pub trait Keep: Send {
    /// The number of the block that comes next.
    fn next(&self) -> usize;

    /// Keeps that block.
    ///
    /// # Errors
    /// Why it cannot be kept: those before it are.
    fn keep(&mut self, played: &Played) -> Result<(), String>;

    /// Faults met so far: at least the first one of each arm.
    fn stopped(&self) -> Vec<StoppedArm>;
}
