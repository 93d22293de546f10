//! Where two games with the same luck part, and what made them.

mod makers;
mod meeting;
mod trace;

pub(crate) use meeting::Meeting;
