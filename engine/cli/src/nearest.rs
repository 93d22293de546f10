//! The nearest of some names to one that was mistyped.

/// The name most like `typed`, if any is like it at all.
pub(crate) fn nearest<'a>(
    typed: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> Option<&'a str> {
    let like = |name: &&'a str| (strsim::jaro_winkler(typed, name) * 1000.0) as u32;
    names.into_iter().max_by_key(like).filter(|name| like(name) >= 700)
}

/// `there is no WHAT called TYPED`, with the nearest name or all of them.
pub(crate) fn unknown(what: &str, typed: &str, names: &[&str], path: &str) -> String {
    let help = match nearest(typed, names.iter().copied()) {
        Some(name) => format!("did you mean `{name}`?"),
        None => format!("there are: {}", names.join(", ")),
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
}
