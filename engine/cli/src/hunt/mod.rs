//! The search for a style that gains from a variant, and the games that judge the one found.

mod conduct;
mod games;
mod recall;
mod search;
mod style;

pub(crate) use conduct::{conduct, new_plan};

/// The style that every other one is measured against, and from which a search starts.
pub(crate) const USUAL: &str = "steady";
