//! Tables out of Markdown and off the screen.

use super::Shown;

/// The tables of a Markdown report, in order. A caption is the paragraph before its table.
pub(super) fn markdown(text: &str) -> Vec<Shown> {
    let mut tables: Vec<Shown> = Vec::new();
    let (mut paragraph, mut within) = (String::new(), false);
    for line in text.lines() {
        if line.starts_with("| ") || line.starts_with("|-") {
            if !within {
                tables.push(Shown { caption: paragraph.clone(), rows: vec![] });
            }
            within = true;
            let cells = cells(line);
            // The line below the heads says only how columns line up.
            if !cells.iter().all(|cell| [":--", "--:"].contains(&cell.as_str())) {
                tables.last_mut().expect("one was begun").rows.push(cells);
            }
        } else {
            within = false;
            if !line.trim().is_empty() {
                paragraph = plain(line);
            }
        }
    }
    tables
}

/// The cells of a line between bars; a bar behind a backslash is a letter.
fn cells(line: &str) -> Vec<String> {
    let (mut cells, mut cell, mut escaped) = (Vec::new(), String::new(), false);
    for letter in line.trim_start_matches('|').chars() {
        match letter {
            '|' if !escaped => cells.push(std::mem::take(&mut cell).trim().to_owned()),
            '\\' if !escaped => {
                escaped = true;
                continue;
            }
            _ => cell.push(letter),
        }
        escaped = false;
    }
    cells
}

/// A text without the backslashes that keep its letters from being markup.
fn plain(line: &str) -> String {
    let (mut text, mut escaped) = (String::new(), false);
    for letter in line.chars() {
        if letter == '\\' && !escaped {
            escaped = true;
        } else {
            text.push(letter);
            escaped = false;
        }
    }
    text
}

/// The tables on a screen: a caption, heads over one line or more, a rule, and lines up to the next
/// empty one. Each line is one row of one cell, its label left out.
pub(super) fn screen(text: &str) -> Vec<Shown> {
    let lines: Vec<&str> = text.lines().collect();
    let rule = |line: &str| !line.trim().is_empty() && line.trim().chars().all(|c| c == '─');
    let mut tables = Vec::new();
    for (n, _) in lines.iter().enumerate().filter(|(_, line)| rule(line)) {
        let start = lines[..n].iter().rposition(|line| line.trim().is_empty()).map_or(0, |n| n + 1);
        let body = lines[n + 1..].iter().take_while(|line| !line.trim().is_empty());
        // Words of explanation may stand right below; they begin at the left without a gap.
        let row = |line: &&str| line.split_once("  ").map(|(_, rest)| vec![rest.to_owned()]);
        let rows = body.filter_map(row).collect();
        tables.push(Shown { caption: lines[start].trim().to_owned(), rows });
    }
    tables
}

#[test]
fn tables_are_found_in_both() {
    let page = "# A\n\nIn short\n\n| M\\|x | Base |\n| :-- | --: |\n| length | 1.5 |\n\nEnd\n";
    let rows = vec![vec!["M|x".into(), "Base".into()], vec!["length".into(), "1.5".into()]];
    assert_eq!(markdown(page), [Shown { caption: "In short".into(), rows }]);
    let shown = "A\n\nIn short\nM|x      Base\n────────────\nlength    1.5\nof it\n\nEnd\n";
    let rows = vec![vec!["  1.5".to_owned()]];
    assert_eq!(screen(shown), [Shown { caption: "In short".into(), rows }]);
}
