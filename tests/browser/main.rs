//! The pages that the program writes, in a browser: Chromium without a window, driven through its own
//! protocol for tools.
//!
//! - `opens`: every page opens from a file, complains of nothing and asks for nothing
//! - `widths`: every page fits a telephone, a tablet and a screen; on paper, no control and nothing cut
//! - `access`: rules of access for all, by axe-core, light and dark
//! - `sorting`: tables of a report sort by mouse and keys
//! - `viewer`: a game on the table is the game that was played, and gets to every moment
//! - `pictures`: what README shows of the pages; `.ci/pictures` makes them
//!
//! Without Chromium, or without axe-core for its tests, they are skipped with a word on standard error;
//! with `RULESHIFT_BROWSER_MUST` set, that is a failure. `.ci/run` installs both and sets it.

mod access;
mod chromium;
mod film;
mod opens;
mod pages;
mod pictures;
mod sorting;
mod support;
mod tab;
mod viewer;
mod widths;
mod wire;

/// Whether the tests must run, and may not be skipped.
fn must() -> bool {
    std::env::var_os("RULESHIFT_BROWSER_MUST").is_some()
}

/// Says that something is skipped for want of something; where tests must run, fails instead.
#[track_caller]
fn skip(missing: &str, remedy: &str) {
    assert!(!must(), "{missing}: {remedy}");
    use std::io::Write;
    // Past the capture of the test harness, which would hide it.
    let _ = writeln!(std::io::stderr(), "SKIPPED, {missing}: {remedy}");
}
