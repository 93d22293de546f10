//! Every page fits a telephone, a tablet and a screen; on paper nothing is cut, and nothing is to click.

use serde_json::json;

use crate::pages::PAGES;
use crate::tab::Tab;

/// CSS pixels of one millimetre: 96 to the inch of 25.4 mm (CSS Values and Units 3, section 6.2).
const PIXELS_PER_MM: f64 = 96.0 / 25.4;
/// Short and long side of A4 in millimetres (ISO 216).
const A4: (f64, f64) = (210.0, 297.0);
/// Margin to each side that browsers leave unless a page says otherwise, in millimetres: 0.4 inch, the
/// default of the protocol's own printing.
const MARGIN: f64 = 10.16;

/// Elements that reach past the width of the window and lie in nothing that scrolls or cuts.
const TOO_WIDE: &str = "(() => {
    const width = document.documentElement.clientWidth;
    const boxed = (element) => {
        for (let e = element.parentElement; e; e = e.parentElement) {
            if (getComputedStyle(e).overflowX !== 'visible') return true;
        }
        return false;
    };
    return [...document.body.querySelectorAll('*')].filter((e) => {
        const box = e.getBoundingClientRect();
        return box.width > 0 && box.right > width + 1 && !boxed(e);
    }).map((e) => `${e.tagName} ${e.getAttribute('class') || ''} ${e.textContent.trim().slice(0, 40)}`);
})()";

#[test]
fn every_page_fits_every_width() {
    let Some(mut tab) = Tab::new() else { return };
    let mut complaints = Vec::new();
    for (name, file) in &PAGES.all {
        tab.open(file);
        for width in [320, 768, 1280] {
            tab.size(width, 800);
            let used = tab.number("document.scrollingElement.scrollWidth");
            if used > i64::from(width) {
                let wide = tab.value(TOO_WIDE);
                complaints.push(format!("{name} needs {used} px of {width}: {wide}"));
            }
        }
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

/// On paper whatever scrolls is cut, so nothing may be wider than its box either.
const CUT: &str = "[...document.body.querySelectorAll('*')].filter((e) =>
    e.clientWidth > 0 && e.scrollWidth > e.clientWidth + 1
    && !e.closest('.unseen, svg') && getComputedStyle(e).display !== 'inline'
).map((e) => `${e.tagName} ${e.getAttribute('class') || ''} ${e.textContent.trim().slice(0, 40)}: ${
    e.scrollWidth} of ${e.clientWidth}`)";

/// Things to click or drag that are to be seen. Buttons that carry words of a table are words on paper.
const CONTROLS: &str =
    "[...document.querySelectorAll('input, select, .controls, .controls button, #to-parting')]
    .filter((e) => e.getClientRects().length && getComputedStyle(e).visibility === 'visible')
    .map((e) => e.outerHTML.slice(0, 80))";

#[test]
fn on_paper_nothing_is_cut_and_no_control_is_left() {
    let Some(mut tab) = Tab::new() else { return };
    let text_width = ((A4.0 - 2.0 * MARGIN) * PIXELS_PER_MM).floor() as u32;
    let mut complaints = Vec::new();
    for (name, file) in &PAGES.all {
        tab.open(file);
        tab.media("print", "light");
        tab.size(text_width, (A4.1 * PIXELS_PER_MM) as u32);
        for (what, look) in
            [("is wider than the paper", TOO_WIDE), ("is cut", CUT), ("is a control", CONTROLS)]
        {
            let found = tab.value(look);
            let found = found.as_array().expect("a list");
            complaints.extend(found.iter().map(|element| format!("{name}: {element} {what}")));
        }
        tab.media("screen", "light");
    }
    assert!(complaints.is_empty(), "\n{}", complaints.join("\n"));
}

/// The printing itself: a document comes out, and a sheet to vote on is one page.
#[test]
fn every_page_prints_and_a_sheet_to_vote_on_is_one_page() {
    let Some(mut tab) = Tab::new() else { return };
    for (name, file) in &PAGES.all {
        tab.open(file);
        let inches = |mm: f64| mm / 25.4;
        let paper = json!({
            "paperWidth": inches(A4.0), "paperHeight": inches(A4.1), "preferCSSPageSize": true,
        });
        let printed = tab.call("Page.printToPDF", paper);
        let data = printed["data"].as_str().unwrap_or_default();
        // Base64 of `%PDF-`, the first bytes of every such file (ISO 32000-1, section 7.5.2).
        assert!(data.starts_with("JVBERi0"), "{name} cannot be printed");
        if name.contains("vote") {
            let one = json!({
                "paperWidth": inches(A4.0), "paperHeight": inches(A4.1), "preferCSSPageSize": true,
                "pageRanges": "2",
            });
            let second = tab.try_call("Page.printToPDF", one);
            assert!(second.is_err(), "{name} does not fit on one page");
        }
    }
}
