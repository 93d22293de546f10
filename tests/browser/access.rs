//! Access for all: the rules of axe-core, in light and dark.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use crate::pages::PAGES;
use crate::skip;
use crate::support::repository;
use crate::tab::Tab;

/// Where `.ci/run` puts the library, from the root of the repository.
const PLACE: &str = "target/browser/node_modules/axe-core/axe.min.js";

/// Impacts that fail a page, in the words of the library.
const GRAVE: [&str; 2] = ["serious", "critical"];

/// The text of the library; without it, says so and returns none.
fn library() -> Option<String> {
    let named = std::env::var_os("RULESHIFT_AXE").map(PathBuf::from);
    let path = named.unwrap_or_else(|| repository::root().join(PLACE));
    let text = fs::read_to_string(&path).ok();
    if text.is_none() {
        let remedy =
            "`npm install --prefix target/browser --no-save axe-core` brings it, as .ci/run does";
        skip("no axe-core was found", remedy);
    }
    text
}

/// Grave findings of the page as it is now, a line each.
fn findings(tab: &mut Tab, name: &str) -> Vec<String> {
    // `preload` would ask for style sheets, of which a page has none but its own.
    let found = tab.value(
        "axe.run(document, { preload: false, resultTypes: ['violations'] }).then((r) => \
        ({ ran: r.passes.length, found: r.violations.flatMap((v) => v.nodes.map((n) => \
        ({ impact: n.impact, rule: v.id, help: v.help, element: n.html.slice(0, 160), \
        why: n.failureSummary }))) }))",
    );
    assert!(found["ran"].as_u64() > Some(10), "{name}: the rules were tried: {found}");
    let grave = |finding: &&Value| GRAVE.iter().any(|impact| finding["impact"] == *impact);
    let all = found["found"].as_array().expect("a list");
    let line = |finding: &Value| {
        let part = |key: &str| finding[key].as_str().unwrap_or_default().replace('\n', " ");
        format!(
            "{name}: {} ({}): {} at {} [{}]",
            part("rule"),
            part("impact"),
            part("help"),
            part("element"),
            part("why"),
        )
    };
    all.iter().filter(grave).map(line).collect()
}

#[test]
fn no_page_keeps_anyone_out() {
    let Some(axe) = library() else { return };
    let Some(mut tab) = Tab::new() else { return };
    let mut complaints = Vec::new();
    for (name, file) in &PAGES.all {
        tab.open(file);
        tab.size(1280, 900);
        // By the protocol: the page's own policy lets no script in.
        tab.value(&format!("{axe}; 0"));
        for scheme in ["light", "dark"] {
            tab.media("screen", scheme);
            complaints.extend(findings(&mut tab, &format!("{name} {scheme}")));
        }
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

/// That the test above would see it: a picture without words, and grey on grey.
#[test]
fn a_page_that_keeps_someone_out_is_found_out() {
    let Some(axe) = library() else { return };
    let Some(mut tab) = Tab::new() else { return };
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let file = folder.path().join("bad.html");
    let body = "<main><h1>Bad</h1><p style='color:#aaa;background:#bbb'>grey</p>\
        <img src='data:image/gif;base64,R0lGODlhAQABAAAAACw='></main>";
    let page =
        format!("<!DOCTYPE html><html lang='en'><title>Bad</title><body>{body}</body></html>");
    fs::write(&file, page).unwrap();
    tab.open(&file);
    tab.value(&format!("{axe}; 0"));
    let found = findings(&mut tab, "bad").join("\n");
    assert!(found.contains("color-contrast") && found.contains("image-alt"), "{found}");
}
