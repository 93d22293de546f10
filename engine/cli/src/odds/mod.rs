//! Exact chances under a rule stack, beside those under the base rules: by enumeration and
//! convolution over the answers of the hooks, never by simulation.

mod assault;
mod chances;
mod deck;
mod dice;
mod document;
mod fire;
mod fraction;
mod movement;
mod page;
mod ranges;
mod scatter;
mod scene;
mod spotting;
mod topic;
mod typed;

pub(crate) use dice::{hits, two_reach};
pub(crate) use document::Document;
pub(crate) use fraction::{Fraction, decimal};
pub(crate) use page::text;
pub(crate) use topic::Odds;
pub(crate) use typed::Wanted;
