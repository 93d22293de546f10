//! What `ruleshift check` finds beyond faults, `ruleshift explain` and `ruleshift new`.

mod explain;
mod json;
mod script;
mod shell;
mod stacks;
mod tables;

use std::path::Path;

use crate::support::{Done, ruleshift_in};

/// `check` with these arguments, parted by blanks, in a folder with scripts that have a sound
/// heading.
fn check(scripts: &[(&str, &str)], args: &str) -> Done {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), scripts);
    ruleshift_in(folder.path(), ["check"].into_iter().chain(args.split_whitespace()))
}

fn write(folder: &Path, scripts: &[(&str, &str)]) {
    for (name, body) in scripts {
        let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{body}\n");
        std::fs::write(folder.join(name), text).unwrap();
    }
}

/// A screen without what a change of the rules or of the scenarios would move: the number of hooks
/// and of scenarios, digests, how many games go otherwise.
fn screen(done: Done) -> String {
    let told = done.fine().out;
    let told = told
        .replace(
            &format!("of the {} value hooks", ruleshift_game::HOOKS.len()),
            "of the N value hooks",
        )
        .replace(
            &format!("over {} scenarios", ruleshift_scenarios::SHIPPED.len()),
            "over S scenarios",
        )
        .replace(&format!("{} games", 8 * ruleshift_scenarios::SHIPPED.len()), "8 S games");
    // The last word of the line on trial games may stand on a line of its own.
    let moving = |line: &str| line.contains("trial games over") || line == "  rules.";
    let kept = |line: &&str| !moving(line) && !line.starts_with("  No faults.");
    told.lines().filter(kept).map(|line| format!("{line}\n")).collect()
}
