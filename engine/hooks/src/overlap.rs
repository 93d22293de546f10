//! Where two variants of a stack touch the same hooks, and whether their order matters there.

use ruleshift_game::{EVENT_HOOKS, Hook, Rules};
use serde::Serialize;

use crate::diagnostic::Diagnostics;
use crate::shift::cases;
use crate::stack::Stack;
use crate::variant::Variant;

/// Hooks that two variants of a stack both touch. The first is the one that comes first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Overlap {
    /// The variant that comes first, as it is typed.
    pub first: String,
    /// The one that comes after it.
    pub second: String,
    /// Value hooks that both change.
    pub value_hooks: Vec<SharedHook>,
    /// Event hooks that both have: there the first acts first.
    pub event_hooks: Vec<&'static str>,
    /// What is wrong in the other order, when the two do not fit together there.
    pub turned_fault: Option<String>,
}

/// One value hook that two variants change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SharedHook {
    /// Name of the hook.
    pub hook: &'static str,
    /// How many answers there are.
    pub answers: usize,
    /// How many of them would differ in the other order, on top of the base rules; none when the
    /// other order is faulty.
    pub differ: Option<usize>,
    /// One of those answers.
    pub example: Option<OrderExample>,
}

/// An answer that depends on the order of two variants.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OrderExample {
    /// Names and values of the arguments.
    pub arguments: Vec<(&'static str, String)>,
    /// The answer in the order that was typed.
    pub as_typed: String,
    /// The answer in the other order.
    pub turned: String,
}

/// What each two variants of a stack have in common, as far as they have anything.
///
/// # Errors
/// When two of them do not fit together in the order of the stack.
pub fn overlaps(stack: &Stack) -> Result<Vec<Overlap>, Diagnostics> {
    let variants = stack.variants();
    let mut found = Vec::new();
    for (n, first) in variants.iter().enumerate() {
        for second in &variants[n + 1..] {
            found.extend(overlap(first, second)?);
        }
    }
    Ok(found)
}

fn overlap(first: &Variant, second: &Variant) -> Result<Option<Overlap>, Diagnostics> {
    let touched = |variant: &Variant| -> Vec<Hook> {
        let hooks = variant.value_hooks().iter().copied();
        hooks.filter(|hook| !variant.idle_hooks().contains(hook)).collect()
    };
    let others = touched(second);
    let values: Vec<Hook> = touched(first).into_iter().filter(|h| others.contains(h)).collect();
    let events = first.event_hooks().iter().filter(|n| second.event_hooks().contains(n));
    let events: Vec<&str> = events.map(|&n| EVENT_HOOKS[n].name).collect();
    if values.is_empty() && events.is_empty() {
        return Ok(None);
    }
    let pair = |a: &Variant, b: &Variant| Stack::new(vec![a.clone(), b.clone()]).rules();
    let (typed, turned) = (pair(first, second)?, pair(second, first));
    Ok(Some(Overlap {
        first: first.spec(),
        second: second.spec(),
        value_hooks: values.iter().map(|&h| shared(h, &typed, turned.as_ref().ok())).collect(),
        event_hooks: events,
        turned_fault: turned.err().and_then(|e| Some(e.list().first()?.headline.clone())),
    }))
}

fn shared(hook: Hook, typed: &Rules, turned: Option<&Rules>) -> SharedHook {
    let spec = hook.spec();
    let old = typed.table(hook);
    let differing = |turned: &Rules| -> Vec<usize> { cases(old, turned.table(hook)).collect() };
    let example = turned.and_then(|turned| {
        let cell = *differing(turned).first()?;
        let named = spec.args.iter().zip(spec.arguments(cell));
        Some(OrderExample {
            arguments: named.map(|(arg, value)| (arg.name, arg.domain.show(value))).collect(),
            as_typed: spec.result.show(old[cell].into()),
            turned: spec.result.show(turned.table(hook)[cell].into()),
        })
    });
    SharedHook {
        hook: spec.name,
        answers: old.len(),
        differ: turned.map(|turned| differing(turned).len()),
        example,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source};

    fn stack(scripts: &[(&str, &str)]) -> Stack {
        let load = |&(name, hooks): &(&str, &str)| {
            let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{hooks}");
            Variant::load(&Source::new(name, text), &Overrides::none()).unwrap()
        };
        Stack::new(scripts.iter().map(load).collect())
    }

    const THREE: (&str, &str) = ("three", "fn marker_actions(now) { 3 }");
    const MORE: (&str, &str) = ("more", "fn marker_actions(now) { now + 1 }");
    const LESS: (&str, &str) = ("less", "fn marker_actions(now) { now - 1 }");

    #[test]
    fn an_order_that_matters_comes_with_an_example() {
        let [found] = overlaps(&stack(&[THREE, MORE])).unwrap().try_into().unwrap();
        let [hook] = found.value_hooks.as_slice() else { panic!("{found:?}") };
        assert_eq!((hook.hook, hook.answers, hook.differ), ("marker_actions", 1, Some(1)));
        let example = hook.example.as_ref().unwrap();
        assert_eq!((example.as_typed.as_str(), example.turned.as_str()), ("4", "3"));
        assert_eq!((found.first.as_str(), found.second.as_str()), ("three", "more"));
    }

    #[test]
    fn an_example_names_the_case() {
        let one =
            ("one", "fn turn_ends(now, drawn, in_deck) { if drawn < 3 { false } else { now } }");
        let two =
            ("two", "fn turn_ends(now, drawn, in_deck) { if drawn == 2 { true } else { now } }");
        let [found] = overlaps(&stack(&[one, two])).unwrap().try_into().unwrap();
        let hook = &found.value_hooks[0];
        assert_eq!((hook.differ, hook.answers), (Some(6), 36));
        let example = hook.example.as_ref().unwrap();
        assert_eq!(example.arguments, [("drawn", "2".to_owned()), ("in_deck", "1".to_owned())]);
        assert_eq!((example.as_typed.as_str(), example.turned.as_str()), ("true", "false"));
    }

    #[test]
    fn an_order_that_does_not_matter_is_told_so_and_strangers_are_not() {
        let found = overlaps(&stack(&[MORE, LESS])).unwrap();
        assert_eq!(
            (found[0].value_hooks[0].differ, &found[0].value_hooks[0].example),
            (Some(0), &None)
        );
        let other = ("other", "fn turn_end_cards(now) { 2 } fn marker_actions(now) { now }");
        assert_eq!(overlaps(&stack(&[MORE, other])), Ok(vec![]));
        assert_eq!(overlaps(&stack(&[MORE, other, THREE])).unwrap().len(), 1);
    }

    #[test]
    fn event_hooks_of_both_are_named_and_a_faulty_other_order_is_told() {
        let note = "fn on_turn_end(game, turn) { game.note(\"x\") }";
        let found = overlaps(&stack(&[("a", note), ("b", note)])).unwrap();
        assert_eq!(
            (found[0].event_hooks.as_slice(), found[0].value_hooks.len()),
            (&["on_turn_end"][..], 0)
        );
        let high = ("high", "fn marker_actions(now) { 8 }");
        let [found] = overlaps(&stack(&[MORE, high])).unwrap().try_into().unwrap();
        assert_eq!(found.value_hooks[0].differ, None);
        assert!(found.turned_fault.unwrap().contains("gave 9, expected 0 to 8"));
        assert!(overlaps(&stack(&[high, MORE])).is_err());
    }
}
