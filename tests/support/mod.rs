//! What several test files share.

pub(crate) mod program;
pub(crate) mod repository;
pub(crate) mod run;
pub(crate) mod stage;
pub(crate) mod stats;

pub(crate) use program::{Done, ruleshift, ruleshift_in, unfolded};
pub(crate) use run::Run;
