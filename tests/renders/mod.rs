//! The same numbers on the terminal, in Markdown, on the page and as data.

mod page;
mod text;

use ruleshift_record::{Metric, MetricShift};

use crate::support::Run;

/// A table as some renderer shows it.
#[derive(Clone, Debug, Default, PartialEq)]
struct Shown {
    /// What it is called.
    caption: String,
    /// Texts of its cells, the heads first.
    rows: Vec<Vec<String>>,
}

impl Shown {
    /// The numbers in each cell.
    fn numbers(&self) -> Vec<Vec<Vec<String>>> {
        self.rows.iter().map(|row| row.iter().map(|cell| numbers(cell)).collect()).collect()
    }
}

/// The numbers in a text, as digits with a minus before and a point between, without signs of thousands.
fn numbers(text: &str) -> Vec<String> {
    let letters: Vec<char> = text.chars().collect();
    let mut found: Vec<String> = Vec::new();
    let mut within = false;
    for (n, &letter) in letters.iter().enumerate() {
        let before = n.checked_sub(1).map(|n| letters[n]);
        let digit_after = letters.get(n + 1).is_some_and(char::is_ascii_digit);
        if letter.is_ascii_digit() {
            if !within {
                let minus = matches!(before, Some('\u{2212}'));
                found.push(if minus { "-".to_owned() } else { String::new() });
            }
            found.last_mut().expect("one was begun").push(letter);
            within = true;
        } else if within && letter == '.' && digit_after {
            found.last_mut().expect("one was begun").push(letter);
        } else if !(within && letter == ',' && digit_after) {
            within = false;
        }
    }
    found
}

/// Runs whose reports have every sort of table.
const RUNS: [(&str, &str); 6] = [
    ("compare", "two-turn-end-cards --games 400"),
    ("compare", "two-turn-end-cards no-late-fire kinder-pin-recovery --games 160"),
    ("compare", "no-late-fire --players steady bold --games 320"),
    ("sweep", "two-turn-end-cards:cards=1..3 --games 80 --target minutes=150"),
    ("cross", "no-late-fire quick-feet --games 80"),
    ("tune", "tougher-sides:more=-20..40/20 --target attacker_wins=50% --games 40"),
];

#[test]
fn page_markdown_and_terminal_show_the_same_numbers() {
    for (command, args) in RUNS {
        let run = Run::of(command, args.split_whitespace());
        assert_eq!(run.done.code, 0, "{command} {args}: {}", run.done.err);
        let markdown = text::markdown(&run.text("report.md"));
        let page = page::tables(&run.text("report.html"));
        assert!(markdown.len() >= 2, "{command} {args}: {} tables", markdown.len());
        let captions = |tables: &[Shown]| -> Vec<String> {
            tables.iter().map(|table| table.caption.clone()).collect()
        };
        assert_eq!(captions(&page), captions(&markdown), "{command} {args}");
        for (one, other) in page.iter().zip(&markdown) {
            assert_eq!(one.numbers(), other.numbers(), "{command} {args}: {}", one.caption);
        }
        compare_screen(&run.done.out, &markdown, &format!("{command} {args}"));
    }
}

/// Every table on the screen has the numbers of the table of that name, row by row.
fn compare_screen(screen: &str, written: &[Shown], what: &str) {
    let shown = text::screen(screen);
    assert!(!shown.is_empty(), "{what}: no table on the screen\n{screen}");
    for table in shown {
        // A long caption goes on in the next line.
        let longer = format!("{} ", table.caption);
        let same = written.iter().find(|other| other.caption == table.caption);
        let same = same.or_else(|| written.iter().find(|t| t.caption.starts_with(&longer)));
        let same = same.unwrap_or_else(|| panic!("{what}: no table {:?}", table.caption));
        let rows = same.numbers().split_off(1);
        // On the screen a label may be broken over lines, so a first column of words does not count.
        let plain = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '\u{2212}');
        let words = same.rows[1..].iter().any(|row| !row[0].chars().all(plain));
        let rows: Vec<Vec<String>> = rows
            .into_iter()
            .map(|row| row.into_iter().skip(usize::from(words)).flatten().collect())
            .collect();
        let expected: Vec<&Vec<String>> = rows.iter().filter(|row| !row.is_empty()).collect();
        let found: Vec<Vec<String>> = table.rows.iter().map(|row| numbers(&row[0])).collect();
        let found: Vec<&Vec<String>> = found.iter().filter(|row| !row.is_empty()).collect();
        assert_eq!(found, expected, "{what}: {}", table.caption);
    }
}

/// A value of the data as it prints with the digits of `printed`.
fn printed_as(value: f64, printed: &str) -> String {
    let decimals = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let text = format!("{value:.decimals$}");
    let zero = !text.contains(|c: char| c.is_ascii_digit() && c != '0');
    if zero { text.replace('-', "") } else { text }
}

/// What stands in a row of shifts: both means, the shift, the ends of its interval.
fn values(shift: &MetricShift) -> [f64; 5] {
    let scale = if shift.unit == "share" { 100.0 } else { 1.0 };
    [shift.reference_mean, shift.mean, shift.shift, shift.low, shift.high].map(|v| v * scale)
}

#[test]
fn the_front_table_is_the_data_rounded() {
    let run = Run::start("two-turn-end-cards --games 800");
    let tables = text::markdown(&run.text("report.md"));
    let summary = run.summary();
    let headline: Vec<&MetricShift> = summary.metrics.iter().filter(|m| m.headline).collect();
    let label = |shift: &MetricShift| Metric::by_name(&shift.metric).unwrap().spec().label;
    let holds = |table: &&Shown| {
        let named = |shift: &&MetricShift| {
            table.rows.iter().any(|row| row.len() > 4 && row[0].starts_with(label(shift)))
        };
        headline.iter().all(named)
    };
    let front = tables.iter().find(holds).expect("a table of all headline shifts");
    assert_eq!(front.rows.len(), 1 + headline.len());
    for shift in headline {
        let row = front.rows.iter().find(|row| row[0].starts_with(label(shift))).unwrap();
        let shown: Vec<String> = row[1..5].iter().flat_map(|cell| numbers(cell)).collect();
        let expected: Vec<String> = values(shift)
            .iter()
            .zip(&shown)
            .map(|(value, printed)| printed_as(*value, printed))
            .collect();
        assert_eq!(shown, expected, "{}", shift.metric);
        assert_eq!(shown.len(), 5, "{row:?}");
        assert!(row[5].ends_with(shift.verdict.word()), "{row:?}");
    }
}

#[test]
fn numbers_are_found_in_what_people_read() {
    let found = |text| numbers(text).join(" ");
    assert_eq!(found("\u{2212}3.29 to +12"), "-3.29 12");
    assert_eq!(found("100,000 games, 53.3 %, < 0.001."), "100000 53.3 0.001");
    assert_eq!(found("none"), "");
    assert_eq!(printed_as(-0.0004, "0.00"), "0.00");
    assert_eq!(printed_as(-1.25, "-1.2"), "-1.2");
}
