//! `ruleshift odds` against the engine: exact chances that the program tells, against how often
//! things come about in games of the engine itself, under the base rules and under stacks that
//! change what each topic asks.
//!
//! Seeds are fixed. Each count is held within 4 standard errors of what is expected, which a sound
//! program fails with a chance of 6 in 100,000, at the first writing of a seed only.

mod assault;
mod deck;
mod fire;
mod movement;
mod page;
mod scatter;
mod scene;
mod sheet;
mod spotting;
mod typed;
