//! Faults found while a script is compiled.

mod brackets;
mod gaps;

use rhai::{LexError, ParseError, ParseErrorType as Kind, Position};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::limits::{EXPRESSION_DEPTH, MAX_FUNCTIONS, MAX_LIST, MAX_MAP, MAX_TEXT};
use crate::nearest::did_you_mean;
use crate::sandbox::{FORBIDDEN, Sandbox};
use crate::source::Source;

/// The diagnostic for an error of the compiler.
pub(crate) fn diagnostic(source: &Source, error: &ParseError, constants: &Constants) -> Diagnostic {
    if let Some(strange) = crate::letters::strange(source, error.position()) {
        return strange;
    }
    let place = source.place(error.position());
    let (before, word) = place.map_or(("", ""), |place| {
        (&source.text[..place.span.start], source.text[place.span].trim())
    });
    let reader = Reader { source, at: error.position(), before, word, constants };
    let kind = error.err_type();
    reader
        .about_brackets()
        .or_else(|| reader.about_names(kind))
        .or_else(|| reader.about_limits(kind))
        .or_else(|| reader.about_gaps(kind))
        .or_else(|| reader.about_places(kind))
        .unwrap_or_else(|| reader.syntax(lower(&kind.to_string()).replace('\'', "`")))
        .help("more may follow once this is mended")
}

struct Reader<'a> {
    source: &'a Source,
    at: Position,
    /// The text before the place of the error.
    before: &'a str,
    /// The word or sign there; empty at the end of the text.
    word: &'a str,
    constants: &'a Constants,
}

