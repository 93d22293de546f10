//! Names that stand for nothing, and properties that the game does not have.

use super::{Checker, NO_GAME};
use crate::constants::{named_like, offered};
use crate::diagnostic::{Diagnostic, Id};
use crate::game::MEMBERS;
use crate::library::PROPERTIES;
use crate::nearest::{did_you_mean, nearest};
use crate::survey::Named;

/// Words by which authors ask for luck.
const DICE: [&str; 6] = ["roll", "dice", "die", "d6", "random", "rand"];

impl Checker<'_> {
    pub(super) fn unknown(&self, named: &Named) -> Diagnostic {
        let headline = format!("`{}` stands for nothing", named.name);
        let diagnostic = self.fault(Id::UnknownName, named.at, headline);
        if self.survey.function(&named.name).is_some() {
            return diagnostic.help(format!("to call the function, write `{}(...)`", named.name));
        }
        let of_game = named.name == "game" || DICE.contains(&named.name.as_str());
        if of_game && self.no_game(named.inside) {
            return diagnostic.help(NO_GAME);
        }
        if let Some(line) = self.made_in(named) {
            return diagnostic.help(format!(
                "the one made in line {line} is there from its `let` to the end of its block"
            ));
        }
        let close = did_you_mean(&named.name, self.variables_of(named));
        if self.is_set(named) {
            let make = format!("make it first: `let {} = ...;`", named.name);
            return diagnostic.help_if(close).help(make);
        }
        let constants = self.constants.keys().map(String::as_str);
        let all = self.variables_of(named).chain(constants);
        diagnostic.help(did_you_mean(&named.name, all).unwrap_or_else(|| self.in_sight(named)))
    }

    /// The line in which a variable of that name is made elsewhere in the function.
    fn made_in(&self, named: &Named) -> Option<usize> {
        let mut variables = self.survey.variables.iter();
        let made = variables.find(|v| v.name == named.name && v.inside == named.inside)?;
        Some(made.at.line().unwrap_or_default())
    }

    /// The arguments and variables of the function that a name stands in.
    fn variables_of<'a>(&'a self, named: &'a Named) -> impl Iterator<Item = &'a str> {
        let params = named.inside.map_or(&[][..], |n| &self.survey.functions[n].params);
        let variables = self.survey.variables.iter();
        let own = variables.filter(|made| made.inside == named.inside && made.at < named.at);
        params.iter().map(String::as_str).chain(own.map(|made| made.name.as_str()))
    }

    /// Whether the function sets the name as if it were a variable.
    fn is_set(&self, named: &Named) -> bool {
        let mut same = self
            .survey
            .unknown
            .iter()
            .filter(|other| other.name == named.name && other.inside == named.inside);
        same.any(|other| {
            let place = self.source.place(other.at);
            let rest = place.map_or("", |place| self.source.text[place.span.end..].trim_start());
            let rest = rest.trim_start_matches(['+', '-', '*', '/', '%']);
            rest.starts_with('=') && !rest.starts_with("==") && !rest.starts_with("=>")
        })
    }

    /// What a function may name, when nothing is like the name.
    fn in_sight(&self, named: &Named) -> String {
        let function = named.inside.map(|n| &self.survey.functions[n]);
        let signature = function.and_then(|function| self.signature(&function.name));
        match (named.name.as_str(), function) {
            ("game", Some(function)) if signature.is_none() => {
                Some(format!("give it to the helper: `fn {}(game, ...)`", function.name))
            }
            (name, _) if named_like(name) => self.constants_before(named),
            _ => None,
        }
        .unwrap_or_else(|| {
            "a function sees its arguments, its own variables and the constants".to_owned()
        })
    }

    fn constants_before(&self, named: &Named) -> Option<String> {
        let place = self.source.place(named.at)?;
        offered(&self.source.text[..place.span.start])
    }

    /// Whether a name stands for the game in that function: helpers call it so.
    pub(super) fn is_game(&self, name: &str, function: Option<usize>) -> bool {
        let Some(function) = function.map(|n| &self.survey.functions[n]) else { return false };
        let event = self.signature(&function.name).is_some_and(|signature| signature.event);
        match event {
            true => function.params.first().is_some_and(|first| first == name),
            false => name == "game",
        }
    }

    /// Help that offers the member of the game with the nearest name, as a script writes it.
    pub(super) fn member(&self, name: &str) -> Option<String> {
        let close = nearest(name, MEMBERS.iter().map(|member| member.name))?;
        let member = MEMBERS.iter().find(|member| member.name == close)?;
        Some(format!("did you mean `{}`?", member.signature()))
    }

    /// Properties of the game can be checked; a map of the script may have any.
    pub(super) fn property(&self, named: &Named) -> Option<Diagnostic> {
        let function = &self.survey.functions[named.inside?];
        let event = self.signature(&function.name)?.event;
        let of_game = event && named.of.is_some() && named.of.as_ref() == function.params.first();
        let known = MEMBERS.iter().any(|m| m.args.is_none() && m.name == named.name);
        if !of_game || known || PROPERTIES.contains(&named.name.as_str()) {
            return None;
        }
        let headline = format!("the game has no property `{}`", named.name);
        let diagnostic = self.fault(Id::UnknownName, named.at, headline);
        if let Some(method) = MEMBERS.iter().find(|m| m.name == named.name) {
            return Some(diagnostic.help(format!("write `{}`", method.signature())));
        }
        Some(diagnostic.help_if(self.member(&named.name)))
    }
}
