//! What the method page says is there: files, tests, sections, paragraphs, methods.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use ruleshift_reports::{METHOD_PAGE, MethodSection, build, markdown, summarise};

use crate::made::{self, BASE, CARDS};

/// Files of `stats` that answer no question of a report, and why they need no place on the page.
const GROUNDWORK: [(&str, &str); 7] = [
    ("bootstrap/tests.rs", "tests of a method that is named"),
    ("cholesky.rs", "algebra under strengths and bands"),
    ("draws.rs", "random numbers under resampling; its published check is named"),
    ("histogram.rs", "bins of a picture"),
    ("moments.rs", "count, mean and spread under every method"),
    ("pairs.rs", "how pairs are stored for resampling"),
    ("quadrature.rs", "integrals under looks and power"),
];
/// Those whose tests lie in a file of their own.
const APART: [&str; 2] = ["mod.rs", "tuning/tests.rs"];

/// What introduces the list of methods that no report reads.
const UNREAD: &str = "read by no report yet:";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

#[track_caller]
fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|fault| panic!("{}: {fault}", path.display()))
}

fn page() -> String {
    read(&root().join(METHOD_PAGE))
}

#[track_caller]
fn none(complaints: &[String]) {
    assert!(complaints.is_empty(), "\n  {}", complaints.join("\n  "));
}

/// Everything in backquotes.
fn quoted(page: &str) -> Vec<&str> {
    page.split('`').skip(1).step_by(2).collect()
}

/// Where a file that the page names may lie, as the page itself says.
fn found(name: &str) -> Option<PathBuf> {
    let homes = ["", "reports/tests", "reports/src"];
    homes.iter().map(|home| root().join(home).join(name)).find(|path| path.exists())
}

/// Whether a word in backquotes names a file or folder.
fn names_a_file(word: &str) -> bool {
    let ending = Path::new(word).extension().is_some();
    (word.contains('/') || ending || word == "variants") && !word.contains(' ')
}

/// Files and tests that the page names; a file without a test has an empty one.
fn named(page: &str) -> BTreeSet<(&str, &str)> {
    let parts = quoted(page).into_iter().map(|word| word.split_once("::").unwrap_or((word, "")));
    parts.filter(|(file, _)| names_a_file(file)).collect()
}

/// Rust files below a folder, by their path from it.
fn sources(folder: &Path) -> Vec<String> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("the folder can be read").flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if entry.path().is_dir() {
            files.extend(sources(&entry.path()).into_iter().map(|file| format!("{name}/{file}")));
        } else if name.ends_with(".rs") {
            files.push(name);
        }
    }
    files
}

/// The headings as links find them.
fn anchors(page: &str) -> BTreeSet<String> {
    let headings = page.lines().filter_map(|line| line.strip_prefix('#'));
    let kept = |c: &char| c.is_alphanumeric() || *c == ' ' || *c == '-';
    headings
        .map(|line| line.trim_start_matches('#').trim().to_lowercase())
        .map(|line| line.chars().filter(kept).collect::<String>().replace(' ', "-"))
        .collect()
}

#[test]
fn every_file_named_on_the_page_exists() {
    let page = page();
    let files: BTreeSet<&str> = named(&page).into_iter().map(|(file, _)| file).collect();
    assert!(files.len() > 80, "the page names its files: {}", files.len());
    let missing = files.iter().filter(|file| found(file).is_none());
    none(&missing.map(|file| format!("{METHOD_PAGE} names {file}")).collect::<Vec<_>>());
}

#[test]
fn every_test_named_on_the_page_exists() {
    let page = page();
    let tests: Vec<(&str, &str)> = named(&page).into_iter().filter(|t| !t.1.is_empty()).collect();
    assert!(tests.len() > 60, "the page names its tests: {}", tests.len());
    let missing = tests.iter().filter(|(file, test)| {
        let text = found(file).map(|path| read(&path)).unwrap_or_default();
        let lines: Vec<&str> = text.lines().map(str::trim).collect();
        let place = lines.iter().position(|line| line.starts_with(&format!("fn {test}(")));
        // Nothing but further attributes stands between the mark of a test and its name.
        let marks =
            place.map(|n| lines[..n].iter().rev().take_while(|line| line.starts_with("#[")));
        !marks.is_some_and(|mut marks| marks.any(|line| *line == "#[test]"))
    });
    none(&missing.map(|(f, t)| format!("no test {t} in {f}")).collect::<Vec<_>>());
}

#[test]
fn every_section_that_reports_name_is_on_the_page() {
    let page = page();
    let missing = MethodSection::ALL.iter().filter(|section| {
        !page.lines().any(|line| line.strip_prefix("### ") == Some(section.heading()))
    });
    none(&missing.map(|section| format!("no section {}", section.heading())).collect::<Vec<_>>());
    let anchors = anchors(&page);
    assert!(MethodSection::ALL.iter().all(|section| anchors.contains(&section.anchor())));
    assert!(MethodSection::Hunt.link().starts_with(METHOD_PAGE));
}

