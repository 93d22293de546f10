//! No text makes the loader panic, and whatever loads can be used and played.
//!
//! `PROPTEST_CASES=20000 cargo test -p ruleshift-hooks --test property` tries longer.

mod grammar;
mod grown;
mod random;

/// So many cases, or as many as were asked for.
fn cases(usual: u32) -> u32 {
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|cases| cases.parse().ok());
    asked.unwrap_or(usual)
}
