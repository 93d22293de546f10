//! Writes the page of a made run to standard output, to look at while working on the template.
//! With `many` as argument, the run has four arms and few games; with `text`, the terminal screen.

use std::io::Write;

use ruleshift_reports::{build, html, markdown, summarise, terminal};

#[allow(dead_code, reason = "shared with the tests, which use all of it")]
#[path = "../tests/common/mod.rs"]
mod common;
use common::{BASE, CARDS, Made};

fn main() -> std::io::Result<()> {
    let wish = std::env::args().nth(1).unwrap_or_default();
    let run = if wish.starts_with("many") {
        let kind =
            Made { name: "kind-pins", title: "Kinder pins", turns: -0.4, margin: 1.5, ..CARDS };
        let half = Made { name: "half-late", title: "Half late fire", turns: 0.1, ..CARDS };
        common::run(&[BASE, CARDS, kind, half], 300)
    } else {
        common::run(&[BASE, CARDS], 10_000)
    };
    let report = build(&summarise(&run), &run);
    let text = match wish.as_str() {
        "text" | "many-text" => terminal(&report, 100, false),
        "markdown" | "many-markdown" => markdown(&report),
        _ => html(&report),
    };
    std::io::stdout().write_all(text.as_bytes())
}
