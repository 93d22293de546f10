//! The named values of scripts: `SECTION`, `HARD`, `ATTACKER` and so on.

use std::collections::BTreeMap;

use ruleshift_game::{CARD_KINDS, CARD_OWNERS, Cover, Domain, EVENT_HOOKS, HOOKS, Kind, Quality};

/// Names and the numbers they stand for.
pub(crate) type Constants = BTreeMap<String, i64>;

/// The lists of names that hooks use, each once, in the order of their first use.
pub(crate) fn lists() -> Vec<&'static [&'static str]> {
    let values = HOOKS.iter().flat_map(|hook| {
        hook.args.iter().map(|arg| arg.domain).chain(std::iter::once(hook.result))
    });
    let events = EVENT_HOOKS.iter().flat_map(|hook| hook.args.iter().map(|arg| arg.domain));
    let mut lists = Vec::new();
    for domain in values.chain(events) {
        if let Domain::Named(names) = domain
            && !lists.contains(&names)
        {
            lists.push(names);
        }
    }
    lists
}

/// The constants of every script.
pub(crate) fn constants() -> Constants {
    let numbered = |names: &'static [&'static str]| {
        names.iter().enumerate().map(|(n, name)| ((*name).to_owned(), n as i64))
    };
    lists().into_iter().flat_map(numbered).collect()
}

/// Whether a name is written as constants are.
pub(crate) fn named_like(name: &str) -> bool {
    let upper = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '_';
    name.starts_with(|c: char| c.is_ascii_uppercase()) && name.chars().all(upper)
}

/// What the constants are that a function may be about: those its arguments take when it is a
/// hook that has any, else the lists that scripts use most.
pub(crate) fn offered(function: Option<&str>) -> String {
    let hooks = HOOKS.iter().map(|hook| (hook.name, hook.args));
    let mut hooks = hooks.chain(EVENT_HOOKS.iter().map(|hook| (hook.name, hook.args)));
    let args = hooks.find(|(name, _)| Some(*name) == function).map_or(&[][..], |(_, args)| args);
    let named = args.iter().filter(|arg| matches!(arg.domain, Domain::Named(_)));
    let own: Vec<String> =
        named.map(|arg| format!("`{}` is {}", arg.name, arg.domain.describe())).collect();
    if !own.is_empty() {
        return own.join("; ");
    }
    let general = GENERAL.map(|(what, names)| format!("{what}: {}", names.join(", ")));
    format!("constants are, as {}", general.join("; "))
}

/// The lists that scripts use most.
const GENERAL: [(&str, &[&str]); 5] = [
    ("kind of unit", Kind::CONSTANTS),
    ("quality", Quality::CONSTANTS),
    ("cover", Cover::CONSTANTS),
    ("owner", CARD_OWNERS),
    ("kind of card", CARD_KINDS),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_stands_for_one_number_in_every_list() {
        let constants = constants();
        for names in lists() {
            for (n, name) in names.iter().enumerate() {
                assert_eq!(constants[*name], n as i64, "{name}");
            }
        }
        assert!(constants.contains_key("SECTION") && constants.contains_key("NOBODY"));
    }
    #[test]
    fn the_constants_offered_are_those_of_the_hook_and_few() {
        let hooks = HOOKS.iter().map(|hook| hook.name);
        for name in hooks.chain(EVENT_HOOKS.iter().map(|hook| hook.name)).map(Some).chain([None]) {
            assert!(offered(name).len() <= 390, "{name:?}: {}", offered(name));
        }
        assert!(offered(None).contains("SECTION"), "{}", offered(None));
        assert!(offered(Some("move_dice")).starts_with("`kind` is "));
        assert!(!offered(Some("move_dice")).contains("TURN_END_CARD"));
    }

    #[test]
    fn constants_are_written_in_large_letters() {
        assert!(named_like("DUG_IN") && named_like("WOOD"));
        assert!(!named_like("wood") && !named_like("Wood") && !named_like("3"));
    }
}
