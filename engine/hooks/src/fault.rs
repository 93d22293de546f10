//! Faults found while a script runs.

use rhai::{EvalAltResult as Error, Position};

use crate::culprit::culprit;
use crate::diagnostic::{Diagnostic, Id};
use crate::game::MEMBERS;
use crate::library::LIBRARY;
use crate::limits::{CALL_LEVELS, MAX_VARIABLES};
use crate::source::Source;

/// What was running when a fault was found.
pub(crate) struct Running<'a> {
    pub(crate) source: &'a Source,
    /// The call, with its arguments: `marker_actions(now = 4)`.
    pub(crate) call: String,
    /// Where the name of the hook stands.
    pub(crate) at: Position,
    /// Operations one call may take.
    pub(crate) operations: u64,
}

impl Running<'_> {
    /// The diagnostic for an error of the engine.
    pub(crate) fn diagnostic(&self, error: &Error) -> Diagnostic {
        let inner = innermost(error);
        let (id, what, help) = self.explain(inner);
        let hook = self.call.split('(').next().unwrap_or_default();
        // Errors about limits have no place: what must have caused them stands for it.
        let at = [inner.position(), error.position()].into_iter().find(|at| !at.is_none());
        let at = at.or_else(|| culprit(self.source, hook, id)).unwrap_or(self.at);
        Diagnostic::new(id, self.source, at, format!("`{}`: {what}", self.call)).help_if(help)
    }

    fn explain(&self, error: &Error) -> Explained {
        match error {
            Error::ErrorTooManyOperations(_) => explained(
                Id::Budget,
                format!("did not end within {} operations", self.operations),
                "look for a loop that never ends, or do less in it",
            ),
            Error::ErrorStackOverflow(_) => explained(
                Id::Depth,
                format!("calls are nested deeper than {CALL_LEVELS}"),
                "look for a function that calls itself without end",
            ),
            Error::ErrorDataTooLarge(what, _) => {
                let (what, limit, unit) = crate::syntax::size_of(what);
                explained(
                    Id::Size,
                    format!("{what} has grown too large"),
                    &format!("at most {limit} {unit} are allowed"),
                )
            }
            Error::ErrorTooManyVariables(_) => explained(
                Id::Size,
                "too many variables".into(),
                &format!("at most {MAX_VARIABLES} are allowed at one moment: use helper functions"),
            ),
            Error::ErrorArithmetic(what, _) => arithmetic(what),
            Error::ErrorRuntime(value, _) if value.is_unit() => explained(
                Id::Refused,
                "the script stopped here".into(),
                "say why: `throw \"the reason\"`",
            ),
            Error::ErrorRuntime(value, _) => (Id::Refused, value.to_string(), None),
            Error::ErrorFunctionNotFound(signature, _) => operands(signature),
            other => wrong_type(other).unwrap_or_else(|| beyond(other)),
        }
    }
}

/// Kind, what went wrong, what to do.
type Explained = (Id, String, Option<String>);

fn explained(id: Id, what: String, help: &str) -> Explained {
    (id, what, Some(help.to_owned()))
}

fn arithmetic(what: &str) -> Explained {
    let what = crate::syntax::lower(&plain_types(what));
    let terms = what.split_once(": ").map_or("", |(_, terms)| terms).replace("--", "- -");
    if what.contains("zero") {
        let what = format!("division by zero: {terms}");
        return explained(Id::Arithmetic, what, "test for 0 before you divide");
    }
    if what.contains("overflow") {
        let what = format!("the result is too large: {terms}");
        return explained(Id::Arithmetic, what, "numbers are at most 9223372036854775807");
    }
    (Id::Arithmetic, what, None)
}

