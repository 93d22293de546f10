//! The text of a script and places in it.

use std::ops::Range;
use std::path::PathBuf;

use rhai::Position;

/// The text of one script, with the names by which people know it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// Name of the variant.
    pub name: String,
    /// File the text was read from; none for a shipped script.
    pub path: Option<PathBuf>,
    /// The script.
    pub text: String,
}

/// A place in a script.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Place {
    /// Line, from 1.
    pub(crate) line: usize,
    /// Column in characters, from 1.
    pub(crate) column: usize,
    /// The bytes of the word there.
    pub(crate) span: Range<usize>,
}

impl Source {
    /// A script without a file. The mark that some editors put before a text is left out.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Source {
        let mut text = text.into();
        if text.starts_with('\u{feff}') {
            text = text.split_off('\u{feff}'.len_utf8());
        }
        Source { name: name.into(), path: None, text }
    }

    /// What diagnostics call the script: its file, or its name when it has none.
    pub fn label(&self) -> String {
        self.path.as_ref().map_or_else(|| self.name.clone(), |path| path.display().to_string())
    }

    /// The place of a position, with the word that starts there. Behind the last letter there is
    /// one place only, whatever blanks follow.
    pub(crate) fn place(&self, position: Position) -> Option<Place> {
        let (line, column) = (position.line()?, position.position().unwrap_or(1).max(1));
        let end = self.text.trim_end().len();
        let before_line: usize = self.text.split_inclusive('\n').take(line - 1).map(str::len).sum();
        let row = self.text[before_line..].split('\n').next().unwrap_or_default();
        let in_line: usize = row.chars().take(column - 1).map(char::len_utf8).sum();
        let start = (before_line + in_line).min(end);
        let part = |c: &char| c.is_alphanumeric() || *c == '_';
        let length: usize = self.text[start..].chars().take_while(part).map(char::len_utf8).sum();
        let one = self.text[start..].chars().next().map_or(0, char::len_utf8);
        let before = &self.text[..start];
        Some(Place {
            line: before.matches('\n').count() + 1,
            column: before.rsplit('\n').next().unwrap_or_default().chars().count() + 1,
            span: start..start + length.max(one),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_is_the_word_that_starts_there() {
        let source = Source::new("x", "fn a(now) {\n    é + count_1 + 2\n}");
        let word = |line, column| {
            let place = source.place(Position::new(line, column)).unwrap();
            source.text[place.span].to_owned()
        };
        assert_eq!(word(1, 4), "a");
        assert_eq!(word(2, 9), "count_1");
        assert_eq!(word(2, 7), "+");
        assert_eq!(word(3, 2), "", "the end of the text");
        assert_eq!(word(9, 9), "", "beyond the end");
        let end = Source::new("x", "a {\r\n  b\r\n \r\n").place(Position::new(4, 1)).unwrap();
        assert_eq!((end.line, end.column), (2, 4), "behind the last letter");
        assert_eq!(source.place(Position::NONE), None);
        let marked = Source::new("x", "\u{feff}fn a(now) {}\r\n");
        assert_eq!(marked.text, "fn a(now) {}\r\n");
    }
}
