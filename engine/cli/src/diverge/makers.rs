//! Which hooks made two games part: those without which they would not have parted there.
//!
//! A hook is left out of its variant and the game is played again. If it is then the same as the other
//! game up to and including the place where the two parted, the hook made them part. That needs no
//! guess, since luck and players are the same.

use ruleshift_game::EVENT_HOOKS;
use ruleshift_hooks::{Stack, Variant, changes};
use ruleshift_record::Timing;

use super::trace::{Item, Trace};
use crate::again::Again;
use crate::exit::Failure;

/// What made `arm` part from `reference` at that place, a sentence each.
///
/// # Errors
/// As [`Again::under`].
pub(super) fn makers(
    [reference, arm]: [(&Again, &Trace); 2],
    at: usize,
    timing: &Timing,
) -> Result<Vec<String>, Failure> {
    let mut made = Vec::new();
    let mut all = Vec::new();
    for ((game, _), (other, played)) in [(arm, reference), (reference, arm)] {
        for (place, variant) in own(&game.stack, &other.stack) {
            for hook in hooks(variant) {
                all.push(hook);
                let without = without(&game.stack, place, hook);
                let trace = Trace::of(&game.under(&without)?, timing);
                if same_until(&trace.items, &played.items, at) {
                    made.push(sentence(variant, hook, game, other));
                }
            }
        }
    }
    Ok(if made.is_empty() { vec![together(&all)] } else { made })
}

/// Variants of a stack that the other one has not, with their places.
fn own<'a>(stack: &'a Stack, other: &Stack) -> Vec<(usize, &'a Variant)> {
    let known: Vec<String> = other.variants().iter().map(Variant::spec).collect();
    let all = stack.variants().iter().enumerate();
    all.filter(|(_, variant)| !known.contains(&variant.spec())).collect()
}

/// The hooks of a variant, by name.
fn hooks(variant: &Variant) -> Vec<&'static str> {
    let values = variant.value_hooks().iter().map(|hook| hook.spec().name);
    values.chain(variant.event_hooks().iter().map(|&n| EVENT_HOOKS[n].name)).collect()
}

/// The stack with one hook of one of its variants left out.
fn without(stack: &Stack, place: usize, hook: &str) -> Stack {
    let mut variants = stack.variants().to_vec();
    variants[place] = variants[place].without(hook);
    Stack::new(variants)
}

/// Whether two games are the same up to and including a place.
fn same_until(one: &[Item], other: &[Item], at: usize) -> bool {
    let to = |items: &[Item]| items.len().min(at + 1);
    one[..to(one)] == other[..to(other)]
}

/// What a hook does, and that it made the games part.
fn sentence(variant: &Variant, hook: &'static str, game: &Again, other: &Again) -> String {
    let title = variant.title();
    let what = match variant.value_hooks().iter().find(|value| value.spec().name == hook) {
        Some(&value) => {
            let change = &changes(&other.rules.rules, &game.rules.rules, &[value])[0];
            format!("{} Changed: {}.", change.about, change.words)
        }
        None => {
            let event = EVENT_HOOKS.iter().find(|event| event.name == hook);
            event.map_or_else(String::new, |event| format!("It acts: {}", event.about))
        }
    };
    format!("The hook {hook} of {title} made it: without it, the games go on alike here. {what}")
}

/// What to say when no hook alone made it.
fn together(hooks: &[&str]) -> String {
    match hooks {
        [] => "Both rule stacks have the same variants with other options.".to_owned(),
        _ => format!(
            "No hook alone made it: with any one of {} left out the games part here all the same.",
            hooks.join(", ")
        ),
    }
}
