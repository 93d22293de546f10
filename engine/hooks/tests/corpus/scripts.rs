//! Scripts kept as data: files of many scripts, with what each is told written into it.
//!
//! ```text
//! ---- what is wrong with it
//! fn marker_actions(now) { noww }
//!                          ^ unknown-name: stands for nothing
//! ```
//!
//! A line that begins with a caret and the kind of a fault marks the column above it, and must be
//! followed by words of the headline; `~` in the place of the caret stands for no place. A script
//! without `fn about` gets one as its first line. Behind the title may stand, after bars: `bare`
//! (no `about` is added), `crlf` (Windows line ends), `more` (other faults may come too),
//! `options NAME=NUMBER` (as typed for it), and last of all `both` (the lines are statements, put
//! into a value hook and into an event hook). `«text*3»` stands for three times the text, with `№` in
//! it for the number of the copy and `⏎` for a line end, and `«U+200B»` for that character: long scripts stay short here
//! and invisible letters visible.

use std::fs;
use std::path::PathBuf;

use ruleshift_hooks::{Diagnostic, Diagnostics, Id, Overrides, Source, Variant};

const ABOUT: &str = "fn about() { #{ title: \"T\", summary: \"S.\" } }";

/// One script of a file.
#[derive(Debug)]
pub(crate) struct Script {
    pub(crate) title: String,
    pub(crate) text: String,
    pub(crate) options: Overrides,
    /// What it must be told, in the order of the text.
    pub(crate) marks: Vec<Mark>,
    /// Whether it may be told more.
    pub(crate) more: bool,
}

/// One fault a script must be told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Mark {
    pub(crate) id: Id,
    /// Line and column.
    pub(crate) place: Option<(usize, usize)>,
    pub(crate) words: String,
}

impl Script {
    /// What it is told, warnings of a good one included.
    pub(crate) fn told(&self) -> Diagnostics {
        let source = Source::new("house", self.text.as_str());
        match Variant::load(&source, &self.options) {
            Ok(variant) => variant.warnings().clone(),
            Err(faults) => faults,
        }
    }

    /// Kind and place of everything it is told, and whether it may be used.
    pub(crate) fn verdict(&self) -> String {
        let told = self.told();
        let place = |d: &Diagnostic| match (d.line, d.column) {
            (Some(line), Some(column)) => format!("{} {line}:{column}", d.id.text()),
            _ => d.id.text().to_owned(),
        };
        let list: Vec<String> = told.list().iter().map(place).collect();
        let fit = if told.errors() == 0 { "fit for use" } else { "unfit" };
        format!("{fit}; {}", list.join(", "))
    }
}

/// The folder of script files of that name.
pub(crate) fn folder(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(name)
}

/// The script files of a folder by their stems, in order.
pub(crate) fn files(name: &str) -> Vec<(String, Vec<Script>)> {
    let entries = fs::read_dir(folder(name)).expect("the folder can be read");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "txt"));
    paths.sort();
    let stem = |path: &PathBuf| path.file_stem().unwrap().to_string_lossy().into_owned();
    let text = |path: &PathBuf| fs::read_to_string(path).unwrap().replace("\r\n", "\n");
    paths.iter().map(|path| (stem(path), scripts(&text(path)))).collect()
}

fn scripts(text: &str) -> Vec<Script> {
    let mut scripts = Vec::new();
    for text in text.split("---- ").skip(1) {
        let (heading, body) = text.split_once('\n').expect("a script has a title and lines");
        match heading.strip_suffix(" | both") {
            Some(title) => {
                let body = body.trim_end_matches('\n');
                let value = format!("fn marker_actions(now) {{\n{body}\nnow }}");
                let event = format!("fn on_game_start(game) {{\n{body}\n}}");
                scripts.push(script(&format!("{title}, value hook"), &value));
                scripts.push(script(&format!("{title}, event hook"), &event));
            }
            None => scripts.push(script(heading, body)),
        }
    }
    scripts
}

fn script(heading: &str, body: &str) -> Script {
    let mut flags = heading.split(" | ");
    let title = flags.next().unwrap_or_default().to_owned();
    let flags: Vec<&str> = flags.collect();
    let mut lines: Vec<&str> = Vec::new();
    let mut marks = Vec::new();
    if !flags.contains(&"bare") && !body.contains("fn about") {
        lines.push(ABOUT);
    }
    for line in body.trim_end_matches('\n').split('\n') {
        match mark(line, &lines) {
            Some(mark) => marks.push(mark),
            None => lines.push(line),
        }
    }
    let end = if flags.contains(&"crlf") { "\r\n" } else { "\n" };
    let text = lines.iter().map(|line| expanded(line) + end).collect();
    Script { title, text, options: options(&flags), marks, more: flags.contains(&"more") }
}

/// The mark a line makes in the last of `lines`, if it is one.
fn mark(line: &str, lines: &[&str]) -> Option<Mark> {
    let (blank, said) = line.split_once(['^', '~'])?;
    let (id, words) = said.trim_start().split_once(':')?;
    let id = Id::ALL.iter().copied().find(|known| known.text() == id)?;
    if !blank.trim().is_empty() {
        return None;
    }
    let place = line.trim_start().starts_with('^').then(|| {
        let before: String = lines.last()?.chars().take(blank.chars().count()).collect();
        Some((lines.len(), expanded(&before).chars().count() + 1))
    });
    Some(Mark { id, place: place.flatten(), words: words.trim().to_owned() })
}

fn options(flags: &[&str]) -> Overrides {
    let given = flags.iter().filter_map(|flag| flag.strip_prefix("options "));
    let pairs = given.flat_map(|list| list.split(' ')).map(|pair| pair.split_once('=').unwrap());
    Overrides(pairs.map(|(name, value)| (name.to_owned(), value.parse().unwrap())).collect())
}

/// The line with what stands between `«` and `»` written out.
fn expanded(line: &str) -> String {
    let mut parts = line.split('«');
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (short, rest) =
            part.split_once('»').unwrap_or_else(|| panic!("`«` without `»`: {line}"));
        match (short.strip_prefix("U+"), short.rsplit_once('*')) {
            (Some(number), _) => {
                text.extend(char::from_u32(u32::from_str_radix(number, 16).unwrap()));
            }
            (None, Some((piece, count))) => {
                let piece = piece.replace('⏎', "\n");
                let numbered = |n: usize| piece.replace('№', &n.to_string());
                text.extend((0..count.parse().unwrap()).map(numbered));
            }
            (None, None) => panic!("neither a letter nor a repeated text: {short}"),
        }
        text += rest;
    }
    text
}
