//! Faults found while a script is compiled.

use rhai::{LexError, ParseError, ParseErrorType as Kind, Position};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::limits::{EXPRESSION_DEPTH, MAX_FUNCTIONS, MAX_LIST, MAX_MAP, MAX_TEXT};
use crate::nearest::did_you_mean;
use crate::sandbox::{FORBIDDEN, Sandbox};
use crate::source::Source;
use crate::structure::signatures;

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
        .about_names(kind)
        .or_else(|| reader.about_limits(kind))
        .or_else(|| reader.about_gaps(kind))
        .or_else(|| reader.about_places(kind))
        .unwrap_or_else(|| reader.syntax(lower(&kind.to_string()).replace('\'', "`")))
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
    fn new(&self, id: Id, headline: String) -> Diagnostic {
        Diagnostic::new(id, self.source, self.at, headline)
    }

    fn syntax(&self, headline: impl Into<String>) -> Diagnostic {
        self.new(Id::Syntax, headline.into())
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
                    .new(Id::Duplicate, format!("`{name}` is defined twice"))
                    .help("remove one of them, or give one another name")
            }
            Kind::FnDuplicatedParam(_, name) => self
                .new(Id::Duplicate, format!("`{name}` is an argument twice"))
                .help("give each argument a name of its own"),
            Kind::DuplicatedProperty(name) => self
                .new(Id::Duplicate, format!("the map has `{name}` twice"))
                .help("remove one of them"),
            Kind::VariableExists(name) | Kind::DuplicatedVariable(name) => self
                .new(Id::Duplicate, format!("there is already a `{name}` here"))
                .help("use another name: a variable may not hide another one"),
            Kind::VariableUndefined(name) => self
                .new(Id::UnknownName, format!("`{name}` stands for nothing"))
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
            Kind::ExprExpected(what) if what == "a literal" => self
                .syntax("a case must be a number, a text or a constant")
                .help_if(did_you_mean(self.word, constants())),
            _ => return None,
        })
    }

    fn constant(&self) -> Diagnostic {
        self.new(Id::Duplicate, format!("`{}` is a constant", self.word)).help("use another name")
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
        self.new(Id::Forbidden, format!("`{name}` may not be used")).help(help)
    }

    /// Scripts that go too far.
    fn about_limits(&self, kind: &Kind) -> Option<Diagnostic> {
        Some(match kind {
            Kind::ExprTooDeep => self.new(Id::Depth, "this is nested too deep".into()).help(
                format!("break it up with `let` or with a helper function: {EXPRESSION_DEPTH} levels are allowed, and each part of a long sum is one"),
            ),
            Kind::TooManyFunctions => self
                .new(Id::TooLong, "the script has too many functions".into())
                .help(format!("at most {MAX_FUNCTIONS} are allowed")),
            Kind::LiteralTooLarge(what, _) => {
                let (what, limit) = size_of(what);
                self.new(Id::Size, format!("{what} is too large"))
                    .help(format!("at most {limit} are allowed"))
            }
            _ => return None,
        })
    }

    /// Something is missing.
    fn about_gaps(&self, kind: &Kind) -> Option<Diagnostic> {
        let found = self.word;
        let at_end = found.is_empty();
        Some(match kind {
            Kind::UnexpectedEOF => self.too_early(),
            Kind::MissingToken(..) | Kind::ExprExpected(_) | Kind::FnMissingBody(_) if at_end => {
                self.too_early()
            }
            Kind::MissingToken(token, purpose) => self.missing(token, purpose),
            Kind::ExprExpected(what) if what.contains("bool") => self
                .syntax(format!("a condition is missing before `{found}`"))
                .help("a condition is a question: `number > 3`"),
            Kind::ExprExpected(_) => self.no_value(),
            Kind::BadInput(LexError::UnexpectedInput(sign)) => match sign.as_str() {
                "|" | "||" => self
                    .syntax("a function without a name is not allowed")
                    .help("write a helper function and call it by its name"),
                "else" => self
                    .syntax("this `else` has no `if`")
                    .help("`else` stands right behind the `}` of its `if`"),
                _ => self.no_value(),
            },
            Kind::BadInput(LexError::UnterminatedString) => self
                .syntax("this text has no closing quote")
                .help("end it with the sign it begins with, in the same line"),
            Kind::FnMissingName => {
                self.syntax("a function has no name").help("write `fn name(...) { ... }`")
            }
            Kind::FnMissingParams(name) => self
                .syntax(format!("`{name}` lacks its arguments"))
                .help(format!("write `fn {}`", signature(name))),
            Kind::FnMissingBody(name) => self
                .syntax(format!("`{name}` lacks its body"))
                .help(format!("write `fn {} {{ ... }}`", signature(name))),
            Kind::VariableExpected => self
                .syntax(format!("a name is missing before `{found}`"))
                .help("names consist of letters, digits and `_`, a letter first"),
            Kind::PropertyExpected => self.fraction().unwrap_or_else(|| {
                self.syntax(format!("a name is missing before `{found}`"))
                    .help("a property is a name behind a point: `game.turn`")
            }),
            _ => return None,
        })
    }

    fn too_early(&self) -> Diagnostic {
        let comment =
            if self.source.text.contains("/*") { ", or a comment has no `*/`" } else { "" };
        self.syntax("the script ends too early")
            .help(format!("a `}}` or a `)` is missing{comment}"))
    }

    fn no_value(&self) -> Diagnostic {
        let headline = format!("a value is missing before `{}`", self.word);
        self.syntax(headline).help("a value is a number, a name, a call, a text, a list or a map")
    }

    fn missing(&self, token: &str, purpose: &str) -> Diagnostic {
        let found = self.word;
        if token == ";" && self.before.ends_with("function ") {
            return self
                .back("function ".len())
                .syntax("a function begins with `fn`")
                .help("write `fn` for `function`");
        }
        if token == ";" && [")", "]", "}"].contains(&found) {
            return self
                .syntax(format!("there is one `{found}` too many"))
                .help("remove it, or open it before");
        }
        let last = self.before.trim_end().rsplit(|c: char| !c.is_alphanumeric()).next();
        let back = self.before.chars().rev().take_while(|c| c.is_whitespace()).count();
        if let Some(meant) = foreign(found) {
            return self.foreign(found, meant);
        }
        if let Some((last, meant)) = last.and_then(|last| Some((last, foreign(last)?))) {
            return self.back(back + last.len()).foreign(last, meant);
        }
        let or_end = match purpose {
            _ if token != "," => "",
            _ if purpose.contains("array") => " or `]`",
            _ if purpose.contains("map") => " or `}`",
            _ if purpose.contains("switch") => " or `}`",
            _ => " or `)`",
        };
        let headline = format!("`{token}`{or_end} is missing before `{found}`");
        self.syntax(headline).help(match token {
            ";" => "a `;` stands between two statements".to_owned(),
            "," => "a `,` stands between two of them".to_owned(),
            _ => format!("it is needed {}", purpose.replace("array literal", "list")),
        })
    }

    fn foreign(&self, word: &str, meant: &str) -> Diagnostic {
        self.syntax(format!("`{word}` is no word of the language"))
            .help(format!("write `{meant}` for `{word}`"))
    }

    /// A number with a point is read as a property of a number.
    fn fraction(&self) -> Option<Diagnostic> {
        let whole = self.before.strip_suffix('.')?;
        let digits = whole.chars().rev().take_while(char::is_ascii_digit).count();
        let number = format!("{}.{}", &whole[whole.len() - digits..], self.word);
        let is_number = digits > 0 && self.word.chars().all(|c| c.is_ascii_digit());
        is_number.then(|| {
            self.back(digits + 1)
                .syntax(format!("numbers are whole, and `{number}` has a point"))
                .help("multiply, then divide: half of `now` is `now / 2`")
        })
    }

    /// Something stands where it may not.
    fn about_places(&self, kind: &Kind) -> Option<Diagnostic> {
        let (headline, help): (String, String) = match kind {
            Kind::BadInput(LexError::ImproperSymbol(sign, _)) if sign == "=" => {
                ("`=` sets a value and asks nothing".into(), "write `==` to compare".into())
            }
            Kind::UnknownOperator(sign) | Kind::Reserved(sign) => (
                format!("there is no operator `{sign}`"),
                match sign.as_str() {
                    "++" => "write `n += 1`".into(),
                    "--" => "write `n -= 1`".into(),
                    "===" => "write `==`".into(),
                    "!==" => "write `!=`".into(),
                    "->" => "a function says nothing of what it gives: leave it out".into(),
                    ":=" => "write `let name = value`".into(),
                    "::" => "a script is one file: leave it out".into(),
                    "?" => "write `if condition { a } else { b }`".into(),
                    _ => "write a sum, a comparison or a call instead".into(),
                },
            ),
            Kind::BadInput(LexError::MalformedEscapeSequence(sign)) => (
                format!("`{sign}` stands for no letter"),
                "in a text write `\\\\` for a backslash, `\\\"` for a quote, `\\n` for a new line"
                    .into(),
            ),
            Kind::BadInput(LexError::MalformedNumber(number)) => (
                format!("`{number}` is no number"),
                "numbers are whole and at most 9223372036854775807".into(),
            ),
            Kind::BadInput(LexError::MalformedChar(_)) => {
                ("a text stands between `\"`, not between `'`".into(), "write `\"text\"`".into())
            }
            Kind::WrongFnDefinition => (
                "a function may not stand inside another".into(),
                "move it out: functions stand side by side".into(),
            ),
            Kind::LoopBreak => (
                "this stands outside every loop".into(),
                "to answer early, write `return value;`".into(),
            ),
            Kind::AssignmentToConstant(_) | Kind::AssignmentToInvalidLHS(_) => (
                "this cannot be set".into(),
                "left of `=` stands a variable, an element of a list or an entry of a map".into(),
            ),
            Kind::WrongSwitchDefaultCase => {
                ("`_` must be the last case".into(), "move it behind the others".into())
            }
            Kind::WrongSwitchIntegerCase => {
                ("a number may not follow a range here".into(), "put cases with ranges last".into())
            }
            Kind::WrongSwitchCaseCondition => {
                ("`_` takes no condition".into(), "write `_ => value`".into())
            }
            Kind::MismatchedType(wanted, got) => (
                crate::fault::plain_types(&format!("expected {wanted}, found {got}")),
                "a condition is a question: `number > 3`".into(),
            ),
            _ => return None,
        };
        Some(self.syntax(headline).help(help))
    }
}

