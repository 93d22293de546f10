//! The named values of scripts: `SECTION`, `HARD`, `ATTACKER` and so on.

use std::collections::BTreeMap;

use ruleshift_game::{Arg, Cover, Domain, EVENT_HOOKS, HOOKS, Kind, Quality, Side};

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

/// What the constants are that may be meant behind this text: those of the argument or question
/// named last in the function, else the lists that scripts use most. None where it names numbers.
pub(crate) fn offered(before: &str) -> Option<String> {
    let function = before.rsplit("fn ").next().unwrap_or_default();
    let mut words = function.split(|c: char| !c.is_alphanumeric() && c != '_');
    let name = words.next().unwrap_or_default();
    let hooks = || {
        let values = HOOKS.iter().map(|hook| (hook.name, hook.args));
        values.chain(EVENT_HOOKS.iter().map(|hook| (hook.name, hook.args)))
    };
    let own = hooks().find(|(hook, _)| *hook == name).map_or(&[][..], |(_, args)| args);
    let of = |args: &'static [Arg], word: &str| args.iter().find(|arg| arg.name == word);
    let named = |arg: &&Arg| matches!(arg.domain, Domain::Named(_));
    let meant = words.rev().find_map(|word| {
        let any = || hooks().find_map(|(_, args)| of(args, word).filter(named));
        of(own, word).filter(|arg| named(arg) || arg.name == "card").or_else(any)
    });
    match meant {
        Some(arg) if named(&arg) => Some(format!("`{}` is {}", arg.name, arg.domain.describe())),
        Some(_) => None,
        None => {
            let list = |(what, names): (&str, &[&str])| format!("{what} are {}", names.join(", "));
            Some(GENERAL.map(list).join("; "))
        }
    }
}

/// The lists that scripts use most.
const GENERAL: [(&str, &[&str]); 4] = [
    ("kinds of unit", Kind::CONSTANTS),
    ("qualities", Quality::CONSTANTS),
    ("covers", Cover::CONSTANTS),
    ("sides", Side::CONSTANTS),
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
    fn the_constants_offered_are_those_spoken_of_and_few() {
        let told = |before| offered(before).unwrap();
        let cover = "`cover` is OPEN, LIGHT, HARD or DUG_IN";
        assert_eq!(told("fn a(kind) { kind }\nfn save(kind, cover) { switch cover { "), cover);
        assert_eq!(told("fn on_turn_end(game, turn) { if game.cover(3) == "), cover);
        assert_eq!(offered("fn on_extra_card(game, card, owner) { if card == "), None);
        assert!(told("fn on_card_drawn(game, card, owner) { if card == ").contains("GROUP_CARD"));
        let general = told("fn marker_actions(now) { if now == ");
        assert!(general.starts_with("kinds of unit are SECTION, "), "{general}");
        assert!(general.len() <= 390, "{general}");
    }

    #[test]
    fn constants_are_written_in_large_letters() {
        assert!(named_like("DUG_IN") && named_like("WOOD"));
        assert!(!named_like("wood") && !named_like("Wood") && !named_like("3"));
    }
}
