//! The named values of scripts: `SECTION`, `HARD`, `ATTACKER` and so on.

use std::collections::BTreeMap;

use ruleshift_game::{Domain, EVENT_HOOKS, HOOKS};

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
}
