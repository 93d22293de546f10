//! The name somebody meant.

/// Names less alike than this are not offered.
const ALIKE: f64 = 0.8;

/// Longer names are nobody's slip.
const LONGEST: usize = 64;

/// The name in `names` that is most like `name`, if any is much like it.
pub(crate) fn nearest<'a>(name: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let name = Some(name.to_lowercase()).filter(|name| name.len() <= LONGEST)?;
    names
        .into_iter()
        .map(|other| (likeness(&name, &other.to_lowercase()), other))
        .filter(|&(alike, _)| alike >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0).then_with(|| b.1.cmp(a.1)))
        .map(|(_, other)| other)
}

/// Help that offers the nearest name.
pub(crate) fn did_you_mean<'a>(
    name: &str,
    names: impl IntoIterator<Item = &'a str>,
) -> Option<String> {
    nearest(name, names).map(|other| format!("did you mean `{other}`?"))
}

/// 1 for equal names; swapped letters count once, and so does a forgotten or added last part.
fn likeness(a: &str, b: &str) -> f64 {
    let whole = strsim::normalized_damerau_levenshtein(a, b);
    let words = |text: &str| {
        let mut words: Vec<&str> = text.split('_').collect();
        words.sort_unstable();
        words.join("_")
    };
    // One slip in a short name is a large part of it.
    let slip = a.len() > 2 && strsim::damerau_levenshtein(a, b) == 1;
    if slip {
        return whole.max(ALIKE);
    }
    whole.max(strsim::normalized_damerau_levenshtein(&words(a), &words(b)) - 0.05)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn typing_slips_and_swapped_words_are_found_and_strangers_are_not() {
        let names = ["marker_actions", "unit_actions", "turn_ends"];
        assert_eq!(nearest("marker_action", names), Some("marker_actions"));
        assert_eq!(nearest("markre_actions", names), Some("marker_actions"));
        assert_eq!(nearest("actions_marker", names), Some("marker_actions"));
        assert_eq!(nearest("mni", ["max", "min"]), Some("min"));
        assert_eq!(nearest("weather", names), None);
    }
}
