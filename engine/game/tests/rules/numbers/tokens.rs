//! The numbers in a paragraph, written in digits or words.

use std::ops::Range;

/// Words that are numbers. A half is 50 percent.
const WORDS: [(&str, i32); 13] = [
    ("none", 0),
    ("one", 1),
    ("once", 1),
    ("two", 2),
    ("twice", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("half", super::HALF),
];

/// Words that more often are none: "whoever is the one", "once he has fired".
const COMMON: [&str; 3] = ["none", "one", "once"];

/// One paragraph with its numbers taken out.
pub(super) struct Text {
    /// The text with `#` for each number.
    template: String,
    numbers: Vec<i32>,
    /// Whether each number has to be read by somebody.
    counts: Vec<bool>,
}

impl Text {
    pub(super) fn new(text: &str) -> Text {
        let mut read = Text { template: String::new(), numbers: vec![], counts: vec![] };
        let mut rest = text;
        while let Some(first) = rest.chars().next() {
            let word = |c: char| c.is_alphanumeric();
            let run = rest.find(|c| !word(c)).unwrap_or(rest.len());
            rest = if first.is_ascii_digit() {
                read.digits(rest)
            } else if word(first) {
                read.word(&rest[..run]);
                &rest[run..]
            } else if let Some(length) = reference_list(rest) {
                read.template.push_str(&rest[..length]);
                &rest[length..]
            } else {
                read.template.push(first);
                &rest[first.len_utf8()..]
            };
        }
        read
    }

    /// Reads the number that `rest` begins with; what comes after it. A number with three decimals
    /// is read in thousandths; one with fewer names a paragraph.
    fn digits<'a>(&mut self, rest: &'a str) -> &'a str {
        let decimal = |(n, c): (usize, char)| {
            let inner = c == '.' && rest[n + 1..].starts_with(|c: char| c.is_ascii_digit());
            (!c.is_ascii_digit() && !inner).then_some(n)
        };
        let length = rest.char_indices().find_map(decimal).unwrap_or(rest.len());
        let number = &rest[..length];
        match number.split_once('.') {
            Some((whole, parts)) if parts.len() == 3 => {
                self.number(&format!("{whole}{parts}"), true);
            }
            Some(_) => self.template.push_str(number),
            None => self.number(number, true),
        }
        &rest[length..]
    }

    fn number(&mut self, digits: &str, counts: bool) {
        self.template.push('#');
        self.numbers.push(digits.parse().expect("digits"));
        self.counts.push(counts);
    }

    fn word(&mut self, word: &str) {
        let lower = word.to_lowercase();
        match WORDS.iter().find(|(name, _)| *name == lower) {
            Some((name, value)) => self.number(&value.to_string(), !COMMON.contains(name)),
            None => self.template.push_str(word),
        }
    }

    pub(super) fn numbers(&self) -> &[i32] {
        &self.numbers
    }

    /// Whether a number must not go unread.
    pub(super) fn counts(&self, number: usize) -> bool {
        self.counts[number]
    }

    /// The numbers of `template` where it stands as a sentence just before `mark`.
    pub(super) fn ending_at(&self, mark: &str, template: &str) -> Option<Range<usize>> {
        let end = self.template.find(mark)?;
        let start = end.checked_sub(template.len())?;
        let sentence = self.template[..end].ends_with(template)
            && (start == 0 || self.template[..start].ends_with([' ']));
        let begins =
            self.template[..start].trim_end().chars().last().is_none_or(|c| ".:;)".contains(c));
        (sentence && begins).then(|| self.within(start..end))
    }

    /// The numbers of `template` at the one place where it stands.
    pub(super) fn find(&self, template: &str) -> Option<Range<usize>> {
        let start = self.template.find(template)?;
        let end = start + template.len();
        assert!(!self.template[end..].contains(template), "`{template}` stands there twice");
        Some(self.within(start..end))
    }

    fn within(&self, place: Range<usize>) -> Range<usize> {
        let before = |end: usize| self.template[..end].matches('#').count();
        before(place.start)..before(place.end)
    }

    /// A number with the words around it.
    pub(super) fn around(&self, number: usize) -> String {
        let (at, _) = self.template.match_indices('#').nth(number).expect("a number");
        let from = self.template[..at].char_indices().rev().nth(40).map_or(0, |(n, _)| n);
        let rest: String = self.template[at + 1..].chars().take(40).collect();
        format!("{}[{}]{rest}", &self.template[from..at], self.numbers[number])
    }
}

/// The length of a list of paragraphs or sections in brackets, as in `(7, 13.5)`.
fn reference_list(rest: &str) -> Option<usize> {
    let inner = rest.strip_prefix('(')?;
    let end = inner.find(')')?;
    let list = |c: char| c.is_ascii_digit() || ".,- to".contains(c);
    (inner[..end].chars().all(list) && end > 0).then_some(end + 2)
}

/// A paragraph read by hand.
#[test]
fn numbers_are_told_from_references() {
    let text = Text::new("One of 12 (7, 13.5) is 1.155 by 4.2, half twice; to 16 in no-one's 3-6.");
    assert_eq!(text.template, "# of # (7, 13.5) is # by 4.2, # #; to # in no-#'s #-#.");
    assert_eq!(text.numbers, [1, 12, 1155, 50, 2, 16, 1, 3, 6]);
    assert_eq!(text.find("to # in"), Some(5..6));
    assert_eq!(text.find("nowhere"), None);
}