impl Reader<'_> {
    fn fault(&self, id: Id, headline: String) -> Diagnostic {
        Diagnostic::new(id, self.source, self.at, headline)
    }

    fn syntax(&self, headline: impl Into<String>) -> Diagnostic {
        self.fault(Id::Syntax, headline.into())
    }

    /// As if the error were at that byte of the text.
    fn at(&self, place: usize) -> Reader<'_> {
        Reader { at: position(self.source, place), ..*self }
    }

    /// As if the error were at the word that starts so many letters before.
    fn back(&self, letters: usize) -> Reader<'_> {
        let column = self.at.position().unwrap_or(1).saturating_sub(letters).max(1);
        let at = Position::new(self.at.line().unwrap_or(1) as u16, column as u16);
        Reader { at, ..*self }
    }

    /// Names that are taken, unknown or not allowed.
    fn about_names(&self, kind: &Kind) -> Option<Diagnostic> {
        let constants = || self.constants.keys().map(String::as_str);
        Some(match kind {
            Kind::BadInput(LexError::ImproperSymbol(name, _)) | Kind::Reserved(name)
                if is_word(name) =>
            {
                self.forbidden(name)
            }
            Kind::FnMissingName if is_word(self.word) && !self.word.is_empty() => {
                match self.constants.contains_key(self.word) {
                    true => self.constant(),
                    false => self.forbidden(self.word),
                }
            }
            Kind::PropertyExpected if FORBIDDEN.contains(&self.word) => self.forbidden(self.word),
            Kind::FnDuplicatedDefinition(name, _) => {
                // The error is at `fn`.
                let from = self.source.place(self.at).map_or(0, |place| place.span.start);
                let between = self.source.text[from..].find(name.as_str());
                let column = self.at.position().unwrap_or(1) + between.unwrap_or_default();
                let at = Position::new(self.at.line().unwrap_or(1) as u16, column as u16);
                Reader { at, ..*self }
                    .fault(Id::Duplicate, format!("`{name}` is defined twice"))
                    .help("remove one of them, or give one another name")
            }
            Kind::FnDuplicatedParam(_, name) => self
                .fault(Id::Duplicate, format!("`{name}` is an argument twice"))
                .help("give each argument a name of its own"),
            Kind::DuplicatedProperty(name) => self
                .fault(Id::Duplicate, format!("the map has `{name}` twice"))
                .help("remove one of them"),
            Kind::VariableExists(name) | Kind::DuplicatedVariable(name) => self
                .fault(Id::Duplicate, format!("there is already a `{name}` here"))
                .help("use another name: a variable may not hide another one"),
            Kind::VariableUndefined(name) => self
                .fault(Id::UnknownName, format!("`{name}` stands for nothing"))
                .help_if(did_you_mean(name, constants())),
            Kind::VariableExpected
            | Kind::PropertyExpected
            | Kind::MissingToken(..)
            | Kind::FnMissingParams(_)
            | Kind::AssignmentToConstant(_)
            | Kind::AssignmentToInvalidLHS(_)
                if self.constants.contains_key(self.word) =>
            {
                self.constant()
            }
            Kind::ExprExpected(what) if what.contains("literal") && !self.word.is_empty() => {
                self.case()
            }
            _ => return None,
        })
    }

    /// What stands for a case and cannot be one.
    fn case(&self) -> Diagnostic {
        let rest = &self.source.text[self.before.len()..];
        let case = rest.split("=>").next().unwrap_or_default();
        if case.contains("||") && !case.contains('\n') {
            return self
                .syntax("between cases stands `|`, not `||`")
                .help("write `|` for `||`: `1 | 2 => value`");
        }
        let constants = self.constants.keys().map(String::as_str);
        let lists = || crate::constants::offered(self.before);
        let named = crate::constants::named_like(self.word);
        self.syntax("a case must be a number, a text or a constant")
            .help_if(did_you_mean(self.word, constants).or_else(|| named.then(lists).flatten()))
    }

    fn constant(&self) -> Diagnostic {
        self.fault(Id::Duplicate, format!("`{}` is a constant", self.word)).help("use another name")
    }

    fn forbidden(&self, name: &str) -> Diagnostic {
        let help = match name {
            "import" | "export" | "as" => "a script is one file and loads no other",
            "print" | "debug" => "to leave a line in the game's log, use `game.note(text)`",
            "this" => "give the value to the function as an argument",
            "var" => "write `let` for `var`",
            "null" | "nil" => "there is no such value: use a number that stands for it",
            "type_of" | "is_def_fn" | "is_def_var" | "is_shared" => {
                "what a script defines and what a hook is given is always the same"
            }
            _ if FORBIDDEN.contains(&name) => "call functions by their names",
            _ => "the language keeps this word for itself: use another",
        };
        self.fault(Id::Forbidden, format!("`{name}` may not be used")).help(help)
    }

    /// Scripts that go too far.
    fn about_limits(&self, kind: &Kind) -> Option<Diagnostic> {
        Some(match kind {
            Kind::ExprTooDeep => self.fault(Id::Depth, "this is nested too deep".into()).help(
                format!("break it up with `let` or with a helper function: {EXPRESSION_DEPTH} levels are allowed, and each part of a long sum is one"),
            ),
            Kind::TooManyFunctions => self
                .fault(Id::TooLong, "the script has too many functions".into())
                .help(format!("at most {MAX_FUNCTIONS} are allowed")),
            Kind::LiteralTooLarge(what, _) => {
                let (what, limit, unit) = size_of(what);
                // The compiler counts one more place in what is written out.
                let limit = if unit == "bytes" { limit } else { limit - 1 };
                self.fault(Id::Size, format!("{what} is too large"))
                    .help(format!("written out, it may have {limit} {unit}"))
            }
            _ => return None,
        })
    }
}

/// A comment between functions that never ends: the compiler takes the rest of the script for it
/// and is content.
pub(crate) fn open_comment(source: &Source) -> Option<Diagnostic> {
    // What is certainly a fault is none within a comment.
    let open = |text: &str| {
        let text = format!("{text}\nfn");
        Sandbox::for_values().draft(&text, &Constants::new(), true).is_ok()
    };
    let places = || source.text.match_indices("/*").map(|(place, _)| place);
    if places().next().is_none() || !open(&source.text) {
        return None;
    }
    let place = places().find(|place| open(&source.text[..place + 2]))?;
    let at = position(source, place);
    Some(
        Diagnostic::new(Id::Syntax, source, at, "this comment has no end")
            .help("close it with `*/`: each `/*` within it needs one too"),
    )
}

/// The position of a byte of the text.
fn position(source: &Source, place: usize) -> Position {
    let before = &source.text[..place];
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    Position::new(line as u16, column as u16)
}

fn is_word(text: &str) -> bool {
    text.chars().all(|c| c.is_alphanumeric() || c == '_')
}

/// What is limited as authors know it, how much of it may be, and of what.
pub(crate) fn size_of(what: &str) -> (&'static str, usize, &'static str) {
    match what {
        "Length of string" => ("a text", MAX_TEXT, "bytes"),
        _ if what.contains("map") => ("a map", MAX_MAP, "entries"),
        _ => ("a list", MAX_LIST, "elements"),
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
