//! How the answers of a hook shift, in words.

use ruleshift_game::Domain;

/// The cases whose answers differ.
pub(crate) fn cases<'a>(old: &'a [i16], new: &'a [i16]) -> impl Iterator<Item = usize> + 'a {
    (0..old.len()).filter(move |&n| old[n] != new[n])
}

/// Whether the answer before and after is the same in every case.
pub(crate) fn one_pair(old: &[i16], new: &[i16]) -> bool {
    let all_same = |answers: &[i16]| answers.iter().all(|answer| *answer == answers[0]);
    all_same(old) && all_same(new)
}

/// `always (1 -> 2)`, `in 3 of 36 cases (1 to 2 less)`, `in no case`.
pub(crate) fn words(result: Domain, old: &[i16], new: &[i16]) -> String {
    let changed: Vec<(i16, i16)> = cases(old, new).map(|n| (old[n], new[n])).collect();
    let how = || how(result, &changed);
    match changed.len() {
        0 => "in no case".to_owned(),
        all if all == old.len() => format!("always ({})", how()),
        some => format!("in {some} of {} cases ({})", old.len(), how()),
    }
}

fn how(result: Domain, changed: &[(i16, i16)]) -> String {
    let show = |answer: i16| result.show(answer.into());
    let (before, after) = changed[0];
    if changed.iter().all(|pair| *pair == (before, after)) {
        return format!("{} -> {}", show(before), show(after));
    }
    if let Domain::Int(..) = result {
        let by = |(before, after): &(i16, i16)| i32::from(*after) - i32::from(*before);
        let least = changed.iter().map(by).min().unwrap_or(0);
        let most = changed.iter().map(by).max().unwrap_or(0);
        return match (least, most) {
            (1.., _) => format!("{} more", span(least, most)),
            (_, ..=-1) => format!("{} less", span(-most, -least)),
            _ => format!("from {} less to {most} more", -least),
        };
    }
    if changed.iter().all(|(_, new)| *new == after) {
        return format!("to {}", show(after));
    }
    if result != Domain::Flag {
        return "to various answers".to_owned();
    }
    let count = |pair: (i16, i16)| changed.iter().filter(|changed| **changed == pair).count();
    format!("{} true -> false, {} false -> true", count((1, 0)), count((0, 1)))
}

fn span(least: i32, most: i32) -> String {
    if least == most { least.to_string() } else { format!("{least} to {most}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shifts_are_told_in_words() {
        let dice = |old: &[i16], new: &[i16]| words(Domain::Int(0, 24), old, new);
        assert_eq!(dice(&[1], &[2]), "always (1 -> 2)");
        assert_eq!(dice(&[1, 2, 3], &[1, 2, 3]), "in no case");
        assert_eq!(dice(&[1, 2, 3], &[2, 3, 3]), "in 2 of 3 cases (1 more)");
        assert_eq!(dice(&[1, 2, 3], &[0, 0, 1]), "always (1 to 2 less)");
        assert_eq!(dice(&[1, 2, 3], &[4, 2, 1]), "in 2 of 3 cases (from 2 less to 3 more)");
        let flag = |old: &[i16], new: &[i16]| words(Domain::Flag, old, new);
        assert_eq!(flag(&[1, 1, 0], &[0, 0, 0]), "in 2 of 3 cases (true -> false)");
        assert_eq!(flag(&[1, 1, 0], &[0, 0, 1]), "always (2 true -> false, 1 false -> true)");
        let named = Domain::Named(&["NOTHING", "PIN", "LOSS"]);
        assert_eq!(words(named, &[0, 1, 2], &[2, 2, 2]), "in 2 of 3 cases (to LOSS)");
        assert_eq!(words(named, &[0, 1, 2], &[2, 0, 1]), "always (to various answers)");
    }
}
