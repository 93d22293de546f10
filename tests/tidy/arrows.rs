//! Which crate may use which.

use crate::support::repository;

use super::{none, sources};

/// Crates of the workspace and, among them, what each may use outside its tests.
const ARROWS: [(&str, &[&str]); 8] = [
    ("engine/game", &[]),
    ("engine/scenarios", &["game"]),
    ("engine/hooks", &["game"]),
    ("engine/players", &["game"]),
    ("engine/record", &[]),
    ("engine/batch", &["game", "record"]),
    ("reports", &["record"]),
    ("engine/cli", &["game", "scenarios", "hooks", "players", "record", "batch", "reports"]),
];

/// Names under `[dependencies]` of a manifest.
fn dependencies(folder: &str) -> Vec<String> {
    let manifest = repository::text(&format!("{folder}/Cargo.toml"));
    let lines = manifest.lines().skip_while(|line| line.trim() != "[dependencies]").skip(1);
    let lines = lines.take_while(|line| !line.starts_with('['));
    let name = |line: &str| line.split(['.', '=', ' ']).next().unwrap_or_default().to_owned();
    lines.filter(|line| !line.is_empty() && !line.starts_with('#')).map(name).collect()
}

#[test]
fn crates_use_only_what_they_may() {
    let mut complaints = Vec::new();
    for (folder, allowed) in ARROWS {
        for used in dependencies(folder) {
            let own = used.strip_prefix("ruleshift-");
            if own.is_some_and(|own| !allowed.contains(&own)) {
                complaints.push(format!("{folder} may not use {used}"));
            }
        }
    }
    none(&complaints);
}

/// The rules of the game use no library but the traits of `rand`; only `engine/hooks` knows the
/// script language, only `engine/batch` threads, only `engine/cli` a terminal.
#[test]
fn libraries_stay_where_they_belong() {
    assert_eq!(dependencies("engine/game"), ["rand"]);
    let homes = [
        ("rhai", "engine/hooks"),
        ("rayon", "engine/batch"),
        ("clap", "engine/cli"),
        ("indicatif", "engine/cli"),
        ("csv", "engine/record"),
        ("plotters", "reports"),
        ("minijinja", "reports"),
        ("statrs", "reports"),
    ];
    let mut complaints = Vec::new();
    for (folder, _) in ARROWS {
        let strange = |&&(library, home): &&(&str, &str)| {
            folder != home && dependencies(folder).iter().any(|used| used == library)
        };
        complaints.extend(
            homes.iter().filter(strange).map(|(library, _)| format!("{folder}: {library}")),
        );
    }
    none(&complaints);
}

/// What a folder's sources must not contain. A comment that names one is no use of it.
const ABSENT: [(&str, &[&str]); 5] = [
    (
        "engine/game/src/",
        &["rhai", "std::fs", "std::time", "std::thread", "std::env", "f32", "f64"],
    ),
    ("engine/game/", &["HashMap", "HashSet"]),
    ("engine/hooks/", &["HashMap", "HashSet"]),
    ("engine/players/", &["HashMap", "HashSet", "f32", "f64"]),
    ("engine/batch/src/", &["HashMap", "HashSet", "std::fs", "Instant", "SystemTime"]),
];

#[test]
fn sources_do_not_contain_what_would_break_sameness() {
    let mut complaints = Vec::new();
    let all = sources();
    for (path, text) in all.iter().filter(|(path, _)| !only_for_tests(path, &all)) {
        let words =
            ABSENT.iter().filter(|(folder, _)| path.starts_with(folder)).flat_map(|(_, w)| *w);
        for word in words {
            let uses = |line: &&str| !line.trim_start().starts_with("//") && has_word(line, word);
            if let Some(line) = text.lines().find(uses) {
                complaints.push(format!("{path}: `{word}` in: {}", line.trim()));
            }
        }
    }
    none(&complaints);
}

/// Whether a file is a module that its parent has for tests only.
fn only_for_tests(path: &str, all: &[(String, String)]) -> bool {
    let Some((folder, file)) = path.rsplit_once('/') else { return false };
    let module = format!("#[cfg(test)]\nmod {};", file.trim_end_matches(".rs"));
    let parents = [format!("{folder}.rs"), format!("{folder}/mod.rs"), format!("{folder}/lib.rs")];
    all.iter().any(|(path, text)| parents.contains(path) && text.contains(&module))
}

/// Whether `word` stands in `line` and is not a part of a longer one.
fn has_word(line: &str, word: &str) -> bool {
    let part = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || c == '_');
    line.match_indices(word).any(|(at, _)| {
        !part(line[..at].chars().next_back()) && !part(line[at + word.len()..].chars().next())
    })
}

#[test]
fn a_word_is_found_whole_only() {
    assert!(has_word("let x: f64 = 1.0;", "f64") && has_word("f32", "f32"));
    assert!(!has_word("let f64_count = buf32;", "f64") && !has_word("buf32", "f32"));
}
