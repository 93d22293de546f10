//! A finding as text for the terminal.

use std::collections::BTreeSet;
use std::fmt::Write;

use ruleshift_hooks::{Change, Diagnostics, OptionValue, Overlap, SharedHook};

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
            text += &wrapped(&alone(trials, n), width);
        }
        text += if several { "\n" } else { "" };
    }
    if several {
        let names: Vec<&str> = finding.variants.iter().map(|v| v.name.as_str()).collect();
        let _ = writeln!(text, "Together, in this order: {}", names.join(", then "));
        text += &wrapped(&together(&finding.overlaps), width);
    }
    if let Some(trials) = &finding.trials {
        text += &wrapped(&played(trials), width);
    }
    let digests: Vec<&str> = finding.variants.iter().map(|v| v.digest.as_str()).collect();
    let s = if several { "s" } else { "" };
    text += &wrapped(&format!("No faults. Digest{s} {}.", digests.join(", ")), width);
    let warnings = finding.variants.iter().map(|variant| &variant.warnings);
    if let Some(line) = line_for(warnings) {
        text += &wrapped(&line, width);
    }
    text
}

fn one(variant: &VariantFinding, width: usize, colour: bool) -> String {
    let mut text = format!("{}: {}\n{}", variant.name, variant.title, wrapped(&variant.summary, width));
    for option in &variant.options {
        text += &wrapped(&option_line(option), width);
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

/// The hooks of a variant by name.
fn hooks(variant: &VariantFinding, width: usize) -> String {
    let values: Vec<&str> = variant.changes.iter().map(|change| change.hook).collect();
    let mut text = String::new();
    if (1..=NAMED).contains(&values.len()) {
        text += &wrapped(&format!("Value hooks: {}", values.join(", ")), width);
    } else if !values.is_empty() {
        text += &wrapped(&format!("Value hooks: {} of them", values.len()), width);
    }
    for event in &variant.event_hooks {
        text += &wrapped(&format!("Event hook {}: {}", event.hook, event.about), width);
    }
    text
}

/// One changed hook: what it is, then its answers before and after.
fn changed(change: &Change, width: usize) -> String {
    let Change { hook, about, .. } = change;
    match (&change.always, &change.table) {
        (Some(always), _) => wrapped(&format!("{hook}: {} {about}", always.text()), width),
        (None, Some(grid)) => {
            let heading = wrapped(&format!("{hook}: {about}"), width);
            format!("{heading}{}", table(grid, width, "    "))
        }
        (None, None) => String::new(),
    }
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
            let at = if named.is_empty() { String::new() } else { format!(" for {}", named.join(", ")) };
            format!(
                "{both}, and their order matters in {differ} of {answers} cases: {}{at}, but {} if {second} came first.",
                example.as_typed, example.turned
            )
        }
        (Some(_), None) => format!("{both}; their order does not matter."),
    }
}

fn played(trials: &Trials) -> String {
    let Trials { games, scenarios, otherwise, .. } = trials;
    let go = if *otherwise == 1 { "goes" } else { "go" };
    let otherwise = if *otherwise == 0 { "none".to_owned() } else { otherwise.to_string() };
    format!("{games} trial games over {scenarios} scenarios: {otherwise} {go} otherwise than under the base rules.")
}

/// What the variant at place `n` adds.
fn alone(trials: &Trials, n: usize) -> String {
    let before = if n == 0 { "under the base rules" } else { "without it" };
    let count = trials.variants[n].otherwise;
    format!("Of {} trial games {count} go otherwise than {before}.", trials.games)
}

/// Where to read more about faults.
pub(crate) fn explain_line<'a>(faults: impl Iterator<Item = &'a Wrong>) -> Option<String> {
    line_for(faults.filter_map(|fault| match fault {
        Wrong::Script(diagnostics) => Some(diagnostics),
        Wrong::Typed { .. } | Wrong::Stopped { .. } => None,
    }))
}

fn line_for<'a>(told: impl Iterator<Item = &'a Diagnostics>) -> Option<String> {
    let ids: BTreeSet<&str> =
        told.flat_map(|diagnostics| diagnostics.list()).map(|d| d.id.text()).collect();
    let ids: Vec<&str> = ids.into_iter().collect();
    match ids.as_slice() {
        [] => None,
        [id] => Some(format!("`ruleshift explain {id}` tells more.")),
        _ => Some(format!("`ruleshift explain ID` tells more, for {}.", ids.join(", "))),
    }
}

/// Lines of text broken at `width`, indented; a line that goes on is indented further.
fn wrapped(text: &str, width: usize) -> String {
    text.lines().map(|line| wrapped_line(line, width)).collect()
}

fn wrapped_line(text: &str, width: usize) -> String {
    let mut lines = String::new();
    let mut line = INDENT.to_owned();
    let mut length = INDENT.len();
    for (n, word) in text.split_whitespace().enumerate() {
        let letters = word.chars().count();
        if n > 0 && length + 1 + letters > width {
            let _ = writeln!(lines, "{line}");
            line = INDENT.repeat(2);
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
