//! Text for the terminal: paragraphs folded to its columns, small words around numbers.

use textwrap::{Options, WordSeparator, WordSplitter};

use crate::screen::NARROW;

/// Columns by which later lines of a paragraph are set in.
const HANG: usize = 2;
/// Columns to which they are set in at most.
const DEEPEST: usize = 8;

/// Paragraphs, one a line, in lines of at most eighty columns. Each keeps the blanks it begins with,
/// and its later lines are set in a little more. One with a word that is longer than a line, as a
/// ticket is, stays whole, so that it can be copied.
pub(crate) fn fold(text: &str) -> String {
    fold_to(text, NARROW)
}

/// The same, to so many columns.
pub(crate) fn fold_to(text: &str, width: usize) -> String {
    let paragraph = |line: &str| {
        if line.split(' ').any(|word| word.chars().count() >= width) {
            return line.to_owned();
        }
        let margin = line.len() - line.trim_start_matches(' ').len();
        hang(&" ".repeat(margin), line.trim_start_matches(' '), deeper(margin), width)
    };
    text.split('\n').map(paragraph).collect::<Vec<_>>().join("\n")
}

fn deeper(margin: usize) -> usize {
    (margin + HANG).min(DEEPEST.max(margin))
}

/// A text behind a label, in lines of at most `width` columns; later lines begin at column `later`.
pub(crate) fn hang(label: &str, text: &str, later: usize, width: usize) -> String {
    if label.chars().count() + text.chars().count() <= width {
        return format!("{label}{text}");
    }
    let later = " ".repeat(later);
    let options = Options::new(width)
        .initial_indent(label)
        .subsequent_indent(&later)
        .break_words(false)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation);
    textwrap::fill(&kept_whole(text), options).replace(KEPT, " ")
}

/// Stands for a blank at which no line is broken.
const KEPT: char = '\u{a0}';

/// A text whose commands, in backquotes, are not broken over lines: they are to be copied.
fn kept_whole(text: &str) -> String {
    let whole = |(n, part): (usize, &str)| {
        if n % 2 == 1 { part.replace(' ', KEPT.encode_utf8(&mut [0; 2])) } else { part.to_owned() }
    };
    text.split('`').enumerate().map(whole).collect::<Vec<_>>().join("`")
}

/// A count with its noun, many or one: "1 group", "3 groups".
pub(crate) fn count(number: u32, noun: &str) -> String {
    match (number, noun) {
        (1, _) => format!("1 {noun}"),
        (_, "man") => format!("{number} men"),
        (_, "battery") => format!("{number} batteries"),
        _ => format!("{number} {noun}s"),
    }
}

/// The word for a place in a row: "first", "second", "12th".
pub(crate) fn nth(place: u32) -> String {
    const WORDS: [&str; 6] = ["first", "second", "third", "fourth", "fifth", "sixth"];
    let word = place.checked_sub(1).and_then(|n| WORDS.get(n as usize));
    word.map_or_else(|| format!("{place}th"), |&word| word.to_owned())
}

/// A list as it is spoken: "a", "a and b", "a, b and c".
pub(crate) fn listed(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_and_set_in_and_lose_no_word() {
        let text = format!("      {}", "word ".repeat(40).trim_end());
        let folded = fold(&text);
        assert!(folded.lines().count() > 2);
        assert!(folded.lines().all(|line| line.chars().count() <= NARROW));
        assert!(folded.lines().skip(1).all(|line| line.starts_with("        word")));
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(words(&folded), words(&text));
        assert_eq!(fold("  short"), "  short");
    }

    #[test]
    fn a_command_is_not_broken_over_lines() {
        let text = format!("{} `ruleshift resume runs/one`", "word ".repeat(14).trim_end());
        assert!(fold(&text).contains("\n  `ruleshift resume runs/one`"), "{}", fold(&text));
    }

    #[test]
    fn numbers_have_their_nouns() {
        assert_eq!(
            [count(1, "man"), count(2, "man"), count(0, "battery")],
            ["1 man", "2 men", "0 batteries"]
        );
        assert_eq!([nth(1), nth(6), nth(7)], ["first", "sixth", "7th"]);
        let parts = ["a", "b", "c"].map(str::to_owned);
        assert_eq!([listed(&parts[..2]), listed(&parts)], ["a and b", "a, b and c"]);
    }
}
