//! The game as event hooks see it: the type behind their argument `game`.

use std::cell::RefCell;
use std::rc::Rc;

use rhai::{Dynamic, Engine, EvalAltResult, Position};
use ruleshift_game::{Handle, Illegal, Unit};

/// The argument `game`: the handle of the call that is running.
#[derive(Clone, Default)]
pub(crate) struct Game(pub(crate) Rc<RefCell<Handle>>);

/// A property or method of `game`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Member {
    /// Name.
    pub(crate) name: &'static str,
    /// Arguments of a method; none for a property, which is written without brackets.
    pub(crate) args: Option<&'static [&'static str]>,
    /// What it gives or does.
    pub(crate) about: &'static str,
}

impl Member {
    /// As a script writes it: `game.pins(unit)`.
    pub(crate) fn signature(&self) -> String {
        let args = self.args.map_or(String::new(), |args| format!("({})", args.join(", ")));
        format!("game.{}{args}", self.name)
    }
}

const fn property(name: &'static str, about: &'static str) -> Member {
    Member { name, args: None, about }
}

const fn method(name: &'static str, args: &'static [&'static str], about: &'static str) -> Member {
    Member { name, args: Some(args), about }
}

/// All members of `game`.
pub(crate) const MEMBERS: &[Member] = &[
    property("turn", "The turn being played, from 1."),
    property(
        "units",
        "How many units there are, of both sides, gone ones included; the first is 0.",
    ),
    property("cards_drawn", "Cards drawn this turn."),
    method("points", &["side"], "Points of a side."),
    method("on_table", &["unit"], "Whether the unit is on the table: neither hidden nor gone."),
    method("side", &["unit"], "ATTACKER or DEFENDER."),
    method("group", &["unit"], "Number of the group the unit belongs to."),
    method("kind", &["unit"], "What the unit is: SECTION, LEADER and so on."),
    method("quality", &["unit"], "GREEN, REGULAR or VETERAN."),
    method("grade", &["unit"], "Grade of a leader, 1 to 3; 0 for other units."),
    method("men", &["unit"], "Men left in the unit."),
    method("first_men", &["unit"], "Men it had at the start."),
    method("pins", &["unit"], "Pins on the unit."),
    method("roll", &[], "Rolls one six-sided die of the game's luck: 1 to 6."),
    method("add_pins", &["unit", "number"], "Puts 1 to 12 pins on a unit on the table."),
    method(
        "remove_pins",
        &["unit", "number"],
        "Takes 1 to 12 pins off a unit on the table, or all it has.",
    ),
    method(
        "grant_action",
        &["unit"],
        "Gives a unit on the table one more action in its present or next activation this turn.",
    ),
    method("note", &["text"], "Notes a line in the game's log."),
];

type Answer<T> = Result<T, Box<EvalAltResult>>;

fn refused(illegal: Illegal) -> Box<EvalAltResult> {
    EvalAltResult::ErrorRuntime(Dynamic::from(illegal.0), Position::NONE).into()
}

impl Game {
    fn act(&mut self, act: impl FnOnce(&mut Handle) -> Result<(), Illegal>) -> Answer<()> {
        act(&mut self.0.borrow_mut()).map_err(refused)
    }

    fn ask<T>(&mut self, ask: impl FnOnce(&Handle) -> Result<T, Illegal>) -> Answer<T> {
        ask(&self.0.borrow()).map_err(refused)
    }
}

/// Gives an engine the game.
pub(crate) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Game>("game");
    engine.register_get("turn", |game: &mut Game| game.0.borrow().turn());
    engine.register_get("units", |game: &mut Game| game.0.borrow().unit_count());
    engine.register_get("cards_drawn", |game: &mut Game| game.0.borrow().cards_drawn());
    register_questions(engine);
    register_acts(engine);
}

fn register_questions(engine: &mut Engine) {
    type Question = fn(&Unit) -> i64;
    let questions: [(&str, Question); 8] = [
        ("side", |unit| unit.side as i64),
        ("group", |unit| unit.group.into()),
        ("kind", |unit| unit.kind as i64),
        ("quality", |unit| unit.quality as i64),
        ("grade", |unit| unit.grade.into()),
        ("men", |unit| unit.men.into()),
        ("first_men", |unit| unit.first_men.into()),
        ("pins", |unit| unit.pins.into()),
    ];
    for (name, question) in questions {
        engine.register_fn(name, move |game: &mut Game, unit: i64| {
            game.ask(|handle| handle.unit(unit).map(question))
        });
    }
    engine.register_fn("on_table", |game: &mut Game, unit: i64| {
        game.ask(|handle| handle.on_table(unit))
    });
    engine
        .register_fn("points", |game: &mut Game, side: i64| game.ask(|handle| handle.points(side)));
}

fn register_acts(engine: &mut Engine) {
    engine.register_fn("roll", |game: &mut Game| game.0.borrow_mut().roll());
    engine.register_fn("add_pins", |game: &mut Game, unit: i64, number: i64| {
        game.act(|handle| handle.add_pins(unit, number))
    });
    engine.register_fn("remove_pins", |game: &mut Game, unit: i64, number: i64| {
        game.act(|handle| handle.remove_pins(unit, number))
    });
    engine.register_fn("grant_action", |game: &mut Game, unit: i64| {
        game.act(|handle| handle.grant_action(unit))
    });
    engine.register_fn("note", |game: &mut Game, text: &str| game.act(|handle| handle.note(text)));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Variant};

    #[test]
    fn every_listed_member_can_be_used() {
        for member in MEMBERS {
            let value = |arg: &&str| match *arg {
                "number" => "1",
                "text" => "\"a line\"",
                _ => "0",
            };
            let args: Vec<&str> = member.args.unwrap_or_default().iter().map(value).collect();
            let args = member.args.map_or(String::new(), |_| format!("({})", args.join(", ")));
            let text = format!(
                "fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }} fn on_turn_end(game, turn) {{ game.{}{args}; }}",
                member.name
            );
            let loaded = Variant::load(&Source::new(member.name, text), &Overrides::none());
            let variant = loaded.unwrap_or_else(|faults| panic!("{faults}"));
            assert!(variant.warnings().is_empty(), "{}", variant.warnings());
        }
    }
}
