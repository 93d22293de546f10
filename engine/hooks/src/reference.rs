//! The hook reference and the template script, written from the manifests.

mod index;
mod names;

use std::fmt::Write;

use ruleshift_game::{Arg, Domain, EVENT_HOOKS, EventSpec, HOOKS, HookSpec};

use crate::game::MEMBERS;
use crate::library::LIBRARY;
use crate::structure::Signature;

/// Width of the lines of the template.
const WIDTH: usize = 98;

/// What has to be known to read the reference.
const READ: &str = "\
`RULES` and a number point to that paragraph of [the rules of the game](../engine/game/RULES.md),
which say when the hook is asked. Each hook stands here with what it is given, the answers it may
give, what the rules answer, and a line to start from. That line is made up to show how the hook is
written, not because it would be a good rule; in the event hooks `RUNNER` stands for a card and
`ALARMS` for a counter that `about` would name.

";

/// The hook reference as Markdown: index, value hooks, event hooks, the game, functions, constants.
pub fn reference() -> String {
    let mut text = format!("{READ}{}", index::index());
    text += "### Value hooks\n\n";
    for (hook, signature) in HOOKS.iter().zip(crate::structure::signatures()) {
        text += &value_hook(hook, &signature);
    }
    text += "### Event hooks\n\n";
    let events = crate::structure::signatures().into_iter().filter(|signature| signature.event);
    for (hook, signature) in EVENT_HOOKS.iter().zip(events) {
        text += &event_hook(hook, &signature);
    }
    text + game().as_str() + functions().as_str() + names::constants().as_str()
}

fn game() -> String {
    let mut text = "### The game\n\nWhat event hooks may ask and do. A unit is its number.\n\n\
                    | write | to get or do |\n| --- | --- |\n"
        .to_owned();
    for member in MEMBERS {
        let _ = writeln!(text, "| `{}` | {} |", member.signature(), member.about);
    }
    text
}

fn functions() -> String {
    let mut text = "\n### Functions\n\n| write | to get |\n| --- | --- |\n".to_owned();
    for function in LIBRARY {
        let call = format!("{}({})", function.name, function.args.join(", "));
        let _ = writeln!(text, "| `{call}` | {} |", function.about);
    }
    text
}

fn value_hook(hook: &HookSpec, signature: &Signature) -> String {
    let mut text = heading(signature, hook.about, hook.paragraph);
    text += &arguments(hook.args);
    let _ = write!(text, "- answer: {}\n- base rule: {}\n", hook.result.describe(), hook.base_rule);
    let _ = write!(text, "\n```rhai\nfn {} {{ {} }}\n```\n\n", signature.text(), example(hook));
    text
}

fn event_hook(hook: &EventSpec, signature: &Signature) -> String {
    let mut text = heading(signature, hook.about, hook.paragraph);
    text += &arguments(hook.args);
    if !hook.args.is_empty() {
        text.push('\n');
    }
    let _ = write!(text, "```rhai\n{}\n```\n\n", laid_out(&signature.text(), hook.example));
    text
}

/// A function on one line when its body is one plain statement, else with a line for each.
fn laid_out(signature: &str, body: &str) -> String {
    if !body.contains('{') && body.matches(';').count() == 1 {
        return format!("fn {signature} {{ {body} }}");
    }
    let (mut text, mut depth) = (format!("fn {signature} {{"), 1);
    let mut line = |depth: usize, part: &str| {
        let _ = write!(text, "\n{}{part}", "    ".repeat(depth));
    };
    let mut rest = body;
    while let Some(end) = rest.find(['{', '}', ';']) {
        let (part, after) = rest.split_at(end + 1);
        match part.trim() {
            "}" => {
                depth -= 1;
                line(depth, "}");
            }
            part => {
                line(depth, part);
                depth += usize::from(part.ends_with('{'));
            }
        }
        rest = after;
    }
    format!("{text}\n}}")
}

fn heading(signature: &Signature, about: &str, paragraph: &str) -> String {
    format!("#### {}\n\n{about} ({})\n\n", signature.name, index::link(paragraph))
}

fn arguments(args: &[Arg]) -> String {
    let line = |arg: &Arg| format!("- `{}`: {}; {}\n", arg.name, arg.about, arg.domain.describe());
    args.iter().map(line).collect()
}

/// Examples of hooks that only matter for kinds of unit which their answers do not tell.
const EXAMPLES: &[(&str, &str)] = &[
    ("blast_dice", "if kind == LIGHT_MORTAR { clamp(now + 1, 0, 24) } else { now }"),
    ("capacity", "if kind == CARRIER { now / 2 } else { now }"),
    ("mounting_actions", "if kind == SECTION { 2 } else { now }"),
];

