//! The names of the language in words: what each constant stands for.

use std::fmt::Write;

use ruleshift_game::{Domain, EVENT_HOOKS, HOOKS, meaning};

use crate::constants::lists;

/// Names that only event hooks know, and what they stand for.
const OF_EVENTS: &[(&str, &str)] = &[
    ("NOBODY", "neither side"),
    ("TURN_END_CARD", "a card that ends the turn"),
    ("MARKER_CARD", "a card on which a side's markers act"),
    ("GROUP_CARD", "a card on which a group acts"),
    ("LEADER_CARD", "a card on which a leader acts"),
    ("BATTERY_CARD", "a card on which a battery may act"),
    ("SHORTAGE_CARD", "a card that leaves a side short of ammunition"),
    ("EXTRA_CARD", "a card of a house rule"),
];

/// The constants, list by list: where each list is used, then its names and what they stand for.
pub(super) fn constants() -> String {
    let mut text =
        "\n### Constants\n\nThe names in large letters, by the arguments and answers that \
                    use them.\n\n| name | in words | |\n| --- | --- | --- |\n"
            .to_owned();
    for names in lists() {
        let _ = writeln!(text, "| **{}** | | |", used_for(names));
        for name in names {
            let (label, about) = in_words(name);
            let _ = writeln!(text, "| `{name}` | {label} | {about} |");
        }
    }
    text
}

/// The label of a name, and what it is.
fn in_words(name: &str) -> (&'static str, &'static str) {
    let of_events = OF_EVENTS.iter().find(|(listed, _)| *listed == name);
    meaning(name)
        .map(|meaning| (meaning.label, meaning.about))
        .or(of_events.map(|(_, words)| (*words, "")))
        .unwrap_or_default()
}

/// What a list of names is for: the arguments and answers that use it.
fn used_for(names: &[&str]) -> String {
    let same = |domain: Domain| matches!(domain, Domain::Named(list) if list == names);
    let of_events = EVENT_HOOKS.iter().flat_map(|hook| hook.args);
    let args = HOOKS.iter().flat_map(|hook| hook.args).chain(of_events);
    let answers = HOOKS.iter().filter(|hook| same(hook.result)).map(|hook| hook.name);
    let mut uses: Vec<&str> =
        args.filter(|arg| same(arg.domain)).map(|arg| arg.name).chain(answers).collect();
    uses.sort_unstable();
    uses.dedup();
    uses.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_put_in_words() {
        for name in lists().into_iter().flatten() {
            assert!(!in_words(name).0.is_empty(), "{name}");
        }
        assert_eq!(in_words("LIGHT_GUN").0, "light machine gun");
        assert_eq!(in_words("HEAVY_GUN").0, "", "there is no such name");
    }
}
