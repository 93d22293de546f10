//! A part of a run in a file of its own, so that many machines can play one plan.
//!
//! A shard holds the games of some blocks of a plan that follow each other, in the order of the blocks,
//! as a table like that of a whole run. The file is named by its blocks and by a hash of its bytes:
//! whoever finds it can tell at once what it holds and whether it is whole, and two results for the
//! same blocks never take each other's name. Any cut of a plan into shards gives the same run.

mod cover;
mod name;
mod read;
#[cfg(test)]
mod tests;
mod write;

pub use self::cover::{CoverError, cover, uncovered};
pub use self::name::{ShardName, share};
pub use self::read::Shard;
pub use self::write::ShardWriter;

/// Names of what a shard says of itself, besides what every table of games says.
mod notes {
    /// The blocks it holds, `first..end`.
    pub(super) const BLOCKS: &str = "ruleshift.blocks";
    /// Arms that stopped in it, as JSON.
    pub(super) const FAULTS: &str = "ruleshift.faults";
}
