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

/// All members of `game`: what it may be asked, then what it may be told to do.
pub(crate) const MEMBERS: &[Member] = &[
    property("turn", "The turn being played, from 1."),
    property(
        "units",
        "How many units there are, of both sides, gone ones included; the first is 0.",
    ),
    property(
        "groups",
        "How many groups there are, of both sides, gone ones included; the first is 0.",
    ),
    property("objectives", "How many objectives there are; the first is 0."),
    property(
        "cards_drawn",
        "Cards drawn this turn, the one in hand included; one that was put back no longer counts.",
    ),
    property("cards_left", "Cards still in the deck this turn."),
    property("drawing", "Whether cards are being drawn: neither late fire nor turn end."),
    method("points", &["side"], "Points of a side."),
    method("markers", &["side"], "Markers of a side on the table, dummies included."),
    method("holder", &["objective"], "Who holds an objective: ATTACKER, DEFENDER or NOBODY."),
    method("group_side", &["group"], "Side of a group: ATTACKER or DEFENDER."),
    method("on_table", &["unit"], "Whether the unit is on the table: neither hidden nor gone."),
    method("side", &["unit"], "ATTACKER or DEFENDER."),
    method("group", &["unit"], "Number of the group the unit belongs to."),
    method("kind", &["unit"], "What the unit is: SECTION, LEADER and so on."),
    method("quality", &["unit"], "GREEN, REGULAR or VETERAN."),
    method("grade", &["unit"], "Grade of a leader, 1 to 3; 0 for other units."),
    method("men", &["unit"], "Men left in the unit."),
    method("first_men", &["unit"], "Men it had at the start."),
    method("pins", &["unit"], "Pins on the unit."),
    method("suppressed", &["unit"], "Whether the unit is suppressed."),
    method("activated", &["unit"], "Whether the unit has had an activation this turn."),
    method("actions", &["unit"], "Actions left in the unit's present activation."),
    method(
        "cover",
        &["unit"],
        "Cover that a unit on the table is in: OPEN, LIGHT, HARD or DUG_IN.",
    ),
    method("range", &["unit", "other"], "Inches between two units on the table."),
    method("sees", &["unit", "other"], "Whether a unit on the table sees another on the table."),
    method("counter", &["counter"], "Value of a counter of the script."),
    method("roll", &[], "Rolls one six-sided die of the game's luck: 1 to 6."),
    method("add_pins", &["unit", "number"], "Puts pins on a unit on the table, 30 at most."),
    method(
        "remove_pins",
        &["unit", "number"],
        "Takes so many pins off a unit on the table, or all it has.",
    ),
    method(
        "grant_action",
        &["unit"],
        "Gives a unit on the table or in a vehicle one more action in the activation under way, or else in its next one this turn. It is lost when none of these is to come; `game.activated(unit)` tells whether it has begun one.",
    ),
    method(
        "take_action",
        &["unit"],
        "Takes one action from a unit on the table or in a vehicle in its present or next activation this turn.",
    ),
    method(
        "lose_men",
        &["unit", "number"],
        "Takes so many men from a unit on the table, or all it has.",
    ),
    method(
        "return_men",
        &["unit", "number"],
        "Brings so many lost men back to a unit on the table, or all that it has lost.",
    ),
    method("add_points", &["side", "points"], "Gives a side -20 to 20 points."),
    method(
        "add_card",
        &["card", "owner"],
        "Puts one of the script's own cards into this turn's deck; false when no card is drawn any more or there is no room.",
    ),
    method(
        "add_group_card",
        &["group"],
        "Puts one more card of a group into this turn's deck; false when it has no unit on the table, no card is drawn any more or there is no room.",
    ),
    method(
        "remove_cards",
        &["kind", "owner"],
        "Takes all cards of that kind and owner that are still to be drawn out of this turn's deck; gives their number.",
    ),
    method(
        "skip_card",
        &[],
        "The card just drawn has no effect; false when it is settled already.",
    ),
    method(
        "put_back",
        &[],
        "The card just drawn goes back among those left, though not on top, and has no effect; false when none is left or it is settled already.",
    ),
    method("end_turn", &[], "No further card is drawn this turn; false when that is so already."),
    method(
        "bring_reserve",
        &["side"],
        "The waiting reserve of a side that is due first comes now; false when none waits.",
    ),
    method(
        "limit_sight",
        &["inches"],
        "Nothing is seen beyond 1 to 86 inches for the rest of the turn.",
    ),
    method("set_counter", &["counter", "value"], "Sets a counter of the script, -9999 to 9999."),
    method(
        "ask_unit",
        &["side"],
        "In `on_extra_card`: the side chooses one of its units on the table, and `on_choice` gets its number; if it wants none, `on_choice` is not called. A card asks one question. False when the side has no unit there.",
    ),
    method(
        "ask_among",
        &["side", "units"],
        "As `ask_unit`, but only those of a list of units are offered. False when none of them is there.",
    ),
    method(
        "ask_option",
        &["side", "options"],
        "In `on_extra_card`: the side chooses a number from 1 to `options`, at most 12, or none; `on_choice` gets it.",
    ),
    method("note", &["text"], "Notes a line in the game's log."),
];

