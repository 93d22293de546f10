//! Words that must not appear.

use super::{none, sources};
use crate::support::repository;

/// Words are given in two parts, so that this file does not hold them.
fn joined(parts: &[(&str, &str)]) -> Vec<String> {
    parts.iter().map(|(a, b)| format!("{a}{b}")).collect()
}

#[test]
fn nothing_is_left_to_do_or_skipped() {
    let words = joined(&[
        ("to", "do!("),
        ("unimple", "mented!("),
        ("#[ign", "ore"),
        ("db", "g!("),
        ("TO", "DO"),
        ("FIX", "ME"),
        ("un", "safe {"),
        ("un", "safe fn"),
        ("un", "safe impl"),
    ]);
    let mut complaints = Vec::new();
    for (path, text) in sources() {
        for word in words.iter().filter(|word| text.contains(*word)) {
            complaints.push(format!("{path}: {word}"));
        }
    }
    none(&complaints);
}

/// A path of one machine means nothing on another.
#[test]
fn no_source_names_a_path_of_one_machine() {
    let words =
        joined(&[("/wo", "rk/"), ("/ro", "ot/"), ("/ho", "me/"), ("/tm", "p/"), ("C:", "\\\\")]);
    let kinds = [".rs", ".toml", ".md", ".rhai", ".ron", ".html", ".css"];
    let mut complaints = Vec::new();
    for path in repository::files() {
        let test = path.starts_with("tests/") || path.contains("/tests/");
        if test || !kinds.iter().any(|kind| path.ends_with(kind)) {
            continue;
        }
        let text = repository::text(&path);
        for word in words.iter().filter(|word| text.contains(*word)) {
            complaints.push(format!("{path}: {word}"));
        }
    }
    none(&complaints);
}

/// Tests use temporary folders of their own.
#[test]
fn no_test_names_a_folder_of_this_machine() {
    let words = joined(&[("\"/wo", "rk/"), ("\"/ro", "ot/"), ("\"/ho", "me/"), ("\"/tm", "p/")]);
    let tests = sources().into_iter().filter(|(path, _)| path.contains("tests/"));
    let named = |(path, text): (String, String)| {
        words.iter().find(|word| text.contains(*word)).map(|word| format!("{path}: {word}"))
    };
    none(&tests.filter_map(named).collect::<Vec<_>>());
}

/// A page that was made from a form has had every gap filled.
#[test]
fn no_page_has_a_gap() {
    let gap = |path: &String| {
        let text = repository::text(path);
        let word = text.split_whitespace().find(|word| {
            let inner =
                word.strip_prefix('@').and_then(|w| w.strip_suffix('@')).unwrap_or_default();
            !inner.is_empty() && inner.chars().all(|c| c.is_ascii_uppercase() || c == '_')
        });
        word.map(|word| format!("{path}: {word}"))
    };
    let pages: Vec<String> =
        repository::files().into_iter().filter(|p| p.ends_with(".md")).collect();
    none(&pages.iter().filter_map(gap).collect::<Vec<_>>());
}
