//! Tables off a page.

use super::Shown;

/// The tables of a page, in order.
pub(super) fn tables(page: &str) -> Vec<Shown> {
    parts(page, "table")
        .map(|table| {
            let caption = parts(table, "caption").next().map(words).unwrap_or_default();
            let row = |row| cells(row).into_iter().map(words).collect();
            Shown { caption, rows: parts(table, "tr").map(row).collect() }
        })
        .collect()
}

/// What stands in each element of a name, none of which holds another of its name.
fn parts<'a>(text: &'a str, name: &str) -> impl Iterator<Item = &'a str> {
    let (open, close) = (format!("<{name}"), format!("</{name}>"));
    let mut rest = text;
    std::iter::from_fn(move || {
        loop {
            let start = rest.find(&open)? + open.len();
            rest = &rest[start..];
            // `<t` begins `<table` as well.
            if rest.starts_with(|c: char| c.is_ascii_alphanumeric()) {
                continue;
            }
            let inside = &rest[rest.find('>')? + 1..];
            let end = inside.find(&close)?;
            rest = &inside[end..];
            return Some(&inside[..end]);
        }
    })
}

/// The cells of a row: heads and others, in order.
fn cells(row: &str) -> Vec<&str> {
    let mut found: Vec<(usize, &str)> = ["th", "td"]
        .iter()
        .flat_map(|name| parts(row, name))
        .map(|cell| (cell.as_ptr() as usize, cell))
        .collect();
    found.sort_unstable_by_key(|(place, _)| *place);
    found.into_iter().map(|(_, cell)| cell).collect()
}

/// What a reader sees of an element: no tags, and what stands for letters is letters.
fn words(element: &str) -> String {
    let (mut text, mut rest) = (String::new(), element);
    while let Some(start) = rest.find('<') {
        text.push_str(&rest[..start]);
        rest = rest[start..].split_once('>').map_or("", |(_, after)| after);
    }
    text.push_str(rest);
    let signs = [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#x27;", "'"), ("&#x2f;", "/")];
    let text = signs.iter().fold(text, |text, (sign, letter)| text.replace(sign, letter));
    // A space that keeps a number with its unit is a space.
    text.replace("&amp;", "&").replace('\u{a0}', " ").trim().to_owned()
}

#[test]
fn tables_are_found_on_a_page() {
    let page = "<p>x</p><table><caption class=\"unseen\">In &lt;short&gt;</caption><thead><tr>\
        <th scope=\"col\">M</th></tr></thead><tbody><tr><th>a</th><td><b>1</b>.5</td></tr></tbody></table>";
    let rows = vec![vec!["M".into()], vec!["a".into(), "1.5".into()]];
    assert_eq!(tables(page), [Shown { caption: "In <short>".into(), rows }]);
}
