//! What is missing in a script that cannot be read, and what stands where it may not.

use rhai::{LexError, ParseErrorType as Kind};

use super::Reader;
use super::brackets::{open, open_function};
use crate::diagnostic::Diagnostic;
use crate::structure::signatures;

impl Reader<'_> {
    /// A bracket is open where the next function begins, and nothing closes it later.
    pub(super) fn about_brackets(&self) -> Option<Diagnostic> {
        if !matches!(self.word, "fn" | "private") || open(&self.source.text).is_empty() {
            return None;
        }
        let function = open_function(self.before)?;
        Some(
            self.syntax(format!("a `{}` is missing before this `{}`", function.closing, self.word))
                .help(format!("`{}` on line {} is not closed", function.name, function.line)),
        )
    }

    /// Something is missing.
    pub(super) fn about_gaps(&self, kind: &Kind) -> Option<Diagnostic> {
        let found = self.word;
        let at_end = found.is_empty();
        let compares = match kind {
            Kind::MissingToken(_, purpose) => !purpose.contains("switch"),
            Kind::BadInput(LexError::ImproperSymbol(sign, _)) => sign == "=",
            Kind::ExprExpected(_) | Kind::BadInput(LexError::UnexpectedInput(_)) => true,
            _ => false,
        };
        if let Some(told) = self.mistaken_sign().filter(|_| compares) {
            return Some(told);
        }
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
        let told = self
            .syntax("the script ends too early")
            .help(format!("a `}}` or a `)` is missing{comment}"));
        let function = open_function(&self.source.text).filter(|_| comment.is_empty());
        told.help_if(function.map(|f| format!("`{}` on line {} is not closed", f.name, f.line)))
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
        if let Some(told) = self.map_without_sign().filter(|_| token == ";" && found == ":") {
            return told;
        }
        let in_case = purpose.contains("switch case");
        let last = self.before.trim_end().rsplit(|c: char| !c.is_alphanumeric()).next();
        let back = self.before.chars().rev().take_while(|c| c.is_whitespace()).count();
        let rest = &self.source.text[self.before.len() + found.len()..];
        if found == "is" && rest.trim_start().starts_with("not ") {
            return self.foreign("is not", "!=");
        }
        if let Some(meant) = foreign(found, in_case) {
            return self.foreign(found, meant);
        }
        if let Some((last, meant)) = last.and_then(|last| Some((last, foreign(last, in_case)?))) {
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

    /// A `{` with a name and a colon behind it is meant for a map.
    fn map_without_sign(&self) -> Option<Diagnostic> {
        let brackets = open(self.before);
        let &(_, place) = brackets.last().filter(|(sign, _)| *sign == '{')?;
        let name = self.before[place + 1..].trim().trim_matches('"');
        if !super::is_word(name) || self.source.text[self.before.len()..].starts_with("::") {
            return None;
        }
        let body = brackets.len() == 1;
        let help = match body {
            true => "put it into the braces of the function: `{ #{ name: value } }`",
            false => "write `#{` for `{`: a `{` alone begins statements",
        };
        Some(self.at(place).syntax("a map begins with `#{`").help(help))
    }

    /// A sign that is meant for a comparison.
    fn mistaken_sign(&self) -> Option<Diagnostic> {
        let signs = [("=>", ">="), ("=<", "<="), ("<>", "!=")];
        // The second sign of `<>` is the one that cannot be read.
        let late = usize::from(self.word == ">" && self.before.ends_with('<'));
        let rest = &self.source.text[self.before.len() - late..];
        let (sign, meant) = signs.into_iter().find(|(sign, _)| rest.starts_with(sign))?;
        Some(
            self.back(late)
                .syntax(format!("`{sign}` compares nothing"))
                .help(format!("write `{meant}` for `{sign}`")),
        )
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
    pub(super) fn about_places(&self, kind: &Kind) -> Option<Diagnostic> {
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

/// What scripts have for a word of other languages; between the cases of a `switch` stands `|`.
fn foreign(word: &str, in_case: bool) -> Option<&'static str> {
    Some(match word {
        "or" if in_case => "|",
        "is" => "==",
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