type Answer<T> = Result<T, Box<EvalAltResult>>;

fn refused(illegal: Illegal) -> Box<EvalAltResult> {
    EvalAltResult::ErrorRuntime(Dynamic::from(illegal.0), Position::NONE).into()
}

impl Game {
    fn act<T>(&mut self, act: impl FnOnce(&mut Handle) -> Result<T, Illegal>) -> Answer<T> {
        act(&mut self.0.borrow_mut()).map_err(refused)
    }

    fn ask<T>(&mut self, ask: impl FnOnce(&Handle) -> Result<T, Illegal>) -> Answer<T> {
        ask(&self.0.borrow()).map_err(refused)
    }
}

/// Gives an engine the game.
pub(crate) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Game>("game");
    register_properties(engine);
    register_questions(engine);
    register_acts(engine);
}

fn register_properties(engine: &mut Engine) {
    type Property = fn(&Handle) -> i64;
    let properties: [(&str, Property); 6] = [
        ("turn", Handle::turn),
        ("units", Handle::unit_count),
        ("groups", Handle::group_count),
        ("objectives", Handle::objective_count),
        ("cards_drawn", Handle::cards_drawn),
        ("cards_left", Handle::cards_left),
    ];
    for (name, property) in properties {
        engine.register_get(name, move |game: &mut Game| property(&game.0.borrow()));
    }
    engine.register_get("drawing", |game: &mut Game| game.0.borrow().drawing());
}

fn register_questions(engine: &mut Engine) {
    type OfUnit = fn(&Unit) -> i64;
    let of_units: [(&str, OfUnit); 9] = [
        ("side", |unit| unit.side as i64),
        ("group", |unit| unit.group.into()),
        ("kind", |unit| unit.kind as i64),
        ("quality", |unit| unit.quality as i64),
        ("grade", |unit| unit.grade.into()),
        ("men", |unit| unit.men.into()),
        ("first_men", |unit| unit.first_men.into()),
        ("pins", |unit| unit.pins.into()),
        ("actions", |unit| unit.actions.into()),
    ];
    for (name, question) in of_units {
        engine.register_fn(name, move |game: &mut Game, unit: i64| {
            game.ask(|handle| handle.unit(unit).map(question))
        });
    }
    type Question = fn(&Handle, i64) -> Result<i64, Illegal>;
    let numbers: [(&str, Question); 6] = [
        ("points", Handle::points),
        ("markers", Handle::markers),
        ("holder", Handle::holder),
        ("group_side", |handle, group| handle.group(group).map(|group| group.side as i64)),
        ("cover", |handle, unit| handle.cover(unit).map(|cover| cover as i64)),
        ("counter", Handle::counter),
    ];
    for (name, question) in numbers {
        engine.register_fn(name, move |game: &mut Game, number: i64| {
            game.ask(|handle| question(handle, number))
        });
    }
    type Flag = fn(&Handle, i64) -> Result<bool, Illegal>;
    let flags: [(&str, Flag); 3] = [
        ("on_table", Handle::on_table),
        ("suppressed", Handle::suppressed),
        ("activated", |handle, unit| handle.unit(unit).map(|unit| unit.activated)),
    ];
    for (name, flag) in flags {
        engine.register_fn(name, move |game: &mut Game, unit: i64| {
            game.ask(|handle| flag(handle, unit))
        });
    }
    engine.register_fn("range", |game: &mut Game, unit: i64, other: i64| {
        game.ask(|handle| handle.range(unit, other))
    });
    engine.register_fn("sees", |game: &mut Game, unit: i64, other: i64| {
        game.ask(|handle| handle.sees(unit, other))
    });
}