#[test]
fn a_report_leads_to_the_sections_on_what_it_asks() {
    let run = made::run(&[BASE, CARDS], 60);
    let text = markdown(&build(&summarise(&run), &run));
    let line = text.lines().find(|line| line.contains(METHOD_PAGE)).expect("a line on the page");
    let named = |section: MethodSection| line.contains(&format!("\"{}\"", section.heading()));
    assert!(named(MethodSection::PairedMeans) && named(MethodSection::Verdicts), "{line}");
    assert!(named(MethodSection::SingleShares) && named(MethodSection::Landmarks), "{line}");
    assert!(!named(MethodSection::SkillEdge) && !named(MethodSection::Importance), "{line}");
}

/// Links of the page to its own sections, and links to it that a source spells out.
#[test]
fn every_link_to_a_section_leads_somewhere() {
    let page = page();
    let anchors = anchors(&page);
    let own = page.split("](#").skip(1).filter_map(|rest| rest.split_once(')')).map(|(a, _)| a);
    let mut links: Vec<(String, String)> =
        own.map(|anchor| (METHOD_PAGE.to_owned(), anchor.to_owned())).collect();
    assert!(links.len() >= MethodSection::ALL.len(), "the table leads to the sections");
    let folder = root().join("reports/src");
    for file in sources(&folder) {
        let text = read(&folder.join(&file));
        let spelled = text.split("METHOD.md#").skip(1).map(|rest| {
            let inside = |c: &char| c.is_ascii_alphanumeric() || *c == '-';
            (file.clone(), rest.chars().take_while(inside).collect())
        });
        links.extend(spelled);
    }
    let lost = links.iter().filter(|(_, anchor)| !anchors.contains(anchor));
    none(&lost.map(|(file, anchor)| format!("{file}: #{anchor}")).collect::<Vec<_>>());
}

#[test]
fn every_method_is_on_the_page() {
    let page = page();
    let files = sources(&root().join("reports/src/stats"));
    let exempt =
        |file: &str| GROUNDWORK.iter().any(|(name, _)| *name == file) || APART.contains(&file);
    let unnamed = files
        .iter()
        .filter(|file| !exempt(file) && !page.contains(&format!("`stats/{file}`")))
        .map(|file| format!("stats/{file} has no place in {METHOD_PAGE}; is it groundwork?"));
    let gone = GROUNDWORK
        .iter()
        .map(|(name, _)| *name)
        .chain(APART)
        .filter(|name| !files.iter().any(|file| file == name))
        .map(|name| format!("stats/{name} is gone: take it from the exceptions"));
    none(&unnamed.chain(gone).collect::<Vec<_>>());
}

/// What is said to be read by no report is public and read by none.
#[test]
fn what_no_report_reads_is_said() {
    let page = page();
    let list = page.split(UNREAD).nth(1).expect("the page lists what no report reads");
    let unread = quoted(list.split("\n\n").next().unwrap_or(list));
    let folder = root().join("reports/src");
    let (stats, reports): (Vec<String>, Vec<String>) =
        sources(&folder).into_iter().partition(|file| file.starts_with("stats/"));
    assert!(stats.len() > 40 && reports.len() > 40, "{} {}", stats.len(), reports.len());
    let words = |text: &str| -> BTreeSet<String> {
        text.split(|c: char| !c.is_alphanumeric() && c != '_').map(str::to_owned).collect()
    };
    // What a file takes from the statistics stands between their name and the next semicolon.
    let taken = |file: &String| {
        let text = read(&folder.join(file));
        let uses = text.split("stats::").skip(1).filter_map(|rest| rest.split(';').next());
        uses.flat_map(words).collect::<BTreeSet<String>>()
    };
    let public = words(&read(&folder.join("stats/mod.rs")));
    let reports: Vec<(&String, BTreeSet<String>)> =
        reports.iter().map(|file| (file, taken(file))).collect();
    let mut complaints = Vec::new();
    for name in unread {
        if !public.contains(name) {
            complaints.push(format!("`{name}` is not in stats/mod.rs"));
        }
        let reader = reports.iter().find(|(_, taken)| taken.contains(name));
        complaints.extend(reader.map(|(file, _)| {
            format!("`{name}` is read by {file}: take it from the list in {METHOD_PAGE}")
        }));
    }
    none(&complaints);
}

#[test]
fn every_paragraph_named_on_the_page_is_in_the_rules() {
    let page = page();
    let rules = read(&root().join("engine/game/RULES.md"));
    let there = |number: &str| {
        let starts = [format!("## {number}. "), format!("**{number}** ")];
        rules.lines().any(|line| starts.iter().any(|start| line.starts_with(start)))
    };
    let numbers: Vec<&str> = page
        .split("RULES ")
        .skip(1)
        .map(|rest| rest.split(|c: char| !c.is_ascii_digit() && c != '.').next().unwrap_or(rest))
        .map(|number| number.trim_end_matches('.'))
        .collect();
    assert!(numbers.len() > 30, "the page names paragraphs: {}", numbers.len());
    let missing = numbers.iter().filter(|number| !there(number));
    none(&missing.map(|number| format!("the rules have no {number}")).collect::<Vec<_>>());
}