/// What scripts have for a word of other languages.
fn foreign(word: &str) -> Option<&'static str> {
    Some(match word {
        "and" => "&&",
        "or" => "||",
        "not" => "!",
        "then" => "{",
        "elif" | "elsif" | "elseif" => "else if",
        "mod" => "%",
        _ => return None,
    })
}

/// As a script writes the function: a hook's arguments are known.
fn signature(name: &str) -> String {
    let hook = signatures().into_iter().find(|signature| signature.name == name);
    hook.map_or_else(|| format!("{name}(...)"), |signature| signature.text())
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
    let before = &source.text[..place];
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    let at = Position::new(line as u16, column as u16);
    Some(
        Diagnostic::new(Id::Syntax, source, at, "this comment has no end")
            .help("close it with `*/`: each `/*` within it needs one too"),
    )
}

fn is_word(text: &str) -> bool {
    text.chars().all(|c| c.is_alphanumeric() || c == '_')
}

/// The name of a limit on data as authors know it, and the limit in words.
pub(crate) fn size_of(what: &str) -> (&'static str, String) {
    match what {
        "Length of string" => ("a text", format!("{MAX_TEXT} bytes")),
        _ if what.contains("map") => ("a map", format!("{MAX_MAP} entries")),
        _ => ("a list", format!("{MAX_LIST} elements")),
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
