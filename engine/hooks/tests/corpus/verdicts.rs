//! What strangers may send: each script is judged, and judged alike by every build.
//!
//! The scripts are in `hostile`; the verdicts on them and on those in `broken` are in
//! `verdicts.txt`, which `RULESHIFT_BLESS=1 cargo test -p ruleshift-hooks --test corpus` writes
//! anew. The file is the same for a build with and without optimisation:
//! `CARGO_PROFILE_TEST_OPT_LEVEL=0` and `--release` compare with it too.

use std::fmt::Write;
use std::path::PathBuf;
use std::{env, fs};

use crate::scripts::files;

/// Longest text about one fault.
const LONGEST: usize = 4_000;
/// Scripts of these files may be fit for use; all others of `hostile` must not.
const FIT: &str = "harmless";
const EITHER: &str = "either";

fn verdicts() -> String {
    let mut text = String::new();
    for folder in ["broken", "hostile"] {
        for (file, scripts) in files(folder) {
            let _ = writeln!(text, "\n{folder}/{file}");
            for script in scripts {
                let _ = writeln!(text, "{}: {}", script.title, script.verdict());
            }
        }
    }
    text
}

#[test]
fn every_build_judges_alike() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/corpus/verdicts.txt");
    let verdicts = verdicts();
    if env::var_os("RULESHIFT_BLESS").is_some() {
        fs::write(&path, &verdicts).unwrap();
    }
    let stored = fs::read_to_string(&path).unwrap_or_default().replace("\r\n", "\n");
    for (now, before) in verdicts.lines().zip(stored.lines()) {
        assert_eq!(now, before);
    }
    assert_eq!(verdicts.lines().count(), stored.lines().count());
}

#[test]
fn no_hostile_script_is_fit_for_use() {
    for (file, scripts) in files("hostile") {
        for script in scripts.iter().filter(|_| file != EITHER) {
            let told = script.told();
            // What the made-up game refuses is a warning: a real game stops.
            let refused = told.list().iter().any(|fault| fault.id.text() == "refused");
            assert_eq!(told.is_empty(), file == FIT, "{file}: {}\n{told}", script.title);
            assert!(told.errors() > 0 || refused || file == FIT, "{file}: {}", script.title);
        }
    }
}

/// However long the names and lines of a script: what is said of it stays readable.
#[test]
fn what_is_told_stays_bounded() {
    for (file, scripts) in files("hostile") {
        for script in scripts {
            let told = script.told();
            let length = told.render(true).chars().count() / told.list().len().max(1);
            assert!(length <= LONGEST, "{file}: {} takes {length} characters", script.title);
            let steered = told.render(false).contains('\u{1b}');
            assert!(!steered, "{file}: {} reaches the terminal", script.title);
        }
    }
}

/// The script that is at every limit is at the longest allowed length too.
#[test]
fn the_longest_script_is_tried() {
    let (_, harmless) = files("hostile").into_iter().find(|(file, _)| file == FIT).unwrap();
    let longest = harmless.iter().map(|script| script.text.len()).max();
    assert_eq!(longest, Some(ruleshift_hooks::limits::MAX_SCRIPT));
}