/// Values of a type that cannot be used so.
fn wrong_type(error: &Error) -> Option<Explained> {
    let explained = |what, help: &str| Some(explained(Id::WrongType, what, help));
    match error {
        Error::ErrorMismatchDataType(wanted, got, _)
        | Error::ErrorMismatchOutputType(wanted, got, _) => {
            let (wanted, got) = (plain_types(wanted), plain_types(got));
            let what = format!("expected {wanted}, found {got}");
            match (wanted.as_str(), got.as_str()) {
                ("bool", "int") => explained(what, "compare it: `number > 0`"),
                _ => Some((Id::WrongType, what, None)),
            }
        }
        Error::ErrorFor(_) => {
            explained("`for` goes over a range or a list only".into(), "write `for n in 0..number`")
        }
        Error::ErrorIndexingType(types, _) => {
            let owner = plain_types(types.split(' ').next().unwrap_or_default());
            explained(
                format!("{owner} has no parts to take by `[...]`"),
                "lists have parts by number: `list[0]`; maps by name: `map.name`",
            )
        }
        Error::ErrorDotExpr(what, _) => match what.split('\'').collect::<Vec<_>>()[..] {
            [_, name, _, owner, ..] => {
                let what = format!("{} has no property `{name}`", plain_types(owner));
                explained(what, "only maps and `game` have properties")
            }
            _ => None,
        },
        _ => None,
    }
}

/// Parts of a list, text or map that are not there, and whatever else may go wrong.
fn beyond(error: &Error) -> Explained {
    let explained = |what, help: &str| explained(Id::Fault, what, help);
    match error {
        Error::ErrorArrayBounds(0, index, _) => explained(
            format!("the list is empty: it has no element {index}"),
            "test its `len` before you take an element",
        ),
        Error::ErrorArrayBounds(1, index, _) => explained(
            format!("the list has no element {index}: it has 1"),
            "its only element is `list[0]`",
        ),
        Error::ErrorArrayBounds(length, index, _) => explained(
            format!("the list has no element {index}: it has {length}"),
            &format!("elements are numbered 0 to {}", length - 1),
        ),
        Error::ErrorStringBounds(length, index, _) => explained(
            format!("the text has no letter {index}: it has {length}"),
            "letters are numbered from 0",
        ),
        Error::ErrorBitFieldBounds(bits, index, _) => explained(
            format!("a number has no bit {index}: it has {bits}"),
            "`number[0]` asks for a bit of a number: is it meant to be a list?",
        ),
        Error::ErrorPropertyNotFound(name, _) => explained(
            format!("the map has no entry `{name}`"),
            "give it one where the map is made, or test `\"name\" in map`",
        ),
        Error::ErrorIndexNotFound(name, _) => explained(
            format!("the map has no entry `{name}`"),
            "give it one where the map is made, or test `\"name\" in map`",
        ),
        other => (Id::Fault, crate::syntax::lower(&without_place(other)), None),
    }
}

/// The error inside calls in calls.
fn innermost(mut error: &Error) -> &Error {
    while let Error::ErrorInFunctionCall(_, _, inner, _) = error {
        error = inner;
    }
    error
}

/// A missing function is often an operator between values of the wrong types.
fn operands(signature: &str) -> Explained {
    let (name, types) = signature.split_once('(').unwrap_or((signature, ")"));
    let (name, types) = (name.trim(), plain_types(types.trim_end_matches(')')));
    if name.chars().any(char::is_alphanumeric) {
        let known = LIBRARY.iter().find(|function| function.name == name);
        let wanted = known.map(|f| format!("`{}({})`: {}", f.name, f.args.join(", "), f.about));
        let member = MEMBERS.iter().find(|member| member.name == name);
        let wanted = wanted.or(member.map(|m| format!("`{}`: {}", m.signature(), m.about)));
        return (Id::WrongType, format!("`{name}` does not take ({types})"), wanted);
    }
    let types = types.replace(", ", " and ");
    let help = if types.contains("nothing") {
        "`nothing` comes from an `if` without `else`, a `switch` without `_ =>` or a function that gives no value"
    } else {
        "both sides must be of one type"
    };
    explained(Id::WrongType, format!("`{name}` cannot be applied to {types}"), help)
}

/// Names of types as authors know them.
pub(crate) fn plain_types(text: &str) -> String {
    let names = [("i64", "int"), ("&str | ImmutableString | String", "string"), ("()", "nothing")];
    names.iter().fold(text.to_owned(), |text, (from, to)| text.replace(from, to))
}

fn without_place(error: &Error) -> String {
    let text = error.to_string();
    text.rfind(" (line ").map_or(text.clone(), |at| text[..at].to_owned())
}
