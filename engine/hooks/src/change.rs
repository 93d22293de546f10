//! What one set of rules changes in another, hook by hook.

use std::fmt;

use ruleshift_game::{Hook, Rules};
use serde::Serialize;

/// Examples given of one change.
const EXAMPLES: usize = 3;

/// What happens to the answers of one hook.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// Name of the hook.
    pub hook: &'static str,
    /// What the answer is.
    pub about: &'static str,
    /// The base rule in one line.
    pub base_rule: &'static str,
    /// How many answers differ.
    pub changed: usize,
    /// How many answers there are.
    pub answers: usize,
    /// Some of the answers that differ: the first, the last and one between.
    pub examples: Vec<Example>,
}

/// One answer that differs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Example {
    /// Names and values of the arguments; none for a hook that takes only `now`.
    pub arguments: Vec<(&'static str, String)>,
    /// The answer before.
    pub before: String,
    /// The answer after.
    pub after: String,
}

/// What `after` changes in `before`, for each of `hooks`, also those where nothing changes.
pub fn changes(before: &Rules, after: &Rules, hooks: &[Hook]) -> Vec<Change> {
    hooks.iter().map(|&hook| change(before, after, hook)).collect()
}

fn change(before: &Rules, after: &Rules, hook: Hook) -> Change {
    let spec = hook.spec();
    let (old, new) = (before.table(hook), after.table(hook));
    let cells: Vec<usize> = (0..old.len()).filter(|&n| old[n] != new[n]).collect();
    let last = cells.len().saturating_sub(1);
    let mut picked: Vec<usize> =
        (0..EXAMPLES).map(|n| n * last / (EXAMPLES - 1)).filter(|&n| n < cells.len()).collect();
    picked.dedup();
    let example = |cell: usize| Example {
        arguments: (spec.args.iter().zip(spec.arguments(cell)))
            .map(|(arg, value)| (arg.name, arg.domain.show(value)))
            .collect(),
        before: spec.result.show(old[cell].into()),
        after: spec.result.show(new[cell].into()),
    };
    Change {
        hook: spec.name,
        about: spec.about,
        base_rule: spec.base_rule,
        changed: cells.len(),
        answers: old.len(),
        examples: picked.into_iter().map(|n| example(cells[n])).collect(),
    }
}

impl fmt::Display for Example {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let arguments: Vec<String> =
            self.arguments.iter().map(|(name, value)| format!("{name} = {value}")).collect();
        let colon = if arguments.is_empty() { "" } else { ": " };
        write!(f, "{}{colon}{} -> {}", arguments.join(", "), self.before, self.after)
    }
}

impl fmt::Display for Change {
    /// `marker_actions: 4 -> 3`, or a line with counts and a line for each example.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Change { hook, changed, answers, .. } = self;
        match (changed, self.examples.as_slice()) {
            (0, _) => write!(f, "{hook}: changes nothing"),
            (_, [example]) if example.arguments.is_empty() => write!(f, "{hook}: {example}"),
            (_, examples) => {
                write!(f, "{hook}: {changed} of {answers} answers change, for example")?;
                examples.iter().try_for_each(|example| write!(f, "\n  {example}"))
            }
        }
    }
}
