//! What `ruleshift check` finds beyond faults, `ruleshift explain` and `ruleshift new script`.

mod explain;
mod json;
mod script;
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

/// A screen without the number of hooks, which grows.
fn screen(done: Done) -> String {
    let all = format!("of the {} value hooks", ruleshift_game::HOOKS.len());
    done.fine().out.replace(&all, "of the N value hooks")
}
