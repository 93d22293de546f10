//! Faults found while a script runs.

use rhai::{EvalAltResult as Error, Position};

use crate::diagnostic::{Diagnostic, Id};
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
        // Errors about limits have no place: the hook's name stands for it.
        let at = [inner.position(), error.position(), self.at];
        let at = at.into_iter().find(|at| !at.is_none()).unwrap_or(self.at);
        Diagnostic::new(id, self.source, at, format!("`{}`: {what}", self.call)).help_if(help)
    }

    fn explain(&self, error: &Error) -> (Id, String, Option<String>) {
        let limit = |id, what: String, help: &str| (id, what, Some(help.to_owned()));
        match error {
            Error::ErrorTooManyOperations(_) => limit(
                Id::Budget,
                format!("did not end within {} operations", self.operations),
                "look for a loop that never ends",
            ),
            Error::ErrorStackOverflow(_) => limit(
                Id::Depth,
                format!("calls are nested deeper than {}", crate::limits::CALL_LEVELS),
                "look for a function that calls itself without end",
            ),
            Error::ErrorDataTooLarge(what, _) => limit(
                Id::Size,
                format!("{} has grown too large", crate::syntax::size_of(what)),
                "keep lists, maps and texts small",
            ),
            Error::ErrorTooManyVariables(_) => {
                limit(Id::Size, "too many variables".into(), "use helper functions")
            }
            Error::ErrorArithmetic(what, _) => {
                (Id::Arithmetic, crate::syntax::lower(&plain_types(what)), None)
            }
            Error::ErrorFunctionNotFound(signature, _) => operands(signature),
            Error::ErrorMismatchDataType(wanted, got, _)
            | Error::ErrorMismatchOutputType(wanted, got, _) => {
                let (wanted, got) = (plain_types(wanted), plain_types(got));
                (Id::WrongType, format!("expected {wanted}, found {got}"), None)
            }
            Error::ErrorDotExpr(what, _) => match what.split('\'').collect::<Vec<_>>()[..] {
                [_, name, _, owner, ..] => {
                    let owner = plain_types(owner);
                    (Id::WrongType, format!("{owner} has no property `{name}`"), None)
                }
                _ => (Id::Fault, crate::syntax::lower(what), None),
            },
            Error::ErrorRuntime(value, _) => (Id::Refused, value.to_string(), None),
            other => (Id::Fault, crate::syntax::lower(&without_place(other)), None),
        }
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
fn operands(signature: &str) -> (Id, String, Option<String>) {
    let (name, types) = signature.split_once('(').unwrap_or((signature, ")"));
    let (name, types) = (name.trim(), plain_types(types.trim_end_matches(')')));
    if name.chars().any(char::is_alphanumeric) {
        return (Id::WrongType, format!("`{name}` does not take ({types})"), None);
    }
    let types = types.replace(", ", " and ");
    (Id::WrongType, format!("`{name}` cannot be applied to {types}"), None)
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
