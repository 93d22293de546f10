//! The rules proved on real games, paragraph by paragraph of `RULES.md`; laws that hold under any
//! rules; and the odds of dice and deck against values worked out elsewhere.

mod house;
mod laws;
mod odds;
mod rules;
mod support;
