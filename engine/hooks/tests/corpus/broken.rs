//! Ten broken scripts for each kind of fault: each is told its kind, its place and what to do.
//!
//! The scripts are in `broken/KIND.txt`, with the expectations written into them, and everything
//! they are told is in `broken/KIND.told`, which
//! `RULESHIFT_BLESS=1 cargo test -p ruleshift-hooks --test corpus` writes anew.

use std::collections::BTreeSet;
use std::fs;

use crate::scripts::{Mark, Script, files, folder};
use ruleshift_hooks::Id;

/// Scripts that each kind must have.
const EACH: usize = 10;
/// Longest text about one fault: lines of the script are cut.
const LONGEST: usize = 1_500;

#[test]
fn every_kind_has_ten_scripts() {
    let files = files("broken");
    let kinds: BTreeSet<&str> = files.iter().map(|(kind, _)| kind.as_str()).collect();
    assert_eq!(kinds, Id::ALL.iter().map(|id| id.text()).collect());
    for (kind, scripts) in &files {
        let own = |script: &&Script| script.marks.iter().any(|mark| mark.id.text() == kind);
        let different: BTreeSet<String> =
            scripts.iter().filter(own).map(|s| format!("{:?} {}", s.options, s.text)).collect();
        assert!(different.len() >= EACH, "{kind} has {} scripts of its own", different.len());
        let unmarked = scripts.iter().find(|script| script.marks.is_empty());
        assert!(unmarked.is_none(), "{kind}: {:?} has no mark", unmarked.map(|s| &s.title));
    }
}

#[test]
fn every_fault_is_told_at_its_place() {
    let mut complaints = Vec::new();
    for (kind, scripts) in files("broken") {
        for script in scripts {
            let told = script.told();
            let found: Vec<Mark> = told
                .list()
                .iter()
                .map(|d| Mark { id: d.id, place: d.line.zip(d.column), words: d.headline.clone() })
                .collect();
            let as_marked = (script.more || found.len() == script.marks.len())
                && script.marks.iter().all(|mark| found.iter().any(|found| meets(mark, found)));
            if !as_marked {
                let marks = &script.marks;
                complaints.push(format!(
                    "{kind}: {}\n{told}\nfound {found:?}\nexpected {marks:?}",
                    script.title
                ));
            }
        }
    }
    assert!(complaints.is_empty(), "\n\n{}", complaints.join("\n\n"));
}

/// The place in a rendered fault is the one its data have.
#[test]
fn what_is_shown_is_what_is_said() {
    for (kind, scripts) in files("broken") {
        for script in scripts {
            let told = script.told();
            let text = told.render(false);
            let shown: Vec<&str> = text
                .lines()
                .filter_map(|line| line.trim_start().strip_prefix("--> house"))
                .map(|place| place.trim_start_matches(':'))
                .collect();
            let said: Vec<String> = told
                .list()
                .iter()
                .map(|d| match d.line.zip(d.column) {
                    Some((line, column)) => format!("{line}:{column}"),
                    None => String::new(),
                })
                .collect();
            assert_eq!(shown, said, "{kind}: {}", script.title);
        }
    }
}

fn meets(mark: &Mark, found: &Mark) -> bool {
    assert!(!mark.words.is_empty(), "a mark has words of the headline");
    (mark.id, mark.place) == (found.id, found.place) && found.words.contains(&mark.words)
}

#[test]
fn what_is_told_has_been_read() {
    for (kind, scripts) in files("broken") {
        let path = folder("broken").join(format!("{kind}.told"));
        let told: Vec<String> = scripts.iter().map(page).collect();
        if std::env::var_os("RULESHIFT_BLESS").is_some() {
            fs::write(&path, told.join("\n")).unwrap();
        }
        let stored = fs::read_to_string(&path).unwrap_or_default().replace("\r\n", "\n");
        for told in &told {
            assert!(stored.contains(told), "not in {kind}.told; bless and read it:\n{told}");
        }
        assert!(stored == told.join("\n"), "{kind}.told holds more: bless and read it");
    }
}

/// The title of a script and what it is told, the middle of a long list left out.
fn page(script: &Script) -> String {
    let told = script.told().render(false).replace('\r', "");
    let mut parts: Vec<&str> = told.split("\n\n").collect();
    if parts.len() > 6 {
        parts.splice(2..parts.len() - 2, ["(and so on)"]);
    }
    format!("---- {}\n{}\n", script.title, parts.join("\n\n"))
}

/// A reader sees the fault, not the whole of a long line.
#[test]
fn what_is_told_stays_short() {
    for (kind, scripts) in files("broken") {
        for script in scripts {
            let told = script.told();
            let length = told.render(false).chars().count() / told.list().len().max(1);
            assert!(length <= LONGEST, "{kind}: {} takes {length} characters", script.title);
        }
    }
}
