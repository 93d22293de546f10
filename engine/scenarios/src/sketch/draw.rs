//! The luck of a sketch: whole numbers from one stream, keyed by all that names the sketch.

use ruleshift_game::luck::{Stream, game_seed};

use super::words::{Mission, Terrain};

/// Keeps the luck of sketches apart from that of games of the same seed.
const SALT: u64 = 0x736b_6574_6368;
/// Which of several streams of one seed: what to draw, and what is drawn.
const CHOICE: u32 = 1000;

/// One stream of draws.
pub(crate) struct Draw(Stream);

impl Draw {
    /// What decides mission and terrain where only a seed is given.
    pub(crate) fn of_seed(seed: u64) -> Draw {
        Draw(Stream::new(game_seed(seed ^ SALT, CHOICE, 0)))
    }

    /// What decides everything else, at one of several tries.
    pub(crate) fn of_try(seed: u64, mission: Mission, terrain: Terrain, attempt: u32) -> Draw {
        let kind = mission as u32 * Terrain::ALL.len() as u32 + terrain as u32;
        Draw(Stream::new(game_seed(seed ^ SALT, kind, attempt)))
    }

    /// A number from `least` to `most`, each as likely; `least` when there is none between.
    pub(crate) fn between(&mut self, least: i32, most: i32) -> i32 {
        let span = (most - least).max(0).unsigned_abs() + 1;
        least + self.0.below(span).cast_signed()
    }

    /// A number from the first to the last of a span.
    pub(crate) fn within(&mut self, [least, most]: [i32; 2]) -> i32 {
        self.between(least, most)
    }

    /// Whether something of so many percent happens.
    pub(crate) fn chance(&mut self, percent: i32) -> bool {
        self.between(1, 100) <= percent
    }

    /// One of some values, which must not be none.
    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.0.below(from.len() as u32) as usize]
    }

    /// Puts values into another order, every order as likely.
    pub(crate) fn shuffle<T>(&mut self, values: &mut [T]) {
        for last in (1..values.len()).rev() {
            values.swap(last, self.0.below(last as u32 + 1) as usize);
        }
    }
}
