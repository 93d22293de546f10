//! Every page opens from a file, complains of nothing and asks for nothing.

use std::fs;

use crate::pages::PAGES;
use crate::tab::Tab;

#[test]
fn every_page_opens_in_silence_and_asks_for_nothing() {
    let Some(mut tab) = Tab::new() else { return };
    let mut complaints = Vec::new();
    for (name, file) in &PAGES.all {
        tab.open(file);
        assert_ne!(tab.text("document.title"), "", "{name} has a title");
        complaints.extend(tab.complaints().iter().map(|said| format!("{name} {said}")));
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

/// What a page may load is nothing, and it says so to the browser.
#[test]
fn every_page_forbids_itself_to_load_anything() {
    for (name, file) in &PAGES.all {
        let text = fs::read_to_string(file).expect("the page can be read");
        let policy = text.split("http-equiv=\"Content-Security-Policy\" content=\"").nth(1);
        let policy = policy.and_then(|rest| rest.split('"').next()).unwrap_or_default();
        let rules: Vec<&str> = policy.split(';').map(str::trim).collect();
        assert!(rules.contains(&"default-src 'none'"), "{name}: {policy}");
        for rule in rules {
            let sources = rule.split(' ').skip(1);
            let inside = |source: &str| ["'none'", "'unsafe-inline'", "data:"].contains(&source);
            assert!(sources.clone().all(inside), "{name}: {rule}");
        }
    }
}

/// That the tests above would see it: a page that asks for a picture, and one that complains.
#[test]
fn a_page_that_asks_or_complains_is_found_out() {
    let Some(mut tab) = Tab::new() else { return };
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let file = folder.path().join("bad.html");
    let picture = "<img src=\"missing.png\" alt=\"\">";
    let said =
        "<script>console.warn('careful'); setTimeout(() => { throw new Error('lost'); });</script>";
    fs::write(&file, format!("<!DOCTYPE html><title>Bad</title>{picture}{said}")).unwrap();
    tab.open(&file);
    let complaints = tab.complaints().join("\n");
    for part in ["missing.png", "careful", "lost"] {
        assert!(complaints.contains(part), "`{part}` is not in:\n{complaints}");
    }
}
