//! Faults found while a script is compiled.

use rhai::{LexError, ParseError, ParseErrorType as Kind};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::nearest::did_you_mean;
use crate::sandbox::FORBIDDEN;
use crate::source::Source;

/// The diagnostic for an error of the compiler.
pub(crate) fn diagnostic(source: &Source, error: &ParseError, constants: &Constants) -> Diagnostic {
    let new = |id, headline: String| Diagnostic::new(id, source, error.position(), headline);
    let word = source.place(error.position()).map(|place| source.text[place.span].to_owned());
    let word = word.unwrap_or_default();
    let at_end =
        word.is_empty() && source.text.lines().count() <= error.position().line().unwrap_or(0);
    match error.err_type() {
        Kind::UnexpectedEOF | Kind::MissingToken(..) | Kind::ExprExpected(_) if at_end => {
            new(Id::Syntax, "the script ends too early".into()).help("a `}` or a `)` is missing")
        }
        Kind::BadInput(LexError::ImproperSymbol(name, _)) if is_word(name) => {
            forbidden(new(Id::Forbidden, format!("`{name}` may not be used")), name)
        }
        Kind::MissingToken(token, _)
            if token == ";" && before(source, error).ends_with("function ") =>
        {
            new(Id::Syntax, "a function begins with `fn`".into()).help("write `fn` for `function`")
        }
        Kind::Reserved(name) if is_word(name) => {
            forbidden(new(Id::Forbidden, format!("`{name}` may not be used")), name)
        }
        Kind::FnDuplicatedDefinition(name, _) => {
            new(Id::Duplicate, format!("`{name}` is defined twice")).help("remove one of them")
        }
        Kind::VariableExists(name) => {
            new(Id::Duplicate, format!("there is already a `{name}` here"))
                .help("use another name: a variable may not hide another one")
        }
        Kind::VariableUndefined(name) => {
            new(Id::UnknownName, format!("`{name}` stands for nothing"))
                .help_if(did_you_mean(name, constants.keys().map(String::as_str)))
        }
        Kind::ExprExpected(what) if what == "a literal" => {
            new(Id::Syntax, "a case must be a number, a text or a constant".into())
                .help_if(did_you_mean(&word, constants.keys().map(String::as_str)))
        }
        Kind::VariableExpected
        | Kind::PropertyExpected
        | Kind::MissingToken(..)
        | Kind::FnMissingParams(_)
        | Kind::AssignmentToConstant(_)
        | Kind::AssignmentToInvalidLHS(_)
            if constants.contains_key(&word) =>
        {
            new(Id::Duplicate, format!("`{word}` is a constant")).help("use another name")
        }
        Kind::ExprTooDeep => new(Id::Depth, "this is nested too deep".into())
            .help("break it up with `let` or with a helper function"),
        Kind::TooManyFunctions => new(Id::TooLong, "the script has too many functions".into()),
        Kind::LiteralTooLarge(what, limit) => {
            new(Id::Size, format!("{} is too large", size_of(what)))
                .help(format!("at most {limit} are allowed"))
        }
        Kind::UnexpectedEOF => {
            new(Id::Syntax, "the script ends too early".into()).help("a `}` or a `)` is missing")
        }
        Kind::BadInput(LexError::UnterminatedString) => {
            new(Id::Syntax, "this text has no closing quote".into())
        }
        kind => new(Id::Syntax, lower(&kind.to_string())),
    }
}

fn forbidden(diagnostic: Diagnostic, name: &str) -> Diagnostic {
    let help = match name {
        "import" | "export" | "as" => "a script is one file and loads no other",
        "print" | "debug" => "to leave a line in the game's log, use `game.note(text)`",
        "this" => "give the value to the function as an argument",
        _ if FORBIDDEN.contains(&name) => "call functions by their names",
        _ => "the language keeps this word for itself: use another",
    };
    diagnostic.help(help)
}

fn is_word(text: &str) -> bool {
    text.chars().all(|c| c.is_alphanumeric() || c == '_')
}

/// The text before the place of an error.
fn before<'a>(source: &'a Source, error: &ParseError) -> &'a str {
    source.place(error.position()).map_or("", |place| &source.text[..place.span.start])
}

/// The name of a limit on data as authors know it.
pub(crate) fn size_of(what: &str) -> &'static str {
    match what {
        "Length of string" => "a text",
        _ if what.contains("map") => "a map",
        _ => "a list",
    }
}

/// The sentence as a fragment: `Expecting x` becomes `expecting x`.
pub(crate) fn lower(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.as_str()) {
        (Some(first), rest) if !rest.starts_with(|c: char| c.is_uppercase()) => {
            first.to_lowercase().chain(rest.chars()).collect()
        }
        _ => text.to_owned(),
    }
}
