//! The hook reference and the template say what the manifests say, and every example loads.
//!
//! `RULESHIFT_BLESS=1 cargo test -p ruleshift-hooks --test reference` writes them anew.

use std::fs;
use std::path::PathBuf;

use ruleshift_hooks::{Overrides, SHIPPED, Source, Variant, reference, template};

const BEGIN: &str = "<!-- reference: written by a test from the manifests; do not edit -->\n";
const END: &str = "<!-- end of reference -->\n";

fn file(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../variants").join(name)
}

fn read(name: &str) -> String {
    fs::read_to_string(file(name)).unwrap().replace("\r\n", "\n")
}

/// Compares a file with what it should hold, or writes it when that was asked for.
fn compare(name: &str, wanted: &str) {
    if std::env::var_os("RULESHIFT_BLESS").is_some() {
        fs::write(file(name), wanted).unwrap();
    }
    let found = read(name);
    let line = found.lines().zip(wanted.lines()).position(|(a, b)| a != b);
    assert!(
        found == wanted,
        "variants/{name} is out of date from line {:?} on: run this test with RULESHIFT_BLESS=1",
        line.map(|n| n + 1)
    );
}

fn load(name: &str, text: &str) {
    let about = "fn about() { #{ title: \"Example\", summary: \"An example.\", cards: #{ runner: #{ title: \"A runner\" } }, counters: #{ alarms: \"alarms raised\" } } }\n";
    let whole = if text.contains("fn about") { text.to_owned() } else { format!("{about}{text}") };
    if let Err(faults) = Variant::load(&Source::new(name, whole), &Overrides::none()) {
        panic!("{faults}");
    }
}

#[test]
fn the_reference_is_up_to_date() {
    let readme = read("README.md");
    let (before, rest) = readme.split_once(BEGIN).expect("the README has the first mark");
    let (_, after) = rest.split_once(END).expect("the README has the second mark");
    compare("README.md", &format!("{before}{BEGIN}\n{}\n{END}{after}", reference()));
}

#[test]
fn the_template_is_up_to_date_and_changes_nothing() {
    compare("base/rules.rhai", &template());
    let source = Source::new("template", template());
    let variant = Variant::load(&source, &Overrides::none()).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(*variant.on_base(), ruleshift_game::Rules::base());
    assert_eq!(variant.value_hooks(), ruleshift_game::Hook::ALL);
    assert!(variant.event_hooks().is_empty(), "hooks that do nothing are not called");
    assert!(variant.warnings().is_empty(), "{}", variant.warnings());
}

#[test]
fn the_readme_lists_every_shipped_script() {
    let readme = read("README.md");
    let listed: Vec<&str> = readme.lines().filter_map(|line| line.strip_prefix("| `")).collect();
    for script in SHIPPED {
        let row = format!("{}` |", script.name);
        assert!(listed.iter().any(|line| line.starts_with(&row)), "{} is missing", script.name);
    }
}

#[test]
fn every_example_loads() {
    let (readme, reference) = (read("README.md"), reference());
    let examples = readme.split("```rhai\n").skip(1).chain(reference.split("```rhai\n").skip(1));
    let mut count = 0;
    for example in examples {
        let (script, _) = example.split_once("```").expect("an example ends");
        load("example", script);
        count += 1;
    }
    assert!(count > ruleshift_game::HOOKS.len(), "only {count} examples were found");
}
