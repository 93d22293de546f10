//! Tables of a report sort by mouse and keys, and say so.

use crate::pages::PAGES;
use crate::tab::Tab;

/// The first table with enough rows to sort, kept by the tests as `t`.
const TABLE: &str = "window.t = [...document.querySelectorAll('table')].find((t) => \
    t.tHead.querySelector('th.number button') && t.tBodies[0].rows.length > 3), \
    t.tHead.rows[0].cells.length";

/// Texts of a column, from top to bottom.
fn column(tab: &mut Tab, column: i64) -> Vec<String> {
    let texts = tab.value(&format!(
        "[...t.tBodies[0].rows].map((row) => row.cells[{column}].textContent.trim())"
    ));
    let texts = texts.as_array().expect("a list").iter();
    texts.map(|text| text.as_str().expect("a text").to_owned()).collect()
}

/// The first number of a cell, as people read it: the minus of print, thousands with commas.
fn number(text: &str) -> f64 {
    let plain = text.replace('\u{2212}', "-").replace(',', "");
    let part = |c: char| c.is_ascii_digit() || c == '.' || c == '-';
    let digits: String = plain.chars().skip_while(|c| !part(*c)).take_while(|c| part(*c)).collect();
    digits.parse().unwrap_or(f64::NAN)
}

/// What the head of a column says of its order.
fn order(tab: &mut Tab, column: i64) -> Option<String> {
    let said = tab.value(&format!("t.tHead.rows[0].cells[{column}].getAttribute('aria-sort')"));
    said.as_str().map(str::to_owned)
}

#[test]
fn a_table_sorts_by_mouse_and_by_keys_and_says_so() {
    let Some(mut tab) = Tab::new() else { return };
    tab.open(PAGES.file("three/report"));
    tab.size(1280, 800);
    assert!(tab.number(TABLE) > 2);
    let at =
        tab.number("[...t.tHead.rows[0].cells].findIndex((c) => c.classList.contains('number'))");
    tab.value("t.tHead.querySelector('th.number button').id = 'tested', 0");
    let given = column(&mut tab, at);
    assert_eq!(order(&mut tab, at), None);

    let mut up: Vec<f64> = given.iter().map(|text| number(text)).collect();
    assert!(up.iter().all(|n| n.is_finite()), "{given:?}");
    up.sort_by(f64::total_cmp);
    let down: Vec<f64> = up.iter().rev().copied().collect();
    for by_mouse in [true, false] {
        let next = |tab: &mut Tab| if by_mouse { tab.click("#tested") } else { tab.key("Enter") };
        tab.value("document.getElementById('tested').focus(), 0");
        for (said, sorted) in [("ascending", &up), ("descending", &down)] {
            next(&mut tab);
            assert_eq!(order(&mut tab, at).as_deref(), Some(said), "by mouse: {by_mouse}");
            let now: Vec<f64> = column(&mut tab, at).iter().map(|text| number(text)).collect();
            assert_eq!(&now, sorted, "by mouse: {by_mouse}");
        }
        next(&mut tab);
        assert_eq!(order(&mut tab, at), None);
        assert_eq!(column(&mut tab, at), given, "the third time they are as they were");
    }
}

/// Only one column at a time is said to be in order.
#[test]
fn a_second_column_takes_over() {
    let Some(mut tab) = Tab::new() else { return };
    tab.open(PAGES.file("three/report"));
    tab.size(1280, 800);
    tab.value(TABLE);
    tab.value(
        "[...t.tHead.querySelectorAll('button')].forEach((b, n) => { b.id = `head-${n}`; }), 0",
    );
    tab.click("#head-0");
    tab.click("#head-1");
    let said = tab.value("[...t.tHead.rows[0].cells].map((c) => c.getAttribute('aria-sort'))");
    assert!(said[0].is_null() && said[1] == "ascending", "{said}");
    let first = column(&mut tab, 0);
    let mut sorted = first.clone();
    tab.click("#head-0");
    let now = column(&mut tab, 0);
    sorted.sort_by_key(|text| text.to_lowercase());
    assert_eq!(now.len(), sorted.len());
    assert!(now.first() <= now.last(), "{now:?}");
}
