//! Help with a mistyped name.

use strsim::damerau_levenshtein;

/// Longer names are nobody's slip, and would take long to compare.
const LONGEST: usize = 64;

/// The name nearest to `typed`, if no more than a third of its letters, or two, are wrong.
fn nearest<'a>(typed: &str, names: &[&'a str]) -> Option<&'a str> {
    let typed = Some(typed.to_lowercase()).filter(|typed| typed.len() <= LONGEST)?;
    let wrong = |name: &&str| damerau_levenshtein(&typed, &name.to_lowercase());
    let most = (typed.chars().count() / 3).max(2);
    names.iter().copied().min_by_key(wrong).filter(|name| wrong(name) <= most)
}

/// `there is no WHAT called TYPED`, with the nearest name and all there are.
pub(crate) fn unknown(what: &str, typed: &str, names: &[&str]) -> String {
    let help = nearest(typed, names)
        .map_or_else(|| ".".to_owned(), |name| format!("; did you mean `{name}`?"));
    format!("there is no {what} called `{typed}`{help} There are: {}", names.join(", "))
}

#[cfg(test)]
mod tests {
    use super::unknown;

    #[test]
    fn a_slip_finds_its_name_and_a_stranger_has_none() {
        let names = ["advance", "hold"];
        assert_eq!(
            unknown("weight", "Advnace", &names),
            "there is no weight called `Advnace`; did you mean `advance`? There are: advance, hold"
        );
        assert_eq!(
            unknown("weight", "courage", &names),
            "there is no weight called `courage`. There are: advance, hold"
        );
    }
}
