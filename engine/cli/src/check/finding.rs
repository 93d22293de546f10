//! What a check finds out about a rule stack: the document that `--json` prints.

use ruleshift_game::EVENT_HOOKS;
use ruleshift_hooks::{
    CardSpec, Change, CounterSpec, Diagnostics, OptionValue, Overlap, Stack, Variant, advice,
    changes, never_matters, overlaps, telling,
};
use serde::Serialize;

use super::games::{TrialGround, Trials, working_hooks};
use crate::exit::Failure;
use crate::resolve::{self, Wrong};

/// Number of the form of the document; a field that goes or changes its meaning raises it, a new
/// one does not.
pub(crate) const FORMAT: u32 = 1;

/// All that one check has found.
#[derive(Debug, Serialize)]
pub(crate) struct Document {
    /// Number of this form.
    pub(crate) format: u32,
    /// Whether no stack has a fault; warnings are no faults.
    pub(crate) sound: bool,
    /// What was typed, in order.
    pub(crate) stacks: Vec<Finding>,
}

/// What was found about one rule stack.
#[derive(Debug, Default, Serialize)]
pub(crate) struct Finding {
    /// The stack as it was typed.
    pub(crate) typed: String,
    /// What is wrong: `{message}` for a word that was typed, `{script, diagnostics}` for a script,
    /// `{message, ticket}` for a game that stopped. Without faults all else is known.
    pub(crate) faults: Vec<Wrong>,
    /// The variants, in the order in which they change the rules.
    pub(crate) variants: Vec<VariantFinding>,
    /// Hooks that two of the variants share, and whether their order matters.
    pub(crate) overlaps: Vec<Overlap>,
    /// The trial games; none when they were left out or nothing changes.
    pub(crate) trials: Option<Trials>,
}

/// What was found about one variant.
#[derive(Debug, Serialize)]
pub(crate) struct VariantFinding {
    /// Its name, with the options that were given.
    pub(crate) name: String,
    /// Its title.
    pub(crate) title: String,
    /// What it says it changes.
    pub(crate) summary: String,
    /// The question it asks.
    pub(crate) question: Option<String>,
    /// What its author expects it to do.
    pub(crate) expect: Option<String>,
    /// 8 hexadecimal digits that stand for what it does.
    pub(crate) digest: String,
    /// Its options with their values.
    pub(crate) options: Vec<OptionValue>,
    /// Cards of its own.
    pub(crate) cards: Vec<Named>,
    /// Numbers of its own that last from call to call.
    pub(crate) counters: Vec<Named>,
    /// Its event hooks that do something.
    pub(crate) event_hooks: Vec<Named>,
    /// A paragraph in plain words on what it changes.
    pub(crate) telling: String,
    /// Its value hooks, with what each changes in the rules that the variants before it have made.
    pub(crate) changes: Vec<Change>,
    /// What looks wrong without being a fault: `{script, diagnostics}`.
    pub(crate) warnings: Diagnostics,
}

/// A part of a variant with a name: an event hook, a card, a counter.
#[derive(Debug, Serialize)]
pub(crate) struct Named {
    /// Its name.
    pub(crate) name: String,
    /// When the hook runs, what the card is and does, what the counter counts.
    pub(crate) about: String,
}

impl Document {
    pub(crate) fn new(stacks: Vec<Finding>) -> Document {
        let sound = stacks.iter().all(|finding| finding.faults.is_empty());
        Document { format: FORMAT, sound, stacks }
    }
}

/// Looks at a stack as it was typed. `ground` is asked for when games are to be played.
///
/// # Errors
/// A script that cannot be read.
pub(crate) fn find<'a>(
    typed: &str,
    ground: impl FnOnce() -> Result<Option<&'a TrialGround>, Failure>,
) -> Result<Finding, Failure> {
    let faulty = |faults| Finding { typed: typed.to_owned(), faults, ..Finding::default() };
    let stack = match resolve::parts(typed)? {
        Ok(stack) => stack,
        Err(faults) => return Ok(faulty(faults)),
    };
    let (steps, overlaps) = match stack.steps().and_then(|s| Ok((s, overlaps(&stack)?))) {
        Ok(known) => known,
        Err(faults) => return Ok(faulty(vec![Wrong::Script(faults)])),
    };
    let hooks = working_hooks(&stack, &steps);
    let ground = if hooks.iter().all(Vec::is_empty) { None } else { ground()? };
    let trials = match ground.map(|ground| ground.play(&stack, &hooks)).transpose() {
        Ok(trials) => trials,
        Err(fault) => return Ok(faulty(vec![fault])),
    };
    let variants = stack.variants().iter().zip(steps.windows(2)).enumerate();
    let variants = variants.map(|(n, (variant, rules))| {
        let mut more = advice(variant, &rules[0], &rules[1]);
        if let Some(trials) = &trials {
            let never = trials.variants[n].never_mattered.iter();
            let (games, scenarios) = (trials.games, trials.scenarios);
            more.extend(never.map(|hook| never_matters(variant, hook, games, scenarios)));
        }
        describe(variant, changes(&rules[0], &rules[1], variant.value_hooks()), more)
    });
    let variants = variants.collect();
    Ok(Finding { typed: stack_name(&stack, typed), faults: vec![], variants, overlaps, trials })
}

/// What was typed, which may be `base` for no variant at all.
fn stack_name(stack: &Stack, typed: &str) -> String {
    if stack.variants().is_empty() { stack.spec() } else { typed.to_owned() }
}

fn describe(
    variant: &Variant,
    changes: Vec<Change>,
    more: Vec<ruleshift_hooks::Diagnostic>,
) -> VariantFinding {
    let named = |name: &str, about: String| Named { name: name.to_owned(), about };
    let event = |&n: &usize| named(EVENT_HOOKS[n].name, EVENT_HOOKS[n].about.to_owned());
    let card = |card: &CardSpec| match card.about.as_str() {
        "" => named(&card.name, card.title.clone()),
        about => named(&card.name, format!("{}; {about}", card.title)),
    };
    let counter = |counter: &CounterSpec| named(&counter.name, counter.about.clone());
    VariantFinding {
        name: variant.spec(),
        title: variant.title().to_owned(),
        summary: variant.summary().to_owned(),
        question: variant.question().map(str::to_owned),
        expect: variant.expect().map(str::to_owned),
        digest: variant.digest(),
        options: variant.options().to_vec(),
        cards: variant.cards().iter().map(card).collect(),
        counters: variant.counters().iter().map(counter).collect(),
        event_hooks: variant.event_hooks().iter().map(event).collect(),
        telling: telling(variant, &changes),
        changes,
        warnings: variant.told(more),
    }
}
