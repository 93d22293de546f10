//! Values of one argument in few words.

use ruleshift_game::Domain;

/// Pieces of a list of numbers that are written out.
const PIECES: usize = 6;
/// Names that may be left out of a longer list with `all but`.
const LEFT_OUT: usize = 3;

/// Some values of a domain, given by their places in it: `3-30`, `SECTION, TANK`, `any`.
pub(super) fn label(domain: Domain, places: &[usize]) -> String {
    if places.len() == domain.len() && places.len() > 1 {
        return "any".to_owned();
    }
    let show = |place: usize| domain.show(domain.lowest() + place as i32);
    match domain {
        Domain::Int(low, _) => numbers(low, places),
        Domain::Flag => places.iter().map(|&place| show(place)).collect(),
        Domain::Named(names) => {
            let join = |places: &mut dyn Iterator<Item = usize>| {
                places.map(show).collect::<Vec<_>>().join(", ")
            };
            let others = names.len() - places.len();
            if others <= LEFT_OUT && places.len() > 2 * others {
                let absent = &mut (0..names.len()).filter(|place| !places.contains(place));
                return format!("all but {}", join(absent));
            }
            join(&mut places.iter().copied())
        }
    }
}

fn numbers(low: i32, places: &[usize]) -> String {
    let mut ranges: Vec<(i32, i32)> = Vec::new();
    for number in places.iter().map(|&place| low + place as i32) {
        match ranges.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => ranges.push((number, number)),
        }
    }
    let text = |&(first, last): &(i32, i32)| match (first, last) {
        _ if first == last => first.to_string(),
        (0.., _) => format!("{first}-{last}"),
        _ => format!("{first} to {last}"),
    };
    if ranges.len() <= PIECES {
        return ranges.iter().map(text).collect::<Vec<_>>().join(", ");
    }
    let shown: Vec<String> = ranges[..PIECES - 1].iter().map(text).collect();
    format!("{} and {} more", shown.join(", "), ranges.len() + 1 - PIECES)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_become_ranges_and_names_lists() {
        let pins = Domain::Int(0, 30);
        assert_eq!(label(pins, &[3, 4, 5]), "3-5");
        assert_eq!(label(pins, &[0, 2, 3, 30]), "0, 2-3, 30");
        assert_eq!(label(pins, &(0..31).collect::<Vec<_>>()), "any");
        let odd: Vec<usize> = (1..30).step_by(2).collect();
        assert_eq!(label(pins, &odd), "1, 3, 5, 7, 9 and 10 more");
        assert_eq!(label(Domain::Int(-300, 300), &[0, 1, 2]), "-300 to -298");
        let names = Domain::Named(&["A", "B", "C", "D", "E", "F", "G"]);
        assert_eq!(label(names, &[0, 3]), "A, D");
        assert_eq!(label(names, &[0, 1, 2, 4, 6]), "all but D, F");
        assert_eq!(label(names, &[1, 2, 4, 6]), "B, C, E, G");
        assert_eq!(label(Domain::Flag, &[1]), "true");
        assert_eq!(label(Domain::Int(1, 1), &[0]), "1");
    }
}
