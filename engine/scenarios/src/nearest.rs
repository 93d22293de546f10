//! Help with a mistyped name.

use strsim::damerau_levenshtein;

/// Longer names are nobody's slip, and would take long to compare.
const LONGEST: usize = 64;

/// The name nearest to `typed`, if no more than a third of its letters, or two, are wrong.
fn nearest<'a>(typed: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let typed = Some(typed.to_lowercase()).filter(|typed| typed.len() <= LONGEST)?;
    let wrong = |name: &&str| damerau_levenshtein(&typed, &name.to_lowercase());
    let most = (typed.chars().count() / 3).max(2);
    names.into_iter().min_by_key(wrong).filter(|name| wrong(name) <= most)
}

/// `there is no WHAT called TYPED`, with the nearest name and all there are.
pub(crate) fn unknown<'a>(
    what: &str,
    typed: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> String {
    let names: Vec<&str> = names.into_iter().collect();
    let help = nearest(typed, names.iter().copied())
        .map_or(String::new(), |name| format!("; did you mean `{name}`?"));
    let help = if help.is_empty() { ".".to_owned() } else { help };
    format!("there is no {what} called `{typed}`{help} There are: {}", names.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_name_and_a_stranger_has_none() {
        let names = ["british-rifle-platoon", "us-rifle-platoon", "truck"];
        assert_eq!(nearest("brittish-rifle-platon", names), Some("british-rifle-platoon"));
        assert_eq!(nearest("US-Rifle-Platoon", names), Some("us-rifle-platoon"));
        assert_eq!(nearest("trukc", names), Some("truck"));
        assert_eq!(nearest("cavalry", names), None);
    }

    #[test]
    fn all_names_are_told() {
        assert_eq!(
            unknown("vehicle", "trukc", ["truck", "cart"]),
            "there is no vehicle called `trukc`; did you mean `truck`? There are: truck, cart"
        );
        assert_eq!(
            unknown("vehicle", "balloon", ["truck", "cart"]),
            "there is no vehicle called `balloon`. There are: truck, cart"
        );
    }
}
