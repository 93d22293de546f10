//! What a check finds, as data and as text.

mod did;
mod finding;
mod games;
mod table;
mod text;

pub(crate) use finding::{Document, Finding, find};
pub(crate) use games::TrialGround;
pub(crate) use text::{explain_line, text};
