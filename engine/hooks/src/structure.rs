//! Faults in the make-up of a script: what its functions are called and what they call.

mod names;

use rhai::Position;
use ruleshift_game::{EVENT_HOOKS, HOOKS};

use crate::constants::Constants;
use crate::diagnostic::{Diagnostic, Id};
use crate::game::MEMBERS;
use crate::library::LIBRARY;
use crate::limits::MAX_FAULTS;
use crate::nearest::{did_you_mean, nearest};
use crate::source::Source;
use crate::survey::{Call, Defined, Survey};

/// A hook as far as its signature goes.
pub(crate) struct Signature {
    pub(crate) name: &'static str,
    pub(crate) params: Vec<&'static str>,
    pub(crate) event: bool,
}

impl Signature {
    /// As a script writes it.
    pub(crate) fn text(&self) -> String {
        format!("{}({})", self.name, self.params.join(", "))
    }
}

/// All hooks, value hooks first.
pub(crate) fn signatures() -> Vec<Signature> {
    let values = HOOKS.iter().map(|hook| Signature {
        name: hook.name,
        params: std::iter::once("now").chain(hook.args.iter().map(|arg| arg.name)).collect(),
        event: false,
    });
    let events = EVENT_HOOKS.iter().map(|hook| Signature {
        name: hook.name,
        params: std::iter::once("game").chain(hook.args.iter().map(|arg| arg.name)).collect(),
        event: true,
    });
    values.chain(events).collect()
}

/// All that is wrong with the make-up of a script.
pub(crate) fn check(source: &Source, survey: &Survey, constants: &Constants) -> Vec<Diagnostic> {
    let checker = Checker { source, survey, constants, signatures: signatures() };
    // More than are told of each sort, so that a list cut short is seen to be so.
    let most = MAX_FAULTS + 1;
    let mut faults = checker.functions();
    faults.extend(crate::syntax::open_comment(source));
    let hidden: Vec<Diagnostic> = crate::letters::hidden(source).take(most).collect();
    if hidden.is_empty() {
        faults.extend(survey.steering.iter().map(|&at| checker.steering(at)).take(most));
    }
    faults.extend(hidden);
    faults.extend(survey.top_level.iter().map(|&at| checker.top_level(at)).take(most));
    faults.extend(survey.calls.iter().filter_map(|call| checker.call(call)).take(most));
    faults.extend(survey.unknown.iter().map(|name| checker.unknown(name)).take(most));
    faults.extend(survey.properties.iter().filter_map(|name| checker.property(name)).take(most));
    faults
}

/// What a value hook is told that wants to look at the game or to roll dice.
const NO_GAME: &str = "a value hook has no game and no dice: its answer follows from its arguments; to act on the game write an event hook (`ruleshift list hooks`)";

struct Checker<'a> {
    source: &'a Source,
    survey: &'a Survey,
    constants: &'a Constants,
    signatures: Vec<Signature>,
}

