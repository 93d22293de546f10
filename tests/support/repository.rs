//! The files of the repository.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The root of the repository.
pub(crate) fn root() -> PathBuf {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    tests.parent().expect("the tests lie in a folder of the root").to_owned()
}

/// The text of one file, by its path from the root.
#[track_caller]
pub(crate) fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// Paths from the root of all files that belong to the repository, in order.
pub(crate) fn files() -> Vec<String> {
    let listed =
        Command::new("git").args(["ls-files", "--deduplicate"]).current_dir(root()).output();
    let mut files = match listed {
        Ok(output) if output.status.success() => {
            String::from_utf8_lossy(&output.stdout).lines().map(str::to_owned).collect()
        }
        _ => walk(&root()),
    };
    files.retain(|file| root().join(file).is_file());
    files.sort();
    files
}

/// Without git, as in an unpacked archive: everything but what a build and a run leave.
fn walk(folder: &Path) -> Vec<String> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("the folder can be read").flatten() {
        let path = entry.path();
        let shown = path.strip_prefix(root()).expect("it lies below the root");
        if ["target", "runs", ".git"].iter().any(|skipped| shown == Path::new(skipped)) {
            continue;
        }
        if path.is_dir() {
            files.extend(walk(&path));
        } else {
            files.push(shown.to_string_lossy().replace('\\', "/"));
        }
    }
    files
}
