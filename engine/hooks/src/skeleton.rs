//! A script to start from, with chosen hooks that change nothing yet.

use crate::limits::MAX_SCRIPT;
use crate::nearest::did_you_mean;
use crate::reference::{comment, example_body, explained, idle};
use crate::structure::{Signature, signatures};

/// What the examples of event hooks need in `about`, by the constant that stands for it.
const OWN: [(&str, &str); 2] = [
    ("RUNNER", "cards: #{ runner: #{ title: \"Runner\", about: \"what the card does\" } }"),
    ("ALARMS", "counters: #{ alarms: \"what it counts\" }"),
];

/// A commented script called `name` with the hooks of these names, each once and in this order. It
/// passes the check as it stands and changes nothing.
///
/// # Errors
/// A line for each name that is no hook's, with the nearest; or for more hooks than a script holds.
pub fn skeleton(name: &str, hooks: &[String]) -> Result<String, Vec<String>> {
    let known = signatures();
    let mut chosen: Vec<&Signature> = Vec::new();
    let mut faults = Vec::new();
    for hook in hooks {
        match known.iter().find(|signature| signature.name == hook) {
            Some(found) if chosen.iter().any(|one| one.name == found.name) => {}
            Some(found) => chosen.push(found),
            None => faults.push(unknown(hook, &known)),
        }
    }
    let text = script(name, &chosen);
    if text.len() > MAX_SCRIPT {
        let (length, count) = (text.len(), chosen.len());
        faults.push(format!(
            "these {count} hooks make a script of {length} bytes, expected at most {MAX_SCRIPT}: take fewer"
        ));
    }
    if faults.is_empty() { Ok(text) } else { Err(faults) }
}

fn unknown(name: &str, known: &[Signature]) -> String {
    let help = did_you_mean(name, known.iter().map(|signature| signature.name))
        .unwrap_or_else(|| "`ruleshift list hooks` shows them all".to_owned());
    format!("there is no hook called `{name}`: {help}")
}

fn script(name: &str, hooks: &[&Signature]) -> String {
    let title = title(name);
    let mut text = comment(
        "Ask here the question this rule is to answer. As it stands it changes nothing: each hook \
         hands on what the rules say already, `now`, or does nothing.",
    );
    let examples: String = hooks.iter().map(|hook| example_body(hook)).collect();
    let own = OWN.iter().filter(|(constant, _)| examples.contains(constant));
    let own: String = own.map(|(_, entry)| format!("        {entry},\n")).collect();
    text += &format!(
        "\nfn about() {{\n    #{{\n        title: \"{title}\",\n        summary: \"Changes nothing yet.\",\n{own}    }}\n}}\n"
    );
    for hook in hooks {
        text.push('\n');
        text += &explained(hook);
        text += &comment(&format!("For example: {}", example_body(hook)));
        text += &idle(hook);
    }
    text
}

/// `my-rule` as `My rule`.
fn title(name: &str) -> String {
    let words = name.replace(['-', '_'], " ");
    let mut letters = words.trim().chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Variant, advice};

    fn names(hooks: &[&str]) -> Vec<String> {
        hooks.iter().map(|hook| (*hook).to_owned()).collect()
    }

    #[test]
    fn a_skeleton_explains_its_hooks() {
        let text =
            skeleton("my-rule", &names(&["marker_actions", "on_turn_end", "marker_actions"]));
        insta::assert_snapshot!(text.unwrap(), @r#"
        // Ask here the question this rule is to answer. As it stands it changes nothing: each hook hands
        // on what the rules say already, `now`, or does nothing.

        fn about() {
            #{
                title: "My rule",
                summary: "Changes nothing yet.",
            }
        }

        // Actions of each marker on the marker card. Answer: 0 to 8.
        // Base rule (RULES 4.2): Four.
        // For example: clamp(now + 1, 0, 8)
        fn marker_actions(now) { now }

        // At turn end, after recovery and tests and before scoring. (RULES 2.5)
        // - turn: the turn that ends; 1 to 40
        // Base rule: nothing more happens.
        // For example: if turn % 3 == 0 { game.add_points(DEFENDER, 1); }
        fn on_turn_end(game, turn) { }
        "#);
    }

    #[test]
    fn a_skeleton_of_any_hook_passes_without_a_warning_and_its_example_changes_something() {
        for signature in signatures() {
            let text = skeleton("my-rule", &names(&[signature.name])).unwrap();
            let load = |text: &str| {
                let variant = Variant::load(&Source::new("my-rule", text), &Overrides::none());
                variant.unwrap_or_else(|e| panic!("{e}"))
            };
            let idle = load(&text);
            assert!(idle.warnings().is_empty(), "{}", idle.warnings());
            let base = ruleshift_game::Rules::base();
            assert_eq!((idle.on_base(), advice(&idle, &base, &base)), (&base, vec![]));
            assert_eq!(idle.event_hooks(), &[0; 0]);
            let body = if signature.event { "{ }" } else { "{ now }" };
            let example = format!("{{ {} }}", example_body(&signature));
            let busy = load(&text.replace(body, &example));
            assert!(*busy.on_base() != base || busy.event_hooks().len() == 1, "{}", signature.name);
        }
    }

    #[test]
    fn unknown_hooks_are_told_all_at_once_with_the_nearest() {
        let told = skeleton("x", &names(&["marker_action", "turn_ends", "weather"])).unwrap_err();
        assert_eq!(
            told,
            [
                "there is no hook called `marker_action`: did you mean `marker_actions`?",
                "there is no hook called `weather`: `ruleshift list hooks` shows them all"
            ]
        );
    }

    /// With its examples the template would be longer than a script may be.
    #[test]
    fn more_hooks_than_a_script_holds_are_refused() {
        let all: Vec<String> = signatures().iter().map(|hook| hook.name.to_owned()).collect();
        let told = skeleton("all", &all).unwrap_err();
        assert!(
            told.len() == 1 && told[0].ends_with("expected at most 32768: take fewer"),
            "{told:?}"
        );
    }
}
