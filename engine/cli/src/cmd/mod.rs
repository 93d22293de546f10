//! One file for each command.

pub(crate) mod check;
pub(crate) mod clean;
pub(crate) mod cluster;
pub(crate) mod compare;
pub(crate) mod cross;
pub(crate) mod diverge;
pub(crate) mod explain;
pub(crate) mod handicap;
pub(crate) mod hunt;
pub(crate) mod ladder;
pub(crate) mod list;
pub(crate) mod merge;
pub(crate) mod missing;
pub(crate) mod new;
pub(crate) mod odds;
pub(crate) mod replay;
pub(crate) mod resume;
pub(crate) mod run;
pub(crate) mod shard;
pub(crate) mod sweep;
pub(crate) mod tune;
