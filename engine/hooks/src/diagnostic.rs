//! What is wrong with a script: one value for each fault, and the list of them.

use std::fmt;
use std::ops::Range;

use rhai::Position;
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};

use crate::limits::MAX_FAULTS;
use crate::source::Source;

macro_rules! ids {
    ($($(#[doc = $about:literal])* $name:ident $text:literal),* $(,)?) => {
        /// The kind of a diagnostic; its text is stable, for programs that read it.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Id { $($(#[doc = $about])* $name),* }

        impl Id {
            /// All kinds.
            pub const ALL: &'static [Id] = &[$(Id::$name),*];

            /// The stable text: `unknown-hook`.
            pub const fn text(self) -> &'static str {
                match self { $(Id::$name => $text),* }
            }

            /// What it means, in a sentence.
            pub fn about(self) -> &'static str {
                match self { $(Id::$name => concat!($($about),*).trim_start()),* }
            }

            /// Its page as Markdown: what it means, a script that has it, the script mended.
            pub const fn page(self) -> &'static str {
                match self { $(Id::$name => include_str!(concat!("../pages/", $text, ".md"))),* }
            }
        }
    };
}

ids! {
    /// The text is not Rhai.
    Syntax "syntax",
    /// The script, or the list of its faults, is longer than allowed.
    TooLong "too-long",
    /// A word of the language that scripts may not use.
    Forbidden "forbidden",
    /// A statement outside every function.
    TopLevel "top-level",
    /// Two functions of one name.
    Duplicate "duplicate",
    /// A function that looks like a hook and is none.
    UnknownHook "unknown-hook",
    /// A function with the wrong number or order of arguments.
    Arguments "arguments",
    /// A function with the name of a library function.
    ReservedName "reserved-name",
    /// A call of a function that does not exist.
    UnknownFunction "unknown-function",
    /// A name that stands for nothing.
    UnknownName "unknown-name",
    /// A function that nothing calls.
    Unused "unused",
    /// A missing or malformed description of the variant.
    About "about",
    /// An option that the variant does not have.
    UnknownOption "unknown-option",
    /// A value an option may not take.
    OptionRange "option-range",
    /// An answer outside the range of its hook.
    OutOfRange "out-of-range",
    /// An answer or operand of the wrong type.
    WrongType "wrong-type",
    /// A division by zero or a number too large.
    Arithmetic "arithmetic",
    /// A call that did not end in its allowance.
    Budget "budget",
    /// Calls nested too deep.
    Depth "depth",
    /// A list, map or text that grew too large.
    Size "size",
    /// An act the game refused, or an error the script threw.
    Refused "refused",
    /// Any other fault while a script ran.
    Fault "fault",
    /// A script without any hook.
    NoHooks "no-hooks",
    /// A value hook that answers what it is given in every case.
    NoChange "no-change",
    /// A value hook that answers the same whatever its arguments are, where the rules did not.
    ConstantAnswer "constant-answer",
    /// A card that never comes up, or a question that nobody hears the answer to.
    NoEffect "no-effect",
    /// A hook without which every trial game would have gone the same way.
    NeverMatters "never-matters",
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The script cannot be used.
    Error,
    /// The script can be used, but is probably not what its author meant.
    Warning,
}

/// One fault of a script.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Diagnostic {
    /// Its kind.
    pub id: Id,
    /// How bad it is.
    pub severity: Severity,
    /// What is wrong, in one phrase.
    pub headline: String,
    /// Line, from 1; none when the fault has no place.
    pub line: Option<usize>,
    /// Column in characters, from 1.
    pub column: Option<usize>,
    /// The bytes of the script that are marked.
    pub span: Option<Range<usize>>,
    /// What is said at the mark; may be empty.
    pub label: String,
    /// What to type instead, or what is allowed.
    pub help: Vec<String>,
}

impl Diagnostic {
    /// An error at a place of `source`.
    pub(crate) fn new(
        id: Id,
        source: &Source,
        position: Position,
        headline: impl Into<String>,
    ) -> Diagnostic {
        let place = source.place(position);
        Diagnostic {
            id,
            severity: Severity::Error,
            headline: headline.into(),
            line: place.as_ref().map(|p| p.line),
            column: place.as_ref().map(|p| p.column),
            span: place.map(|p| p.span),
            label: String::new(),
            help: Vec::new(),
        }
    }

    pub(crate) fn warning(mut self) -> Diagnostic {
        self.severity = Severity::Warning;
        self
    }

    pub(crate) fn label(mut self, label: impl Into<String>) -> Diagnostic {
        self.label = label.into();
        self
    }

    pub(crate) fn help(mut self, help: impl Into<String>) -> Diagnostic {
        self.help.push(help.into());
        self
    }

    pub(crate) fn help_if(mut self, help: Option<String>) -> Diagnostic {
        self.help.extend(help);
        self
    }
}

/// Letters of a sentence that are told; only strange names and reasons are longer.
const SENTENCE: usize = 400;

/// The text in one line, without letters that steer a terminal, its middle left out when it is
/// long.
fn short(text: &str) -> String {
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let count = text.chars().count();
    if count <= SENTENCE {
        return text.chars().map(plain).collect();
    }
    let letters = || text.chars().map(plain);
    letters()
        .take(SENTENCE - 100)
        .chain(" ... ".chars())
        .chain(letters().skip(count - 95))
        .collect()
}

/// All that is wrong with one script, in the order of its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostics {
    pub(crate) source: Source,
    pub(crate) list: Vec<Diagnostic>,
}

impl Diagnostics {
    pub(crate) fn new(source: &Source, mut list: Vec<Diagnostic>) -> Diagnostics {
        list.sort_by(|a, b| {
            let key = |d: &Diagnostic| (d.line, d.column, d.severity, d.id);
            key(a).cmp(&key(b)).then_with(|| a.headline.cmp(&b.headline))
        });
        if list.len() > MAX_FAULTS {
            list.truncate(MAX_FAULTS);
            let headline = format!("there are more than these {MAX_FAULTS} faults");
            list.push(Diagnostic::new(Id::TooLong, source, Position::NONE, headline));
        }
        for fault in &mut list {
            let texts = fault.help.iter_mut().chain([&mut fault.headline, &mut fault.label]);
            texts.for_each(|text| *text = short(text));
        }
        Diagnostics { source: source.clone(), list }
    }

    /// The script they are about.
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// The faults.
    pub fn list(&self) -> &[Diagnostic] {
        &self.list
    }

    /// How many are errors.
    pub fn errors(&self) -> usize {
        self.list.iter().filter(|d| d.severity == Severity::Error).count()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The faults as text for a reader, each with its line of the script, with colour if asked.
    pub fn render(&self, colour: bool) -> String {
        crate::render::render(self, colour)
    }
}

impl Serialize for Diagnostics {
    /// As `{ "script": ..., "diagnostics": [...] }`.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Diagnostics", 2)?;
        fields.serialize_field("script", &self.source.label())?;
        fields.serialize_field("diagnostics", &self.list)?;
        fields.end()
    }
}

impl fmt::Display for Diagnostics {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.render(false))
    }
}

impl std::error::Error for Diagnostics {}
