//! What a variant changes, as a paragraph.

use ruleshift_game::{EVENT_HOOKS, HOOKS};

use crate::change::Change;
use crate::variant::Variant;

/// Hooks named one by one in a sentence.
const NAMED: usize = 6;

/// A paragraph in plain words on what a variant with these changes does.
pub fn telling(variant: &Variant, changes: &[Change]) -> String {
    let (changed, same): (Vec<&Change>, Vec<&Change>) =
        changes.iter().partition(|change| change.changed > 0);
    let mut sentences = Vec::new();
    if !changed.is_empty() {
        let parts: Vec<String> =
            changed.iter().map(|change| format!("{} {}", change.hook, change.words)).collect();
        let (count, all) = (changed.len(), HOOKS.len());
        sentences.push(format!("It changes {count} of the {all} value hooks: {}.", short(&parts)));
        if changed.iter().any(|change| change.words.contains(" cases (")) {
            sentences.push("A case is one combination of a hook's arguments.".to_owned());
        }
    } else if variant.event_hooks().is_empty() {
        sentences.push("It changes nothing.".to_owned());
    }
    if !same.is_empty() {
        let names: Vec<String> = same.iter().map(|change| change.hook.to_owned()).collect();
        let they = if same.len() == 1 { "it was" } else { "they were" };
        sentences.push(format!("It leaves {} as {they}.", short(&names)));
    }
    let moments: Vec<String> =
        variant.event_hooks().iter().map(|&n| moment(EVENT_HOOKS[n].about)).collect();
    if !moments.is_empty() {
        sentences.push(format!("It acts {}.", listed(&moments)));
    }
    sentences.join(" ")
}

/// When an event hook runs, as a part of a sentence: `when a card is drawn`.
fn moment(about: &str) -> String {
    let clause = about.split([',', '.', ';', ':']).next().unwrap_or(about);
    let mut letters = clause.chars();
    let first = letters.next().map(|first| first.to_ascii_lowercase());
    first.into_iter().chain(letters).collect()
}

/// `a, b and c`.
pub(crate) fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// As [`listed`], with only the first of many.
fn short(words: &[String]) -> String {
    if words.len() <= NAMED {
        return listed(words);
    }
    let mut some = words[..NAMED - 1].to_vec();
    some.push(format!("{} more", words.len() + 1 - NAMED));
    listed(&some)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source};

    fn told(hooks: &str) -> String {
        let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{hooks}");
        let variant = Variant::load(&Source::new("house", text), &Overrides::none()).unwrap();
        let told = telling(&variant, &variant.changes());
        told.replace(&format!("of the {} value", HOOKS.len()), "of the N value")
    }

    #[test]
    fn a_variant_is_told_in_plain_words() {
        assert_eq!(
            told(
                "fn turn_end_cards(now) { 2 } fn turn_ends(now, drawn, in_deck) { drawn == in_deck }"
            ),
            "It changes 2 of the N value hooks: turn_end_cards always (1 -> 2) and turn_ends in 30 of \
             36 cases (true -> false). A case is one combination of a hook's arguments."
        );
        assert_eq!(told(""), "It changes nothing.");
        assert_eq!(
            told("fn marker_actions(now) { now }"),
            "It changes nothing. It leaves marker_actions as it was."
        );
        assert_eq!(
            told(
                "fn on_card_drawn(game, card, owner) { game.note(\"x\") } fn on_game_start(game) { game.note(\"x\") }"
            ),
            "It acts before the first turn and when a card is drawn."
        );
    }

    #[test]
    fn a_moment_is_the_first_clause() {
        assert_eq!(moment("When a card is drawn, before anyone acts."), "when a card is drawn");
        assert_eq!(moment("At turn end."), "at turn end");
    }

    #[test]
    fn many_hooks_are_not_all_named() {
        let names =
            |count: usize| -> Vec<String> { (1..=count).map(|n| format!("h{n}")).collect() };
        assert_eq!(short(&names(6)), "h1, h2, h3, h4, h5 and h6");
        assert_eq!(short(&names(7)), "h1, h2, h3, h4, h5 and 2 more");
    }
}
