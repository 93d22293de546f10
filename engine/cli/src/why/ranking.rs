//! The choices of one decision, best first, in a few lines.

use std::cmp::Reverse;

use ruleshift_players::Score;

use crate::account::page::hang;
use crate::screen::NARROW;

/// Columns that a story sets decisions in by.
pub(super) const MARGIN: usize = 8;
/// Widest name of a choice, so that mark, score and games played out find room beside it.
const WIDEST: usize = NARROW - MARGIN - 23;

/// One choice, and what its player made of it.
pub(super) struct Weighed {
    pub(super) text: String,
    pub(super) score: Score,
    pub(super) chosen: bool,
}

/// Choices that are told in one line: the one that was chosen, or some of the same score.
struct Row {
    text: String,
    score: Score,
    chosen: bool,
    /// Choices it stands for.
    count: usize,
}

/// The choices in lines, best first and the chosen one marked. When only some lines are `shown`,
/// those of the same score share one, the chosen one is never left out, and what is not shown is
/// counted.
pub(super) fn rows(weighed: Vec<Weighed>, shown: usize) -> Vec<String> {
    let (forbidden, mut weighed): (Vec<_>, Vec<_>) =
        weighed.into_iter().partition(|one| one.score == Score::FORBIDDEN);
    weighed.sort_by_key(|one| (Reverse(one.score.value), !one.chosen));
    let all = shown >= weighed.len();
    let mut rows = if all { single(weighed) } else { together(weighed) };
    let chosen = rows.iter().position(|row| row.chosen).unwrap_or(0);
    let mut left_out = if rows.len() > shown { rows.split_off(shown) } else { vec![] };
    if chosen >= shown {
        std::mem::swap(&mut rows[shown - 1], &mut left_out[chosen - shown]);
    }
    let mut lines = aligned(&rows);
    if let Some(last) = left_out.iter().map(|row| row.score.value).min() {
        let count: usize = left_out.iter().map(|row| row.count).sum();
        lines.push(format!("  {count} more, down to {last}"));
    }
    if !forbidden.is_empty() {
        let texts: Vec<String> = forbidden.into_iter().map(|one| one.text).collect();
        let texts = if all { texts.join("; ") } else { named(&texts, "more") };
        lines.push(hang("  forbidden: ", &texts, 12, NARROW - MARGIN));
    }
    lines
}

/// A row for each.
fn single(weighed: Vec<Weighed>) -> Vec<Row> {
    let row = |Weighed { text, score, chosen }| Row { text, score, chosen, count: 1 };
    weighed.into_iter().map(row).collect()
}

/// A row for each score; the chosen one has its own.
fn together(weighed: Vec<Weighed>) -> Vec<Row> {
    weighed
        .chunk_by(|one, next| !one.chosen && !next.chosen && one.score == next.score)
        .map(|alike| {
            let texts: Vec<String> = alike.iter().map(|one| one.text.clone()).collect();
            let Weighed { score, chosen, .. } = alike[0];
            let mut text = named(&texts, "more alike");
            if text.chars().count() > WIDEST && texts.len() > 1 {
                text = format!("{}; {} more alike", texts[0], texts.len() - 1);
            }
            Row { text, score, chosen, count: texts.len() }
        })
        .collect()
}

/// Some names, and of the `rest` how many there are.
fn named(texts: &[String], rest: &str) -> String {
    match texts {
        [] => String::new(),
        [one] => one.clone(),
        [_, _] | [_, _, _] => texts.join("; "),
        [one, two, more @ ..] => format!("{one}; {two}; {} {rest}", more.len()),
    }
}

/// Names to the left, scores to the right; a name that is too long goes on below.
fn aligned(rows: &[Row]) -> Vec<String> {
    let width = rows.iter().map(|row| row.text.chars().count()).max().unwrap_or(0).min(WIDEST);
    let scores = rows.iter().map(|row| row.score.value.to_string()).collect::<Vec<_>>();
    let digits = scores.iter().map(String::len).max().unwrap_or(0);
    let line = |(row, score): (&Row, &String)| {
        let mark = if row.chosen { '>' } else { ' ' };
        let tries = match row.score.tries {
            0 => String::new(),
            1 => "  (1 game)".to_owned(),
            tries => format!("  ({tries} games)"),
        };
        let text = hang("", &row.text, 0, WIDEST);
        let (first, rest) = text.split_once('\n').unwrap_or((&text, ""));
        let first = format!("{mark} {first:width$}  {score:>digits$}{tries}");
        let rest = rest.lines().map(|line| format!("\n            {line}"));
        [first].into_iter().chain(rest).collect::<String>()
    };
    rows.iter().zip(&scores).map(line).collect()
}
