//! Letters that the language does not know: look-alikes of other alphabets, digits of other
//! scripts, signs of word processors, letters nobody sees.

use rhai::Position;

use crate::diagnostic::{Diagnostic, Id};
use crate::source::Source;

/// Letters of other alphabets, each followed by the one it looks like.
const LOOK_ALIKES: &str = "аaеeоoрpсcуyхxіiјjѕsһhԁdԛqԝwɡgոnкkтtмmвb\
    АAВBСCЕEНHІIЈJКKМMОOРPЅSТTХXУYҮYԌG\
    αaοoνvρpιiκkυuχxγyΑAΒBΕEΖZΗHΙIΚKΜMΝNΟOΡPΤTΥYΧXıiȷj";

/// Signs of word processors and books, and what a script has for them.
const SIGNS: &[(&str, &str)] = &[
    ("–—−‐‑‒", "-"),
    ("×∗·", "*"),
    ("÷∕⁄", "/"),
    ("≤", "<="),
    ("≥", ">="),
    ("≠", "!="),
    ("∧", "&&"),
    ("∨", "||"),
    ("¬", "!"),
    ("，", ","),
    ("；", ";"),
    ("：", ":"),
    ("（", "("),
    ("）", ")"),
    ("｛", "{"),
    ("｝", "}"),
    ("→⇒", "=>"),
    ("…", ".."),
];

const QUOTES: &str = "“”„‟‘’‚‛«»‹›＂＇´";

/// The first digit of other scripts; nine more follow each.
const ZEROS: [u32; 13] =
    [0x660, 0x6F0, 0x7C0, 0x966, 0x9E6, 0xA66, 0xAE6, 0xB66, 0xBE6, 0xE50, 0xED0, 0xFF10, 0x1D7CE];

/// What is wrong with the letter at a place where the compiler stopped, if it is none that the
/// language knows.
pub(crate) fn strange(source: &Source, at: Position) -> Option<Diagnostic> {
    let place = source.place(at)?;
    let (before, after) = source.text.split_at(place.span.start);
    let letter = after.chars().next().filter(|letter| !letter.is_ascii())?;
    if let Some((headline, help)) = sign(letter, after) {
        return Some(Diagnostic::new(Id::Syntax, source, at, headline).help(help));
    }
    // A name is told whole: the compiler stopped in the middle of it.
    let part = |c: &char| c.is_alphanumeric() || *c == '_';
    let back = before.chars().rev().take_while(part).count();
    let start: usize = before.chars().rev().take_while(part).map(char::len_utf8).sum();
    let word: String = source.text[before.len() - start..].chars().take_while(part).collect();
    let at = Position::new(place.line as u16, (place.column - back) as u16);
    let (headline, help) = name(&word, letter);
    Some(Diagnostic::new(Id::Syntax, source, at, headline).help(help))
}

/// What is wrong with a letter that is no part of a name, and what to do.
fn sign(letter: char, after: &str) -> Option<(String, String)> {
    let code = code(letter);
    if invisible(letter) {
        return Some((
            format!("an invisible letter stands here ({code})"),
            "delete it: such letters come along when text is copied".to_owned(),
        ));
    }
    if letter.is_whitespace() {
        return Some((
            format!("a blank of another kind stands here ({code})"),
            "type it anew with the space bar: it comes along when text is copied".to_owned(),
        ));
    }
    if QUOTES.contains(letter) {
        return Some((
            format!("`{letter}` is no quote of the language"),
            "a text stands between straight quotes: `\"text\"`".to_owned(),
        ));
    }
    if digit(letter).is_some() {
        let found: String = after.chars().take_while(|&c| digit(c).is_some()).collect();
        let plain: String = found.chars().filter_map(digit).collect();
        return Some((
            format!("`{found}` has digits of another script"),
            format!("write `{plain}`"),
        ));
    }
    let plain = SIGNS.iter().find(|(signs, _)| signs.contains(letter)).map(|(_, plain)| *plain);
    let help = match plain {
        Some(plain) => format!("write `{plain}`"),
        None if letter.is_alphanumeric() => return None,
        None => "remove it: such signs may stand in texts and comments only".to_owned(),
    };
    Some((format!("`{letter}` ({code}) is no sign of the language"), help))
}

