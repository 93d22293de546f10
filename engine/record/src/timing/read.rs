//! From the text of a file to a timing table, with all its faults at once.

use std::fmt;

use ron::Value;
use ron::error::SpannedError;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, Visitor};

use super::Timing;

/// Reads the entries as they are written, whatever they are called. It gives up at entry number
/// `until`, so that the reader of RON tells where that one is.
struct Lister {
    until: usize,
}

impl<'de> DeserializeSeed<'de> for Lister {
    type Value = Vec<(String, Value)>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        from.deserialize_struct("Timing", &Timing::NAMES, self)
    }
}

impl<'de> Visitor<'de> for Lister {
    type Value = Vec<(String, Value)>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a timing table such as `(turn: 90, throw: 10)`")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        let mut listed = Vec::new();
        while let Some(name) = map.next_key_seed(Name)? {
            if listed.len() == self.until {
                return Err(A::Error::custom("here"));
            }
            listed.push((name, map.next_value()?));
        }
        Ok(listed)
    }
}

/// The name before a value.
struct Name;

impl<'de> DeserializeSeed<'de> for Name {
    type Value = String;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<String, D::Error> {
        from.deserialize_identifier(self)
    }
}

impl Visitor<'_> for Name {
    type Value = String;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_str<E>(self, name: &str) -> Result<String, E> {
        Ok(name.to_owned())
    }
}

fn list(text: &str, until: usize) -> Result<Vec<(String, Value)>, SpannedError> {
    ron::Options::default().from_str_seed(text, Lister { until })
}

/// Reads a timing table, or says all that is wrong with its text.
pub(super) fn read(text: &str) -> Result<Timing, Vec<String>> {
    let listed = list(text, usize::MAX).map_err(|error| vec![format!("line {error}")])?;
    let mut timing = Timing::default();
    let mut faults = Vec::new();
    for (n, (name, value)) in listed.iter().enumerate() {
        let seen = listed[..n].iter().any(|(earlier, _)| earlier == name);
        match entry(&mut timing, name, value, seen) {
            Ok(()) => {}
            Err(fault) => faults.push(place(text, n) + &fault),
        }
    }
    if faults.is_empty() { Ok(timing) } else { Err(faults) }
}

/// Puts an entry down, or says what is wrong with it.
fn entry(timing: &mut Timing, name: &str, value: &Value, seen: bool) -> Result<(), String> {
    let Some(entry) = timing.entry(name) else { return Err(unknown(name)) };
    if seen {
        return Err(format!("`{name}` is given twice"));
    }
    let expected = format!("expected seconds from 0 to {}", Timing::MOST);
    let Value::Number(number) = value else {
        return Err(format!("`{name}` is no number, {expected}"));
    };
    let seconds = number.into_f64();
    if !(0.0..=Timing::MOST).contains(&seconds) {
        return Err(format!("`{name}` is {seconds}, {expected}"));
    }
    *entry = seconds;
    Ok(())
}

/// Longer names are nobody's slip, and would take long to compare.
const LONGEST: usize = 64;

/// The name nearest to `typed`, if no more than a third of its letters, or two, are wrong.
fn unknown(typed: &str) -> String {
    let wrong = |name: &&str| strsim::damerau_levenshtein(&typed.to_lowercase(), name);
    let most = (typed.chars().count() / 3).max(2);
    let near = || Timing::NAMES.into_iter().min_by_key(wrong).filter(|name| wrong(name) <= most);
    let nearest = Some(typed).filter(|typed| typed.len() <= LONGEST).and_then(|_| near());
    let help = nearest.map_or_else(|| ".".to_owned(), |name| format!("; did you mean `{name}`?"));
    let names = Timing::NAMES.join(", ");
    format!("there is no entry called `{typed}`{help} There are: {names}")
}

/// Where the name of an entry begins.
fn place(text: &str, entry: usize) -> String {
    list(text, entry).err().map_or_else(String::new, |error| format!("line {}: ", error.span.start))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(text: &str) -> Vec<String> {
        Timing::from_ron(text).expect_err("a table with faults")
    }

    #[test]
    fn the_file_to_start_from_is_the_default() {
        assert_eq!(Timing::from_ron(Timing::FILE), Ok(Timing::default()));
        for name in Timing::NAMES {
            assert!(Timing::FILE.contains(&format!("\n    {name}: ")), "{name} can be edited");
        }
    }

    #[test]
    fn what_is_left_out_has_its_default() {
        let expected = Timing { card: 7.5, throw: 0.0, ..Timing::default() };
        assert_eq!(Timing::from_ron("(card: 7.5, throw: 0)"), Ok(expected));
        assert_eq!(Timing::from_ron("()"), Ok(Timing::default()));
    }

    #[test]
    fn all_faults_are_told_at_once_each_with_its_place() {
        let text = "// ours\n(\n    turn: -1,\n    acton: 20,\n    card: inf, throw: 1e9,\n    \
                    coffee: 600,\n    decision: \"long\",\n    turn: NaN,\n    action: 4,\n)";
        assert_eq!(
            faults(text),
            [
                "line 3:5: `turn` is -1, expected seconds from 0 to 3600",
                "line 4:5: there is no entry called `acton`; did you mean `action`? There are: \
                 turn, card, action, throw, decision",
                "line 5:5: `card` is inf, expected seconds from 0 to 3600",
                "line 5:16: `throw` is 1000000000, expected seconds from 0 to 3600",
                "line 6:5: there is no entry called `coffee`. There are: turn, card, action, \
                 throw, decision",
                "line 7:5: `decision` is no number, expected seconds from 0 to 3600",
                "line 8:5: `turn` is given twice",
            ]
        );
        assert_eq!(
            faults("(turn: NaN)"),
            ["line 1:2: `turn` is NaN, expected seconds from 0 to 3600"]
        );
    }

    #[test]
    fn a_text_that_is_no_table_has_one_fault_with_its_place() {
        for (text, place) in [("(turn: 5", "line 1:"), ("(\n  turn 5)", "line 2:"), ("", "line 1:")]
        {
            let faults = faults(text);
            assert_eq!(faults.len(), 1, "{faults:?}");
            assert!(faults[0].starts_with(place), "{faults:?}");
        }
    }
}
