//! Which brackets are open, in a script that cannot be read.

/// The function that is still open at a place.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct OpenFunction<'a> {
    pub(super) name: &'a str,
    /// Line of its name, from 1.
    pub(super) line: usize,
    /// What would close the innermost bracket: `}`, `)` or `]`.
    pub(super) closing: char,
}

/// The function that is open at the end of a text.
pub(super) fn open_function(text: &str) -> Option<OpenFunction<'_>> {
    let open = open(text);
    let (first, last) = (open.first()?, open.last()?);
    let closing = match last.0 {
        '(' => ')',
        '[' => ']',
        _ => '}',
    };
    let before = &text[..first.1];
    let (start, _) = before.rmatch_indices("fn ").next()?;
    let rest = before[start + 2..].trim_start();
    let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_').unwrap_or(rest.len());
    let line = before[..start].matches('\n').count() + 1;
    Some(OpenFunction { name: &rest[..end], line, closing })
}

/// The brackets that are open at the end of a text, outermost first, each with its place. Those in
/// texts and comments do not count; one that closes an outer bracket closes all within it.
pub(super) fn open(text: &str) -> Vec<(char, usize)> {
    let mut open: Vec<(char, usize)> = Vec::new();
    let mut place = 0;
    while let Some(letter) = text[place..].chars().next() {
        match letter {
            '{' | '(' | '[' => open.push((letter, place)),
            '}' | ')' | ']' => {
                let partner = match letter {
                    '}' => '{',
                    ')' => '(',
                    _ => '[',
                };
                if let Some(at) = open.iter().rposition(|(sign, _)| *sign == partner) {
                    open.truncate(at);
                }
            }
            _ => {}
        }
        place += skipped(&text[place..]).unwrap_or(letter.len_utf8());
    }
    open
}

/// The length of the text or comment that starts here, if one does.
fn skipped(text: &str) -> Option<usize> {
    let line = text.find('\n').unwrap_or(text.len());
    if text.starts_with("//") {
        return Some(line);
    }
    if text.starts_with("/*") {
        return Some(comment(text));
    }
    match text.chars().next()? {
        '"' => Some(quoted(&text[..line], '"').unwrap_or(line)),
        '`' => Some(quoted(text, '`').unwrap_or(text.len())),
        _ => None,
    }
}

/// The length of a text up to its second quote.
fn quoted(text: &str, quote: char) -> Option<usize> {
    let mut letters = text.char_indices().skip(1);
    while let Some((place, letter)) = letters.next() {
        match letter {
            '\\' if quote == '"' => drop(letters.next()),
            _ if letter == quote => return Some(place + 1),
            _ => {}
        }
    }
    None
}

/// The length of a comment; comments may stand in comments.
fn comment(text: &str) -> usize {
    let (mut depth, mut place) = (0, 0);
    while place < text.len() {
        let rest = &text[place..];
        let (step, length) = match () {
            () if rest.starts_with("/*") => (1, 2),
            () if rest.starts_with("*/") => (-1, 2),
            () => (0, rest.chars().next().map_or(1, char::len_utf8)),
        };
        depth += step;
        place += length;
        if depth == 0 {
            break;
        }
    }
    place
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_open_function_is_the_one_whose_brace_is_open() {
        let text =
            "fn a(n) { n }\n/* fn b { */ private fn c(n) {\n \"}\\\"}\"; `}`; // }\n if n { (";
        assert_eq!(open_function(text), Some(OpenFunction { name: "c", line: 2, closing: ')' }));
        assert_eq!(open_function("fn a(n) { [n, (n)] }"), None);
        assert_eq!(open_function("{ {"), None);
    }

    #[test]
    fn brackets_in_texts_and_comments_do_not_count() {
        assert_eq!(open("/* { /* ( */ [ */ \"{\" `(\n` // {"), []);
        assert_eq!(open("é { ( }"), []);
        assert_eq!(open("é { (\" ) }"), [('{', 3), ('(', 5)]);
    }
}
