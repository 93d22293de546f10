//! Files and functions stay small.

use super::{none, sources};

const FILE: usize = 400;
const FUNCTION: usize = 70;
/// Longer files: closed tables of one entry after the other, of which a reader looks one up.
const TABLES: [&str; 2] = ["engine/game/src/event.rs", "engine/game/src/manifest.rs"];

#[test]
fn files_have_at_most_400_lines() {
    let long = |(path, text): &(String, String)| {
        let lines = text.lines().count();
        (lines > FILE && !TABLES.contains(&path.as_str())).then(|| format!("{path}: {lines} lines"))
    };
    none(&sources().iter().filter_map(long).collect::<Vec<_>>());
}

#[test]
fn functions_have_at_most_70_lines() {
    let mut complaints = Vec::new();
    for (path, text) in sources() {
        for (name, lines) in functions(&text) {
            if lines > FUNCTION {
                complaints.push(format!("{path}: `{name}` has {lines} lines"));
            }
        }
    }
    none(&complaints);
}

/// Name and length of each function: formatted code closes a body under its first letter. Lines of
/// a raw text, such as a snapshot, are data and do not count.
fn functions(text: &str) -> Vec<(String, usize)> {
    let lines: Vec<&str> = text.lines().collect();
    let mut found = Vec::new();
    for (n, line) in lines.iter().enumerate() {
        let indent = line.len() - line.trim_start().len();
        let Some(name) = function_name(line.trim_start()) else { continue };
        let one_line = line.trim_end().ends_with(['}', ';']);
        let closing = format!("{}}}", &line[..indent]);
        let length = if one_line { 1 } else { length(&lines[n..], &closing) };
        found.push((name.to_owned(), length));
    }
    found
}

/// Lines to the closing one, those of raw texts left out.
fn length(lines: &[&str], closing: &str) -> usize {
    let (mut count, mut raw) = (0, false);
    for line in lines {
        raw = if raw {
            !line.contains("\"#")
        } else {
            line.contains("r#\"") && !line.contains("\"#")
        };
        count += usize::from(!raw);
        if !raw && *line == closing {
            break;
        }
    }
    count
}

fn function_name(line: &str) -> Option<&str> {
    let (before, after) = line.split_once("fn ")?;
    let qualifiers = ["pub", "pub(crate)", "pub(super)", "const", "async", "extern", "\"C\""];
    let plain = before.split_whitespace().all(|word| qualifiers.contains(&word));
    plain.then(|| after.split(['(', '<']).next().unwrap_or(after))
}

#[test]
fn lengths_are_counted_from_the_first_line_to_the_closing_brace() {
    let text = "impl A {\n    pub fn one(\n        a: u8,\n    ) {\n        x();\n    }\n}\nfn two() { y() }\n";
    assert_eq!(functions(text), [("one".to_owned(), 5), ("two".to_owned(), 1)]);
}