impl Checker<'_> {
    fn fault(&self, id: Id, at: Position, headline: impl Into<String>) -> Diagnostic {
        Diagnostic::new(id, self.source, at, headline)
    }

    fn top_level(&self, at: Position) -> Diagnostic {
        self.fault(Id::TopLevel, at, "this stands outside every function")
            .help("a script consists of functions; for a number to be chosen later, use an option in `about`")
    }

    fn steering(&self, at: Position) -> Diagnostic {
        self.fault(Id::Syntax, at, "this text has a letter that nobody sees and terminals obey")
            .help("remove its `\\x..` or `\\u....`: texts are for readers")
    }

    fn signature(&self, name: &str) -> Option<&Signature> {
        self.signatures.iter().find(|s| s.name == name)
    }

    /// Whether a function is a value hook.
    fn no_game(&self, function: Option<usize>) -> bool {
        let name = function.map(|n| self.survey.functions[n].name.as_str());
        name.and_then(|name| self.signature(name)).is_some_and(|signature| !signature.event)
    }

    fn functions(&self) -> Vec<Diagnostic> {
        let root = |f: &Defined| f.name == "about" || self.signature(&f.name).is_some();
        let reached = self.survey.reached(root);
        let mut faults = Vec::new();
        for (n, function) in self.survey.functions.iter().enumerate() {
            if self.survey.functions[..n].iter().any(|f| f.name == function.name) {
                faults.push(
                    self.fault(
                        Id::Duplicate,
                        function.at,
                        format!("`{}` is defined twice", function.name),
                    )
                    .help("give one of them another name"),
                );
            } else if let Some(signature) = self.signature(&function.name) {
                faults.extend(self.hook(function, signature));
            } else {
                faults.extend(self.other(function, reached[n]));
            }
        }
        faults
    }

    /// A hook must take the arguments it is given, in their order.
    fn hook(&self, function: &Defined, signature: &Signature) -> Option<Diagnostic> {
        let plain = |name: &str| name.trim_start_matches('_').to_owned();
        if function.params.len() != signature.params.len() {
            let (wanted, got) = (signature.params.len(), function.params.len());
            let headline = format!("`{}` takes {}, not {got}", signature.name, arguments(wanted));
            return Some(
                self.fault(Id::Arguments, function.at, headline)
                    .help(format!("write `fn {}`", signature.text())),
            );
        }
        let (got, wanted) =
            function.params.iter().zip(&signature.params).find(|(got, wanted)| {
                plain(got) != **wanted && signature.params.contains(&plain(got).as_str())
            })?;
        let headline = format!("`{got}` stands where `{}` is given `{wanted}`", signature.name);
        Some(
            self.fault(Id::Arguments, function.at, headline)
                .help(format!("arguments come in this order: `fn {}`", signature.text())),
        )
    }

    /// A function that is no hook: a helper, or a hook with its name misspelt.
    fn other(&self, function: &Defined, reached: bool) -> Option<Diagnostic> {
        let name = function.name.as_str();
        if name == "about" {
            return None;
        }
        if LIBRARY.iter().any(|f| f.name == name) || MEMBERS.iter().any(|m| m.name == name) {
            let headline = format!("`{name}` is the name of a function that scripts are given");
            return Some(
                self.fault(Id::ReservedName, function.at, headline).help("use another name"),
            );
        }
        if reached || function.private {
            return None;
        }
        let close = nearest(name, self.signatures.iter().map(|s| s.name));
        if close.is_none() && !name.starts_with("on_") {
            return Some(
                self.fault(
                    Id::Unused,
                    function.at,
                    format!("`{name}` is no hook, and no hook calls it"),
                )
                .warning()
                .help("remove it, or write `private fn` to keep it"),
            );
        }
        let help = close.and_then(|close| self.signature(close)).map_or_else(
            || "`ruleshift list hooks` lists all hooks".to_owned(),
            |signature| format!("did you mean `{}`?", signature.text()),
        );
        Some(
            self.fault(Id::UnknownHook, function.at, format!("there is no hook `{name}`"))
                .help(help),
        )
    }

    fn call(&self, call: &Call) -> Option<Diagnostic> {
        let offered = self.offered(call);
        if offered.iter().any(|(name, args)| *name == call.name && *args == call.args) {
            return None;
        }
        let what = if call.method { "method" } else { "function" };
        if let Some((name, args)) = offered.iter().find(|(name, _)| *name == call.name) {
            let headline = format!("`{name}` takes {}, not {}", arguments(*args), call.args);
            let fault = self.fault(Id::Arguments, call.at, headline);
            let library = LIBRARY.iter().any(|known| known.name == call.name);
            let of_game = !library && MEMBERS.iter().any(|member| member.name == call.name);
            if of_game && self.no_game(call.inside) {
                return Some(fault.help(NO_GAME));
            }
            return Some(
                fault.help_if(self.as_written(call).map(|text| format!("write `{text}`"))),
            );
        }
        let of_game = call.of.as_deref().is_some_and(|name| self.is_game(name, call.inside));
        let close = self.member(&call.name).filter(|_| of_game);
        let close = close
            .or_else(|| did_you_mean(&call.name, offered.iter().map(|(name, _)| name.as_str())));
        let help = close.unwrap_or_else(|| self.instead_of(call));
        let headline = format!("there is no {what} `{}`", call.name);
        Some(self.fault(Id::UnknownFunction, call.at, headline).help(help))
    }

    /// The call as it should be.
    fn as_written(&self, call: &Call) -> Option<String> {
        if let Some(own) = self.survey.function(&call.name).filter(|_| !call.method) {
            return Some(format!("{}({})", own.name, own.params.join(", ")));
        }
        if let Some(known) = LIBRARY.iter().find(|f| f.name == call.name) {
            return Some(match (call.method, known.args) {
                (true, [first, rest @ ..]) => {
                    format!("{first}.{}({})", known.name, rest.join(", "))
                }
                _ => format!("{}({})", known.name, known.args.join(", ")),
            });
        }
        MEMBERS.iter().find(|m| m.name == call.name).map(|member| member.signature())
    }

    /// What to do when no name is like the one that was called.
    fn instead_of(&self, call: &Call) -> String {
        match call.name.as_str() {
            "sleep" | "timestamp" | "time" | "elapsed" => "a script knows no clock".into(),
            "rand" | "random" | "dice" | "die" | "d6" | "roll_die" | "roll_dice"
                if self.no_game(call.inside) =>
            {
                NO_GAME.into()
            }
            "rand" | "random" | "dice" | "die" | "d6" | "roll_die" | "roll_dice" => {
                "dice are rolled by `game.roll()`, in event hooks only".into()
            }
            "exit" | "quit" => "`return` ends a function".into(),
            name if call.method && self.survey.function(name).is_some() => {
                format!("write `{name}(...)`: a helper is no method")
            }
            _ if call.method => "the hook reference lists what `game` and lists can do".into(),
            _ => "functions are your own and those of the hook reference".into(),
        }
    }

    /// What may be called in that way, with the number of arguments.
    fn offered(&self, call: &Call) -> Vec<(String, usize)> {
        let less = usize::from(call.method);
        let library = LIBRARY.iter().map(|f| (f.name.to_owned(), f.args.len()));
        let own = self.survey.functions.iter().map(|f| (f.name.clone(), f.params.len()));
        let game = MEMBERS.iter().filter_map(|m| Some((m.name.to_owned(), m.args?.len() + 1)));
        let own: Vec<_> = if call.method { Vec::new() } else { own.collect() };
        let library = library.chain(game).filter(|(_, args)| *args >= less);
        library.map(|(name, args)| (name, args - less)).chain(own).collect()
    }
}

fn arguments(count: usize) -> String {
    match count {
        0 => "no arguments".to_owned(),
        1 => "1 argument".to_owned(),
        _ => format!("{count} arguments"),
    }
}
