//! A finding as text for the terminal.

use std::collections::BTreeSet;
use std::fmt::Write;

use ruleshift_hooks::{Change, Diagnostics, Id, OptionValue, Overlap, SharedHook};

use super::finding::{Finding, VariantFinding};
use super::games::Trials;
use super::table::table;
use crate::resolve::Wrong;

/// Value hooks named in the line of hooks.
const NAMED: usize = 12;
const INDENT: &str = "  ";

/// All that was found about a sound stack, in `width` columns, with colour if asked.
pub(crate) fn text(finding: &Finding, width: usize, colour: bool) -> String {
    if finding.variants.is_empty() {
        return "base: the base rules, nothing changed.\n".to_owned();
    }
    let several = finding.variants.len() > 1;
    let mut text = String::new();
    for (n, variant) in finding.variants.iter().enumerate() {
        text += &one(variant, width, colour);
        if let Some(trials) = finding.trials.as_ref().filter(|_| several) {
            text += &format!("{}\n", wrapped(&alone(trials, n), width));
        }
    }
    if several {
        let names: Vec<&str> = finding.variants.iter().map(|v| v.name.as_str()).collect();
        let _ = writeln!(text, "Together, in this order: {}", names.join(", then "));
        text += &item(&together(&finding.overlaps), width);
    }
    if let Some(trials) = &finding.trials {
        text += &wrapped(&played(trials), width);
        if let Some(line) = did(trials, finding) {
            text += &wrapped(&line, width);
        }
    }
    let digests: Vec<&str> = finding.variants.iter().map(|v| v.digest.as_str()).collect();
    let (s, stand, it) =
        if several { ("s", "which stand", "them") } else { ("", "which stands", "it") };
    let digests = digests.join(", ");
    let faults = format!("No faults. Digest{s} {digests}, {stand} for {it} in tickets.");
    text += &wrapped(&faults, width);
    if let Some(line) = line_for(finding.variants.iter().flat_map(|v| ids(&v.warnings))) {
        text += &wrapped(&line, width);
    }
    text
}

fn one(variant: &VariantFinding, width: usize, colour: bool) -> String {
    let mut text =
        format!("{}: {}\n{}", variant.name, variant.title, wrapped(&variant.summary, width));
    for option in &variant.options {
        text += &item(&option_line(option), width);
    }
    text += &hooks(variant, width);
    text += "\n";
    text += &wrapped(&variant.telling, width);
    for change in variant.changes.iter().filter(|change| change.changed > 0) {
        text += &format!("\n{}", changed(change, width));
    }
    text += "\n";
    if !variant.warnings.is_empty() {
        text += &format!("{}\n\n", variant.warnings.render(colour));
    }
    text
}

fn option_line(option: &OptionValue) -> String {
    let spec = &option.spec;
    format!(
        "Option {} = {} ({}, default {}): {}",
        spec.name,
        option.value,
        spec.range(),
        spec.default,
        spec.about
    )
}

/// The hooks of a variant by name, with its cards and counters.
fn hooks(variant: &VariantFinding, width: usize) -> String {
    let values: Vec<&str> = variant.changes.iter().map(|change| change.hook).collect();
    let mut text = String::new();
    if (1..=NAMED).contains(&values.len()) {
        text += &item(&format!("Value hooks: {}", values.join(", ")), width);
    } else if !values.is_empty() {
        text += &item(&format!("Value hooks: {} of them", values.len()), width);
    }
    // When they run is told below.
    let events: Vec<&str> = variant.event_hooks.iter().map(|hook| hook.name.as_str()).collect();
    if !events.is_empty() {
        text += &item(&format!("Event hooks: {}", events.join(", ")), width);
    }
    let named = [("Card", &variant.cards), ("Counter", &variant.counters)];
    for (what, parts) in named {
        for part in parts {
            text += &item(&format!("{what} {}: {}", part.name, part.about), width);
        }
    }
    text
}

/// One changed hook: what it is, then its answers before and after.
fn changed(change: &Change, width: usize) -> String {
    let heading = item(&format!("{}: {}", change.hook, change.about), width);
    let answers = match (&change.always, &change.table) {
        (Some(always), _) if change.answers == 1 => format!("    {}\n", always.text),
        (Some(always), _) => format!("    {} in every case\n", always.text),
        (None, Some(grid)) => table(grid, width, "    "),
        (None, None) => String::new(),
    };
    format!("{heading}{answers}")
}

/// What two variants of a stack have in common.
fn together(overlaps: &[Overlap]) -> String {
    if overlaps.is_empty() {
        return "No two of them touch the same hook: their order does not matter to any answer."
            .to_owned();
    }
    overlaps.iter().map(overlap).collect::<Vec<_>>().join("\n")
}

