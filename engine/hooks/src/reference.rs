//! The hook reference and the template script, written from the manifests.

use std::fmt::Write;

use ruleshift_game::{Arg, Domain, EVENT_HOOKS, EventSpec, HOOKS, HookSpec};

use crate::constants::lists;
use crate::game::MEMBERS;
use crate::library::LIBRARY;
use crate::structure::Signature;

/// Width of the lines of the template.
const WIDTH: usize = 98;

/// The hook reference as Markdown: value hooks, event hooks, the game, functions, constants.
pub fn reference() -> String {
    let mut text = String::new();
    text += "### Value hooks\n\n";
    for (hook, signature) in HOOKS.iter().zip(crate::structure::signatures()) {
        text += &value_hook(hook, &signature);
    }
    text += "### Event hooks\n\n";
    let events = crate::structure::signatures().into_iter().filter(|signature| signature.event);
    for (hook, signature) in EVENT_HOOKS.iter().zip(events) {
        text += &event_hook(hook, &signature);
    }
    text += "### The game\n\nWhat event hooks may ask and do. A unit is its number.\n\n";
    text += "| write | to get or do |\n| --- | --- |\n";
    for member in MEMBERS {
        let _ = writeln!(text, "| `{}` | {} |", member.signature(), member.about);
    }
    text += "\n### Functions\n\n| write | to get |\n| --- | --- |\n";
    for function in LIBRARY {
        let _ = writeln!(
            text,
            "| `{}({})` | {} |",
            function.name,
            function.args.join(", "),
            function.about
        );
    }
    text += "\n### Constants\n\n| for | names |\n| --- | --- |\n";
    for names in lists() {
        let names_text: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
        let _ = writeln!(text, "| {} | {} |", used_for(names), names_text.join(", "));
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
    let _ = write!(text, "\n```rhai\nfn {} {{ {} }}\n```\n\n", signature.text(), hook.example);
    text
}

fn heading(signature: &Signature, about: &str, paragraph: &str) -> String {
    format!("#### {}\n\n{about} (RULES {paragraph})\n\n", signature.name)
}

fn arguments(args: &[Arg]) -> String {
    let line = |arg: &Arg| format!("- `{}`: {}; {}\n", arg.name, arg.about, arg.domain.describe());
    args.iter().map(line).collect()
}

/// A small change of the hook, made where its last argument that is no plain number allows a
/// choice; the base rule is not that already.
fn example(hook: &HookSpec) -> String {
    let chosen = hook.args.iter().rposition(|arg| !matches!(arg.domain, Domain::Int(..)));
    let last = |n: usize| hook.args[n].domain.lowest() + hook.args[n].domain.len() as i32 - 1;
    let answers: Vec<i32> = (0..hook.cells())
        .map(|cell| hook.arguments(cell))
        .filter(|values| chosen.is_none_or(|n| values[n] == last(n)))
        .map(|values| (hook.base)(&values))
        .collect();
    let changed = match hook.result {
        Domain::Int(low, high) => {
            let step = if answers.iter().all(|answer| *answer == high) { "- 1" } else { "+ 1" };
            format!("clamp(now {step}, {low}, {high})")
        }
        Domain::Flag => "!now".to_owned(),
        Domain::Named(names) => {
            let new = |n: &usize| answers.iter().any(|answer| *answer != *n as i32);
            (0..names.len()).find(new).map_or("now", |n| names[n]).to_owned()
        }
    };
    let condition = chosen.map(|n| match hook.args[n].domain {
        Domain::Flag => hook.args[n].name.to_owned(),
        domain => format!("{} == {}", hook.args[n].name, domain.show(last(n))),
    });
    match condition {
        Some(condition) => format!("if {condition} {{ {changed} }} else {{ now }}"),
        None => changed,
    }
}

/// What a list of names is for: the arguments and answers that use it.
fn used_for(names: &[&str]) -> String {
    let same = |domain: Domain| matches!(domain, Domain::Named(list) if list == names);
    let of_events = EVENT_HOOKS.iter().flat_map(|hook| hook.args);
    let args = HOOKS.iter().flat_map(|hook| hook.args).chain(of_events);
    let answers = HOOKS.iter().filter(|hook| same(hook.result)).map(|hook| hook.name);
    let mut uses: Vec<&str> =
        args.filter(|arg| same(arg.domain)).map(|arg| arg.name).chain(answers).collect();
    uses.sort_unstable();
    uses.dedup();
    uses.join(", ")
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
    match HOOKS.iter().find(|hook| hook.name == signature.name) {
        Some(hook) => example(hook),
        None => format!("game.note(`{}`);", signature.name),
    }
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
