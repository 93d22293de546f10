//! Running the program, shared with the suite.

#![allow(dead_code, reason = "the suite uses all of it, these tests a part")]

#[path = "../support/program.rs"]
pub(crate) mod program;
#[path = "../support/repository.rs"]
pub(crate) mod repository;

pub(crate) use program::ruleshift;
