//! The nearest of some names to one that was mistyped.

use std::cmp::Reverse;

/// Names that are all told when none is like the one that was typed; of more, the nearest are.
const FEW: usize = 10;
/// How many of them.
const NEAREST: usize = 3;

/// How much a name is like the one that was typed, in thousandths.
fn likeness(typed: &str, name: &str) -> u32 {
    (strsim::jaro_winkler(typed, name) * 1000.0) as u32
}

/// The name most like `typed`, if any is like it at all.
pub(crate) fn nearest<'a>(
    typed: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> Option<&'a str> {
    let like = |name: &&'a str| likeness(typed, name);
    names.into_iter().max_by_key(like).filter(|name| like(name) >= 700)
}

/// `there is no WHAT called TYPED`, with the nearest name or names, or all when there are few.
pub(crate) fn unknown(what: &str, typed: &str, names: &[&str], path: &str) -> String {
    let help = match nearest(typed, names.iter().copied()) {
        Some(name) => format!("did you mean `{name}`?"),
        None if names.len() <= FEW => format!("there are: {}", names.join(", ")),
        None => {
            let mut nearest = names.to_vec();
            nearest.sort_by_key(|name| Reverse(likeness(typed, name)));
            format!("the nearest are {}", nearest[..NEAREST].join(", "))
        }
    };
    format!(
        "there is no {what} called `{typed}`: {help}\n  Your own is named by its path, ending in {path}"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_found_and_nonsense_has_none() {
        let names = ["no-late-fire", "three-marker-actions"];
        assert_eq!(nearest("no-late-fir", names), Some("no-late-fire"));
        assert_eq!(nearest("three-markers", names), Some("three-marker-actions"));
        assert_eq!(nearest("xyzzy", names), None);
    }

    #[test]
    fn of_many_names_only_the_nearest_are_told() {
        let names: Vec<String> = (b'a'..=b'z').map(|c| format!("rule-{}", c as char)).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let told = unknown("variant", "xyz", &names, ".rhai");
        let line = "there is no variant called `xyz`: the nearest are ";
        let shown = told.lines().next().unwrap().strip_prefix(line).unwrap().split(", ");
        assert_eq!(shown.count(), NEAREST, "{told}");
        assert!(unknown("doctrine", "xyz", &names[..3], ".ron").contains("rule-a, rule-b, rule-c"));
    }
}
