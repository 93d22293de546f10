//! No text makes the loader panic, and whatever loads can be used and played.
//!
//! `PROPTEST_CASES=20000 cargo test -p ruleshift-hooks --test property` tries longer.

mod grammar;
mod grown;
mod random;
