//! How often answers about real games are wrong, and how often they are found as promised.
//!
//! Error rates of made luck are measured beside the statistics; here the games are real, and go the
//! way that those of a run go. Usual runs are short, and their bounds wide; `RULESHIFT_TRIALS=20` has
//! twenty times as many games, and `--nocapture` prints what was measured.

#![allow(clippy::print_stdout, reason = "a long run tells what it measured")]

mod equal;
mod handicap;
mod nulls;
mod planted;
mod pool;
mod rate;

pub(crate) use rate::times;