fn code(letter: char) -> String {
    format!("U+{:04X}", u32::from(letter))
}

/// Whether a letter turns the direction of writing or steers the terminal that shows it.
pub(crate) fn steers(letter: char) -> bool {
    let turns = matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || (letter.is_control() && !matches!(letter, '\t' | '\r' | '\n'))
}

/// Letters that must not even stand in texts and comments: they make a script look other than it
/// is, or steer the terminal that shows it.
pub(crate) fn hidden(source: &Source) -> impl Iterator<Item = Diagnostic> {
    let rows = source.text.split('\n').zip(1..=u16::MAX);
    rows.flat_map(move |(row, line)| {
        let letters = row.chars().zip(1..=u16::MAX);
        letters.filter(|(c, _)| steers(*c)).map(move |(c, column)| {
            let headline = format!("an invisible letter stands here ({})", code(c));
            Diagnostic::new(Id::Syntax, source, Position::new(line, column), headline).help(
                "delete it: even in a text or comment it makes a script look other than it is",
            )
        })
    })
}

/// What is wrong with a name that has a letter which names may not have, and what to do.
fn name(word: &str, letter: char) -> (String, String) {
    let plain: String = word.chars().map(|c| twin(c).unwrap_or(c)).collect();
    match twin(letter).filter(|_| plain.is_ascii()) {
        Some(twin) => (
            format!("`{word}` looks like `{plain}`, but has other letters"),
            format!(
                "type it anew: its `{letter}` is {}, which only looks like `{twin}`",
                code(letter)
            ),
        ),
        None => (
            format!("`{word}` has the letter `{letter}`, which names may not have"),
            "names consist of a to z, A to Z, digits and `_`; other letters may stand in texts and comments".to_owned(),
        ),
    }
}

/// The plain letter or digit that one of another alphabet looks like.
fn twin(letter: char) -> Option<char> {
    let mut pairs = LOOK_ALIKES.chars();
    while let (Some(other), Some(plain)) = (pairs.next(), pairs.next()) {
        if other == letter {
            return Some(plain);
        }
    }
    let wide = u32::from(letter).checked_sub(0xFF01 - 0x21).filter(|code| *code < 0x7F);
    wide.and_then(char::from_u32).filter(char::is_ascii_graphic).or_else(|| digit(letter))
}

/// The plain digit for one of another script.
fn digit(letter: char) -> Option<char> {
    let code = u32::from(letter);
    ZEROS.iter().find_map(|zero| char::from_digit(code.checked_sub(*zero)?, 10))
}

fn invisible(letter: char) -> bool {
    matches!(u32::from(letter),
        0x80..=0x9F | 0xAD | 0x34F | 0x61C | 0x115F | 0x1160 | 0x17B4 | 0x17B5 | 0x180B..=0x180E
        | 0x200B..=0x200F | 0x202A..=0x202E | 0x2060..=0x206F | 0x3164 | 0xFE00..=0xFE0F | 0xFEFF
        | 0xFFA0 | 0xFFF0..=0xFFFB | 0xE0000..=0xE0FFF)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn look_alikes_come_in_pairs_of_a_strange_and_a_plain_letter() {
        let letters: Vec<char> = LOOK_ALIKES.chars().collect();
        for pair in letters.chunks(2) {
            assert!(!pair[0].is_ascii() && pair[1].is_ascii_alphabetic(), "{pair:?}");
        }
        assert_eq!("ｍоνе１٣é".chars().map(twin).collect::<Vec<_>>().len(), 7);
        let plain: String = "ｍоνе１٣".chars().filter_map(twin).collect();
        assert_eq!(plain, "move13");
        assert_eq!(twin('é'), None);
    }

    #[test]
    fn digits_of_other_scripts_have_their_value() {
        let plain: String = "٠٩۵९０９".chars().filter_map(digit).collect();
        assert_eq!(plain, "095909");
        assert_eq!(digit('5'), None);
    }
}