fn overlap(overlap: &Overlap) -> String {
    let Overlap { first, second, .. } = overlap;
    let mut lines: Vec<String> =
        overlap.value_hooks.iter().map(|hook| shared(first, second, hook)).collect();
    if let Some(fault) = &overlap.turned_fault {
        lines.push(format!("{second} before {first} would be at fault: {fault}."));
    }
    for hook in &overlap.event_hooks {
        lines.push(format!("{hook}: both {first} and {second} act, {first} first."));
    }
    lines.join("\n")
}

fn shared(first: &str, second: &str, shared: &SharedHook) -> String {
    let SharedHook { hook, answers, differ, example } = shared;
    let both = format!("{hook}: both {first} and {second} change it");
    match (differ, example) {
        (None, _) => format!("{both}, {first} first."),
        (Some(differ), Some(example)) => {
            let named: Vec<String> =
                example.arguments.iter().map(|(name, value)| format!("{name} = {value}")).collect();
            let at =
                if named.is_empty() { String::new() } else { format!(" for {}", named.join(", ")) };
            let cases = if *answers == 1 {
                String::new()
            } else {
                format!(" in {differ} of {answers} cases")
            };
            let (typed, turned) = (&example.as_typed, &example.turned);
            format!(
                "{both}, and their order matters{cases}: {typed}{at}, but {turned} if {second} came first."
            )
        }
        (Some(_), None) => format!("{both}; their order does not matter."),
    }
}

fn played(trials: &Trials) -> String {
    let Trials { games, scenarios, otherwise, .. } = trials;
    format!(
        "{games} trial games over {scenarios} scenarios: {} the same game under the base rules.",
        differ(*otherwise)
    )
}

/// `3 differ from`, `none differs from`.
fn differ(count: usize) -> String {
    match count {
        0 => "none differs from".to_owned(),
        1 => "1 differs from".to_owned(),
        _ => format!("{count} differ from"),
    }
}

/// What the event hooks did in the games; hooks that did nothing have a warning.
fn did(trials: &Trials, finding: &Finding) -> Option<String> {
    let words = trials.did.as_ref()?.words()?;
    let it = if finding.variants.len() > 1 { "they" } else { "it" };
    Some(format!("In these games {it} {words}."))
}

/// What the variant at place `n` adds.
fn alone(trials: &Trials, n: usize) -> String {
    let before = if n == 0 { "under the base rules" } else { "without it" };
    let count = differ(trials.variants[n].otherwise);
    format!("Of {} trial games {count} the same game {before}.", trials.games)
}

/// Where to read more about faults.
pub(crate) fn explain_line<'a>(faults: impl Iterator<Item = &'a Wrong>) -> Option<String> {
    let ids = faults.flat_map(|fault| match fault {
        Wrong::Script(diagnostics) => ids(diagnostics),
        // What the script did is told as it would be when it is loaded.
        Wrong::Stopped { message, .. } => Id::ALL
            .iter()
            .map(|id| id.text())
            .filter(|id| message.contains(&format!("error[{id}]")))
            .collect(),
        Wrong::Typed { .. } => vec![],
    });
    line_for(ids)
}

fn ids(told: &Diagnostics) -> Vec<&'static str> {
    told.list().iter().map(|diagnostic| diagnostic.id.text()).collect()
}

fn line_for(ids: impl Iterator<Item = &'static str>) -> Option<String> {
    let ids: Vec<&str> = ids.collect::<BTreeSet<_>>().into_iter().collect();
    match ids.as_slice() {
        [] => None,
        [id] => Some(format!("`ruleshift explain {id}` tells more.")),
        _ => Some(format!("`ruleshift explain ID` tells more, for {}.", ids.join(", "))),
    }
}

/// Lines of text, indented and broken at `width`.
fn wrapped(text: &str, width: usize) -> String {
    text.lines().map(|line| broken(line, width, INDENT)).collect()
}

/// As [`wrapped`], for an entry of a list: what does not fit on its line is indented further.
fn item(text: &str, width: usize) -> String {
    text.lines().map(|line| broken(line, width, "    ")).collect()
}

fn broken(text: &str, width: usize, indent: &str) -> String {
    let mut lines = String::new();
    let mut line = INDENT.to_owned();
    let mut length = INDENT.len();
    for (n, word) in text.split_whitespace().enumerate() {
        let letters = word.chars().count();
        if n > 0 && length + 1 + letters > width {
            let _ = writeln!(lines, "{line}");
            indent.clone_into(&mut line);
            length = line.len();
        } else if n > 0 {
            line.push(' ');
            length += 1;
        }
        line += word;
        length += letters;
    }
    format!("{lines}{line}\n")
}
