//! From the text of a doctrine's file to a doctrine, with all its faults at once.

use std::fmt;

use ron::error::SpannedError;
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};

use super::Doctrine;
use crate::nearest::unknown;
use crate::weights::Weights;

/// The form of a file.
#[derive(serde::Deserialize)]
#[serde(rename = "Doctrine", deny_unknown_fields)]
struct Form {
    name: String,
    about: String,
    weights: Listed,
}

/// Weights as they are written, in their order, whatever they are called.
struct Listed(Vec<(String, i32)>);

impl<'de> Deserialize<'de> for Listed {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Listed, D::Error> {
        from.deserialize_struct("Weights", Weights::NAMES, Lister)
    }
}

struct Lister;

impl<'de> Visitor<'de> for Lister {
    type Value = Listed;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("weights, each a whole number")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Listed, A::Error> {
        let mut listed = Vec::new();
        while let Some(Word(name)) = map.next_key()? {
            listed.push((name, map.next_value()?));
        }
        Ok(Listed(listed))
    }
}

/// The name before a value.
struct Word(String);

impl<'de> Deserialize<'de> for Word {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Word, D::Error> {
        struct Name;
        impl Visitor<'_> for Name {
            type Value = Word;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a name")
            }

            fn visit_str<E>(self, name: &str) -> Result<Word, E> {
                Ok(Word(name.to_owned()))
            }
        }
        from.deserialize_identifier(Name)
    }
}

/// Reads a doctrine, or says all that is wrong with its file.
pub(super) fn read(text: &str) -> Result<Doctrine, Vec<String>> {
    let Form { name, about, weights: Listed(listed) } =
        ron::from_str(text).map_err(|error| vec![unread(&error)])?;
    let faults = faults(&listed, text);
    if !faults.is_empty() {
        return Err(faults);
    }
    let value = |name: &str| listed.iter().find(|(n, _)| n == name).map_or(0, |(_, value)| *value);
    Ok(Doctrine { name, about, weights: Some(Weights::by_name(value)) })
}

/// A text that is not of the form.
fn unread(error: &SpannedError) -> String {
    match &error.code {
        ron::Error::NoSuchStructField { expected, found, .. } => {
            format!("line {}: {}", error.span.start, unknown("field", found, expected))
        }
        _ => format!("line {error}"),
    }
}

/// What is wrong with the weights, in the order of the file, and which of them are missing.
fn faults(listed: &[(String, i32)], text: &str) -> Vec<String> {
    let places = places(text);
    let at = |n: usize| places.get(n).map_or_else(String::new, |(l, c)| format!("line {l}:{c}: "));
    let named = |name: &str| listed.iter().filter(|(n, _)| n == name).count();
    // The first place is that of `weights` itself.
    let numbered = (1..).zip(listed);
    let mut faults: Vec<String> = numbered
        .filter_map(|(n, (name, value))| {
            let fault = if !Weights::NAMES.contains(&name.as_str()) {
                unknown("weight", name, Weights::NAMES)
            } else if listed[..n - 1].iter().any(|(earlier, _)| earlier == name) {
                format!("{name} is given twice")
            } else if !(0..=Weights::LARGEST).contains(value) {
                format!("{name} is {value}, expected 0 to {}", Weights::LARGEST)
            } else {
                return None;
            };
            Some(at(n) + &fault)
        })
        .collect();
    let missing = Weights::NAMES.iter().filter(|name| named(name) == 0);
    let missing: Vec<String> = missing.map(|name| format!("`{name}`")).collect();
    match &*missing {
        [] => {}
        [one] => faults.push(format!("{}the weight {one} is missing", at(0))),
        more => faults.push(format!("{}the weights {} are missing", at(0), more.join(", "))),
    }
    faults
}

/// Line and column of `weights` and of each name behind it that a value follows.
fn places(text: &str) -> Vec<(usize, usize)> {
    let plain = without_asides(text);
    let mut places = Vec::new();
    for (line, written) in (1..).zip(plain.split('\n')) {
        let letters: Vec<char> = written.chars().collect();
        let mut start = 0;
        while start < letters.len() {
            let part = |letter: &&char| letter.is_alphanumeric() || **letter == '_';
            let length = letters[start..].iter().take_while(part).count();
            let behind = || letters[start + length..].iter().find(|letter| !letter.is_whitespace());
            if length > 0 && behind() == Some(&':') {
                let name: String = letters[start..start + length].iter().collect();
                if !places.is_empty() || name == "weights" {
                    places.push((line, start + 1));
                }
            }
            start += length.max(1);
        }
    }
    places
}

/// The text with blanks instead of comments and of what stands between quotes.
fn without_asides(text: &str) -> String {
    const ASIDES: [(&str, &str); 3] = [("//", "\n"), ("/*", "*/"), ("\"", "\"")];
    let mut plain = String::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let aside = ASIDES.iter().find(|(opens, _)| rest.starts_with(opens));
        let length = aside.map_or(first.len_utf8(), |(opens, closes)| {
            let body = &rest[opens.len()..];
            opens.len() + body.find(closes).map_or(body.len(), |end| end + closes.len())
        });
        let (piece, after) = rest.split_at(length);
        let blank = |letter: char| if letter == '\n' { letter } else { ' ' };
        match aside {
            Some(_) => plain.extend(piece.chars().map(blank)),
            None => plain.push_str(piece),
        }
        rest = after;
    }
    plain
}