/// A change of the hook, made where its last argument that is no plain number allows a choice.
fn example(hook: &HookSpec) -> String {
    if let Some((_, example)) = EXAMPLES.iter().find(|(name, _)| *name == hook.name) {
        return (*example).to_owned();
    }
    let changed = match hook.result {
        Domain::Int(low, high) if base_answers(hook).all(|(_, answer)| answer == high) => {
            format!("clamp(now / 2, {low}, {high})")
        }
        Domain::Int(low, high) => format!("clamp(now + 1, {low}, {high})"),
        Domain::Flag => "!now".to_owned(),
        Domain::Named(names) => names.first().copied().unwrap_or("now").to_owned(),
    };
    let condition = hook.args.iter().enumerate().rev().find_map(|(place, arg)| match arg.domain {
        Domain::Flag => Some(arg.name.to_owned()),
        Domain::Named(names) => Some(format!("{} == {}", arg.name, telling(hook, place, names))),
        Domain::Int(..) => None,
    });
    match condition {
        Some(condition) => format!("if {condition} {{ {changed} }} else {{ now }}"),
        None => changed,
    }
}

/// Every argument tuple of a hook with the answer of the base rules.
fn base_answers(hook: &HookSpec) -> impl Iterator<Item = (Vec<i32>, i32)> + '_ {
    (0..hook.cells()).map(|cell| {
        let arguments = hook.arguments(cell);
        let answer = (hook.base)(&arguments);
        (arguments, answer)
    })
}

/// A name that shows the hook at work: most troops are regular, and of other lists the first name
/// for which the base rules have an answer that is neither the least nor the greatest.
fn telling(hook: &HookSpec, place: usize, names: &[&'static str]) -> &'static str {
    let (least, most) = (hook.result.lowest(), hook.result.lowest() + hook.result.len() as i32 - 1);
    let plain = !matches!(hook.result, Domain::Int(..));
    let works = |name: &usize| {
        let of_name = |args: &[i32]| args[place] == *name as i32;
        base_answers(hook)
            .any(|(args, answer)| of_name(&args) && (plain || (answer > least && answer < most)))
    };
    let regular = names.iter().position(|name| *name == "REGULAR");
    names[regular.or_else(|| (0..names.len()).find(works)).unwrap_or_default()]
}

/// The template: a script with every hook, which changes nothing.
pub fn template() -> String {
    let mut text = comment(
        "The template: every hook of the rules, each answering what the rules say already. It \
         changes nothing. Copy it, keep the hooks you want to change, and remove the others.",
    );
    text += "\nfn about() {\n    #{\n        title: \"Base rules\",\n        summary: \"Changes nothing.\",\n    }\n}\n";
    for signature in crate::structure::signatures() {
        text.push('\n');
        text += &explained(&signature);
        text += &idle(&signature);
    }
    text
}

/// What a hook is, as comments: its answer or its moment, its arguments, its base rule.
pub(crate) fn explained(signature: &Signature) -> String {
    if let Some(hook) = HOOKS.iter().find(|hook| hook.name == signature.name) {
        let answer = hook.result.describe();
        return comment(&format!("{} Answer: {answer}.", hook.about))
            + argument_comments(hook.args).as_str()
            + comment(&format!("Base rule (RULES {}): {}", hook.paragraph, hook.base_rule))
                .as_str();
    }
    let hook = EVENT_HOOKS.iter().find(|hook| hook.name == signature.name);
    hook.map_or_else(String::new, |hook| {
        comment(&format!("{} (RULES {})", hook.about, hook.paragraph))
            + argument_comments(hook.args).as_str()
            + comment("Base rule: nothing more happens.").as_str()
    })
}

/// The hook as a function that changes nothing.
pub(crate) fn idle(signature: &Signature) -> String {
    let body = if signature.event { "{ }" } else { "{ now }" };
    format!("fn {} {body}\n", signature.text())
}

/// A body for a hook that changes something.
pub(crate) fn example_body(signature: &Signature) -> String {
    let value = HOOKS.iter().find(|hook| hook.name == signature.name).map(example);
    let event = EVENT_HOOKS.iter().find(|hook| hook.name == signature.name);
    value.or(event.map(|hook| hook.example.to_owned())).unwrap_or_default()
}

fn argument_comments(args: &[Arg]) -> String {
    let line = |arg: &Arg| format!("- {}: {}; {}", arg.name, arg.about, arg.domain.describe());
    args.iter().map(|arg| comment(&line(arg))).collect()
}

/// A comment broken into lines.
pub(crate) fn comment(text: &str) -> String {
    let mut lines = String::new();
    let mut line = String::from("//");
    for word in text.split(' ') {
        if line.len() + 1 + word.len() > WIDTH {
            lines += &line;
            line = "\n//".to_owned();
        }
        line.push(' ');
        line += word;
    }
    format!("{lines}{line}\n")
}
