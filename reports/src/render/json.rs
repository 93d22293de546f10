//! The answer as JSON, for programs.

use serde::Serialize;

/// The summary of a run or a hunt, indented; a number that is not finite prints as `null`.
pub fn json(summary: &impl Serialize) -> String {
    let text = serde_json::to_string_pretty(summary).expect("a summary holds only plain data");
    text + "\n"
}
