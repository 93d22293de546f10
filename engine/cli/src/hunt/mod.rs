//! The search for a style that gains from a variant.

pub(crate) mod games;
pub(crate) mod search;
pub(crate) mod style;
