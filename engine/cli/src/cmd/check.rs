//! `ruleshift check`: the faults of house rules, and what they change.

use std::fmt::Write;

use ruleshift_hooks::{Change, Stack, Variant};

use crate::args::CheckArgs;
use crate::exit::Failure;
use crate::{resolve, screen};

pub(crate) fn run(args: &CheckArgs) -> Result<(), Failure> {
    let mut faults = Vec::new();
    for file in &args.files {
        match resolve::stack(file).and_then(|stack| describe(&stack)) {
            Ok(text) => screen::show(&text),
            Err(failure @ Failure::File(_)) => return Err(failure),
            Err(failure) => faults.push(failure.to_string()),
        }
    }
    if faults.is_empty() { Ok(()) } else { Err(Failure::Check(faults.join("\n"))) }
}

fn describe(stack: &Stack) -> Result<String, Failure> {
    // Asked for its errors: variants that do not fit together.
    crate::wire::arm_cast(stack)?;
    if stack.variants().is_empty() {
        return Ok("base: the base rules, nothing changed.\n".to_owned());
    }
    Ok(stack.variants().iter().map(describe_variant).collect())
}

fn describe_variant(variant: &Variant) -> String {
    let mut text = format!("{}: {}\n  {}\n", variant.spec(), variant.title(), variant.summary());
    if !variant.warnings().is_empty() {
        text.push_str(&variant.warnings().render(screen::colour()));
    }
    for option in variant.options() {
        let _ = writeln!(text, "  Option {}", option_line(option));
    }
    for change in variant.changes() {
        text.push_str(&change_lines(&change));
    }
    for &event in variant.event_hooks() {
        let spec = &ruleshift_game::EVENT_HOOKS[event];
        let _ = writeln!(text, "  {} acts: {}", spec.name, spec.about);
    }
    let _ = writeln!(text, "  No faults. Digest {}.", variant.digest());
    text
}

fn option_line(option: &ruleshift_hooks::OptionValue) -> String {
    let spec = &option.spec;
    format!(
        "{} = {} ({}, default {}): {}",
        spec.name,
        option.value,
        spec.range(),
        spec.default,
        spec.about
    )
}

fn change_lines(change: &Change) -> String {
    change.to_string().lines().map(|line| format!("  {line}\n")).collect()
}
