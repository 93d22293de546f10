//! Renderers: pure functions from the report to text.

mod html;
mod json;
mod markdown;
pub(crate) mod page;
mod svg;
mod terminal;

pub use html::{html, vote_sheet};
pub use json::json;
pub use markdown::markdown;
pub use terminal::terminal;

use crate::report::Cell;

/// `text` fit for one line: control and direction characters, which scripts may put in a title,
/// become spaces, and runs of white space become one.
pub(crate) fn one_line(text: &str) -> String {
    let hidden =
        |c: char| c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let plain: String = text.chars().map(|c| if hidden(c) { ' ' } else { c }).collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A cell as text alone: with the sign of its verdict when it does not spell the verdict out.
fn signed(cell: &Cell) -> String {
    let text = one_line(&cell.text);
    match cell.sign() {
        Some(sign) => format!("{text} {sign}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::one_line;

    #[test]
    fn a_title_cannot_steer_the_terminal() {
        assert_eq!(one_line("a\u{1b}[31m\nb\t\u{202e}c  d"), "a [31m b c d");
    }
}
