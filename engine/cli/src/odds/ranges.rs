//! Ranges that the rules tell apart.

use ruleshift_game::limits::MAX_RANGE;

/// A stretch of ranges over which all rules answer the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Stretch {
    /// One range in it, in inches.
    pub(crate) range: i32,
    /// How a reader is told of it.
    pub(crate) label: String,
}

/// The ranges that were typed, or else the longest stretches over which `answers` are the same.
pub(crate) fn stretches(typed: Option<&[i32]>, answers: impl Fn(i32) -> Vec<i32>) -> Vec<Stretch> {
    if let Some(typed) = typed {
        let one = |&range: &i32| Stretch { range, label: format!("at {range} in") };
        return typed.iter().map(one).collect();
    }
    let most = i32::from(MAX_RANGE);
    let mut found = Vec::new();
    let mut first = 0;
    for range in 0..=most {
        if range == most || answers(range) != answers(range + 1) {
            found.push(Stretch { range, label: label(first, range, most) });
            first = range + 1;
        }
    }
    found
}

fn label(first: i32, last: i32, most: i32) -> String {
    match (first, last) {
        (0, last) if last == most => "at any range".to_owned(),
        (0, last) => format!("to {last} in"),
        (first, last) if last == most => format!("from {first} in on"),
        (first, last) if first == last => format!("at {first} in"),
        (first, last) => format!("{first} to {last} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_part_where_an_answer_changes() {
        let found = stretches(None, |range| vec![i32::from(range > 8), i32::from(range > 9)]);
        let told: Vec<_> = found.iter().map(|s| (s.range, s.label.as_str())).collect();
        assert_eq!(told, [(8, "to 8 in"), (9, "at 9 in"), (86, "from 10 in on")]);
        assert_eq!(stretches(None, |_| vec![])[0].label, "at any range");
        assert_eq!(stretches(Some(&[7]), |_| vec![])[0].label, "at 7 in");
    }
}
