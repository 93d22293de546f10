//! Everything that can be typed or written wrongly, and what is said about it.
//!
//! Exit codes are those of `ruleshift --help`: 1 a check failed, 2 something typed is wrong,
//! 3 a file cannot be read or written.

mod interrupt;
mod malformed;
mod midway;
mod resume;
mod scripts;
mod tickets;
mod typed;

use std::path::{Path, PathBuf};

const CHECK: i32 = 1;
const INPUT: i32 = 2;
const FILE: i32 = 3;

/// A file in a folder of its own.
fn file(folder: &Path, name: &str, text: &str) -> PathBuf {
    let path = folder.join(name);
    std::fs::write(&path, text).unwrap();
    path
}

/// A script with a sound heading.
fn script(folder: &Path, name: &str, body: &str) -> String {
    let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{body}\n");
    file(folder, name, &text).to_string_lossy().into_owned()
}