fn register_acts(engine: &mut Engine) {
    engine.register_fn("roll", |game: &mut Game| game.0.borrow_mut().roll());
    engine.register_fn("note", |game: &mut Game, text: &str| game.act(|handle| handle.note(text)));
    type Done<T = ()> = Result<T, Illegal>;
    type One = fn(&mut Handle, i64) -> Done;
    let ones: [(&str, One); 3] = [
        ("grant_action", Handle::grant_action),
        ("take_action", Handle::take_action),
        ("limit_sight", Handle::limit_sight),
    ];
    for (name, act) in ones {
        engine.register_fn(name, move |game: &mut Game, a: i64| game.act(|handle| act(handle, a)));
    }
    type Two = fn(&mut Handle, i64, i64) -> Done;
    let twos: [(&str, Two); 6] = [
        ("add_pins", Handle::add_pins),
        ("remove_pins", Handle::remove_pins),
        ("lose_men", Handle::lose_men),
        ("return_men", Handle::return_men),
        ("add_points", Handle::add_points),
        ("set_counter", Handle::set_counter),
    ];
    for (name, act) in twos {
        engine.register_fn(name, move |game: &mut Game, a: i64, b: i64| {
            game.act(|handle| act(handle, a, b))
        });
    }
    register_attempts(engine);
}

/// Acts that say whether there was anything to do.
fn register_attempts(engine: &mut Engine) {
    type Done<T> = Result<T, Illegal>;
    type Plain = fn(&mut Handle) -> Done<bool>;
    let plain: [(&str, Plain); 3] = [
        ("skip_card", Handle::skip_card),
        ("put_back", Handle::put_back),
        ("end_turn", Handle::end_turn),
    ];
    for (name, act) in plain {
        engine.register_fn(name, move |game: &mut Game| game.act(act));
    }
    type One = fn(&mut Handle, i64) -> Done<bool>;
    let ones: [(&str, One); 3] = [
        ("add_group_card", Handle::add_group_card),
        ("bring_reserve", Handle::bring_reserve),
        ("ask_unit", Handle::ask_unit),
    ];
    for (name, act) in ones {
        engine.register_fn(name, move |game: &mut Game, a: i64| game.act(|handle| act(handle, a)));
    }
    type Two = fn(&mut Handle, i64, i64) -> Done<bool>;
    let twos: [(&str, Two); 2] =
        [("add_card", Handle::add_card), ("ask_option", Handle::ask_option)];
    for (name, act) in twos {
        engine.register_fn(name, move |game: &mut Game, a: i64, b: i64| {
            game.act(|handle| act(handle, a, b))
        });
    }
    engine.register_fn("ask_among", |game: &mut Game, side: i64, units: rhai::Array| {
        let units: Result<Vec<i64>, _> = units.iter().map(rhai::Dynamic::as_int).collect();
        game.act(|handle| match units {
            Ok(units) => handle.ask_among(side, &units),
            Err(_) => Err(Illegal("`ask_among` takes a list of units, which are numbers".into())),
        })
    });
    engine.register_fn("remove_cards", |game: &mut Game, kind: i64, owner: i64| {
        game.act(|handle| handle.remove_cards(kind, owner))
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Overrides, Source, Variant};

    #[test]
    fn every_listed_member_can_be_used() {
        for member in MEMBERS {
            let value = |arg: &&str| match *arg {
                "number" | "options" | "inches" | "points" | "value" | "other" => "1",
                "text" => "\"a line\"",
                "units" => "[0, 1]",
                _ => "0",
            };
            let args: Vec<&str> = member.args.unwrap_or_default().iter().map(value).collect();
            let args = member.args.map_or(String::new(), |_| format!("({})", args.join(", ")));
            let text = format!(
                "fn about() {{ #{{ title: \"T\", summary: \"S.\", cards: #{{ mist: #{{ title: \"M\" }} }}, counters: #{{ seen: \"s\" }} }} }} fn on_extra_card(game, card, owner) {{ if owner != NOBODY {{ game.{}{args}; }} }}",
                member.name
            );
            let loaded = Variant::load(&Source::new(member.name, text), &Overrides::none());
            let variant = loaded.unwrap_or_else(|faults| panic!("{faults}"));
            assert!(variant.warnings().is_empty(), "{}", variant.warnings());
        }
    }
}
