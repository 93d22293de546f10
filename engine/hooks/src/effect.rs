//! Parts of a script that can do nothing: cards that never come up, questions that nobody answers.

use rhai::{Expr, Position};
use ruleshift_game::EVENT_HOOKS;

use crate::diagnostic::{Diagnostic, Id};
use crate::sandbox::Compiled;
use crate::survey::{Call, Defined, Survey, only_expression};
use crate::variant::Variant;

/// Methods by which a card asks a side to choose.
const ASKING: [&str; 3] = ["ask_unit", "ask_option", "ask_among"];
/// Methods that put a card into the deck.
const ADDING: [&str; 2] = ["add_card", "add_group_card"];
/// Event hooks that run while no card is drawn, and why none is.
const NOT_DRAWING: [(&str, &str); 3] = [
    ("on_game_start", "no turn has started yet"),
    ("on_late_fire", "no card is drawn any more this turn"),
    ("on_turn_end", "no card is drawn any more this turn"),
];

/// Warnings about whatever a script has that can have no effect.
pub(crate) fn without_effect(
    variant: &Variant,
    survey: &Survey,
    compiled: &Compiled,
) -> Vec<Diagnostic> {
    let checker = Checker { variant, survey };
    let mut told: Vec<Diagnostic> =
        survey.calls.iter().filter_map(|call| checker.too_late(call)).collect();
    told.extend(checker.choices());
    told.extend(checker.no_cards());
    told.extend(checker.cards(compiled));
    told
}

struct Checker<'a> {
    variant: &'a Variant,
    survey: &'a Survey,
}

impl Checker<'_> {
    fn warning(&self, at: Position, headline: impl Into<String>) -> Diagnostic {
        Diagnostic::new(Id::NoEffect, &self.variant.source, at, headline).warning()
    }

    /// A hook that is there and does something.
    fn acting(&self, name: &str) -> Option<&Defined> {
        self.survey.function(name).filter(|function| !function.empty)
    }

    fn calls(&self, names: &[&str]) -> impl Iterator<Item = &Call> {
        self.survey.calls.iter().filter(move |call| names.contains(&call.name.as_str()))
    }

    /// A card that is put in while none is drawn.
    fn too_late(&self, call: &Call) -> Option<Diagnostic> {
        let function = &self.survey.functions[call.inside?];
        let (_, why) = NOT_DRAWING.iter().find(|(name, _)| *name == function.name)?;
        let name = ADDING.iter().find(|name| **name == call.name)?;
        let headline = format!("`{name}` does nothing in `{}`: {why}", function.name);
        Some(self.warning(call.at, headline).help("put cards into the deck in `on_turn_start`"))
    }

    /// Questions and the hook that hears the answer go together.
    fn choices(&self) -> Option<Diagnostic> {
        match (self.calls(&ASKING).next(), self.acting("on_choice")) {
            (Some(ask), None) => {
                Some(self.warning(ask.at, "the card asks, but no `on_choice` answers").help(
                    "write `fn on_choice(game, card, owner, chosen) { ... }`: what the choice does",
                ))
            }
            (None, Some(answer)) => Some(
                self.warning(answer.at, "`on_choice` never runs: no card asks anything")
                    .help("ask in `on_extra_card`, as in `game.ask_unit(owner)`"),
            ),
            _ => None,
        }
    }

    /// What an own card does, in a script that puts none in.
    fn no_cards(&self) -> Option<Diagnostic> {
        let hook = self.acting("on_extra_card")?;
        if self.calls(&["add_card"]).next().is_some() {
            return None;
        }
        let first = self.variant.cards().first();
        let name = first.map_or("NAME".to_owned(), |card| card.name.to_uppercase());
        let told = self
            .warning(hook.at, "`on_extra_card` never runs: no `add_card` puts a card in")
            .help(format!("in `on_turn_start` write `game.add_card({name}, ATTACKER)`"));
        Some(match first {
            Some(_) => told,
            None => {
                told.help("cards are named in `about`: `cards: #{ name: #{ title: \"...\" } }`")
            }
        })
    }

    /// Cards that `about` names and nothing puts in. Where a script works out which card it puts
    /// in, any may be meant; a script whose event hooks are all empty is yet to be written.
    fn cards(&self, compiled: &Compiled) -> Vec<Diagnostic> {
        let idle = EVENT_HOOKS.iter().all(|hook| self.acting(hook.name).is_none());
        let put_in: Option<Vec<i64>> = self.calls(&["add_card"]).map(|call| call.first).collect();
        let Some(put_in) = put_in.filter(|_| !idle) else { return Vec::new() };
        if put_in.is_empty() && self.acting("on_extra_card").is_some() {
            return Vec::new();
        }
        let places = card_places(self.survey, compiled);
        let cards = self.variant.cards().iter().zip(0..);
        let unused = cards.filter(|(_, number)| !put_in.contains(number)).map(|(card, _)| {
            let place = places.iter().find(|(name, _)| *name == card.name);
            let headline = format!("card `{}` never comes up: nothing puts it in", card.name);
            self.warning(place.map_or(Position::NONE, |(_, at)| *at), headline).help(format!(
                "in `on_turn_start` write `game.add_card({}, ATTACKER)`, or leave the card out",
                card.name.to_uppercase()
            ))
        });
        unused.collect()
    }
}

/// Where `about` names its cards.
fn card_places(survey: &Survey, compiled: &Compiled) -> Vec<(String, Position)> {
    let about = survey.function("about");
    let Some(Expr::Map(map, _)) = about.and_then(|about| only_expression(&compiled.ast, about))
    else {
        return Vec::new();
    };
    let cards = map.0.iter().find(|(key, _)| key.name == "cards");
    let Some((_, Expr::Map(cards, _))) = cards else { return Vec::new() };
    cards.0.iter().map(|(key, _)| (key.name.to_string(), key.pos)).collect()
}
