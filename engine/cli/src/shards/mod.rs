//! Parts of a plan that are played apart and put together, in files.
//!
//! Shards lie in `shards` in the folder of the run. Files are the truth: what is there and whole is
//! played, whatever a scheduler believes. A shard is written under a name of its own until it is whole,
//! so a part may be played twice at once, killed at any moment, and played again.

mod apart;
mod find;
mod place;

pub(crate) use self::apart::{blocks_of, no_plan, planned_in};
pub(crate) use self::find::{Found, check_plan, entries, find};
pub(crate) use self::place::{HALF, Half, beside, host_of, note_owner, settle};

/// The folder of the shards in the folder of a run.
pub(crate) const SHARDS: &str = "shards";
