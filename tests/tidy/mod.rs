//! Layout, arrows between crates, sizes, words that must not appear, what comes from outside.

mod arrows;
mod layout;
mod pages;
mod size;
mod supply;
mod words;

use crate::support::repository;

/// Rust files with their text.
fn sources() -> Vec<(String, String)> {
    let rust = |path: &String| path.ends_with(".rs");
    repository::files()
        .into_iter()
        .filter(rust)
        .map(|p| (p.clone(), repository::text(&p)))
        .collect()
}

/// Asserts that a list of complaints is empty.
#[track_caller]
fn none(complaints: &[String]) {
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}
