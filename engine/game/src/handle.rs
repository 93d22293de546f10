//! What an event hook may read: the handle it is given, and the questions it answers.

use crate::arena::Arena;
use crate::game::Table;
use crate::happening::Happening;
use crate::kinds::{Cover, Side};
use crate::limits::{MAX_COUNTERS, MAX_KINDS_OF_CARD, MAX_RANGE};
use crate::rules::Rules;
use crate::script::{Act, Illegal};
use crate::stage::Stage;
use crate::state::{Group, Place, State, Unit};

/// What an event hook may read and do. Acts are checked here, at the moment they are asked for,
/// and take effect in order when the hook returns; questions see the state with the hook's own
/// acts in it.
pub struct Handle {
    pub(crate) state: Box<State>,
    pub(crate) acts: Vec<Act>,
    /// Acts of this call other than rolling dice.
    pub(crate) done: u16,
    pub(crate) happening: Happening,
    pub(crate) ground: Option<Ground>,
    pub(crate) part: Part,
    /// Whether the card just drawn has been dealt with.
    pub(crate) card_settled: bool,
}

/// What a game is played on and by; a made-up game has neither.
pub(crate) struct Ground {
    pub(crate) arena: Arena,
    pub(crate) rules: Rules,
}

impl Ground {
    pub(crate) fn of(table: &Table<'_>) -> Ground {
        Ground { arena: table.arena.clone(), rules: table.rules.clone() }
    }
}

/// Which cards and counters of the rule stack belong to the script that runs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Part {
    /// The first of its cards.
    pub first_card: u8,
    /// How many cards it has.
    pub cards: u8,
    /// The first of its counters.
    pub first_counter: u8,
    /// How many counters it has.
    pub counters: u8,
}

impl Part {
    /// The same numbers of cards and counters, behind those of another script.
    #[must_use]
    pub fn behind(self, other: Part) -> Part {
        let first_card = other.first_card + other.cards;
        let first_counter = other.first_counter + other.counters;
        Part { first_card, first_counter, ..self }
    }
}

impl Default for Handle {
    fn default() -> Self {
        Handle {
            state: Box::new(State::empty(0)),
            acts: Vec::new(),
            done: 0,
            happening: Happening::GameStart {},
            ground: None,
            part: Part::default(),
            card_settled: false,
        }
    }
}

impl Handle {
    /// Makes the handle that of another script of the stack.
    pub fn serve(&mut self, part: Part) {
        self.part = part;
    }

    /// Takes over the moment at which something happens.
    pub(crate) fn begin(&mut self, happening: Happening, state: &State) {
        *self.state = *state;
        self.acts.clear();
        self.done = 0;
        self.happening = happening;
        self.card_settled = false;
    }

    /// What has been done through it since the last happening.
    pub fn acts(&self) -> &[Act] {
        &self.acts
    }

    /// The turn being played.
    pub fn turn(&self) -> i64 {
        self.state.turn.into()
    }

    /// How many units there are, of both sides, gone ones included; they are numbered from 0.
    pub fn unit_count(&self) -> i64 {
        self.state.unit_count.into()
    }

    /// How many groups there are, of both sides, gone ones included; they are numbered from 0.
    pub fn group_count(&self) -> i64 {
        self.state.group_count.into()
    }

    /// How many objectives there are; they are numbered from 0.
    pub fn objective_count(&self) -> i64 {
        self.ground.as_ref().map_or(1, |ground| ground.arena.objectives().len() as i64)
    }

    /// Cards drawn this turn.
    pub fn cards_drawn(&self) -> i64 {
        self.state.deck.drawn().into()
    }

    /// Cards left in the deck this turn.
    pub fn cards_left(&self) -> i64 {
        self.state.deck.left().len() as i64
    }

    /// Whether cards are being drawn: neither late fire nor turn end.
    pub fn drawing(&self) -> bool {
        self.state.doing.stage == Stage::Cards
    }

    /// Points of a side, 0 attacker, 1 defender.
    ///
    /// # Errors
    /// When there is no such side.
    pub fn points(&self, side: i64) -> Result<i64, Illegal> {
        Ok(self.state.points[self.side(side)?].into())
    }

    /// Markers of a side on the table, dummies included.
    ///
    /// # Errors
    /// When there is no such side.
    pub fn markers(&self, side: i64) -> Result<i64, Illegal> {
        let side = self.side(side)?;
        Ok(self.state.markers().iter().filter(|m| m.on_table && m.side == side).count() as i64)
    }

    /// Who holds an objective: 0 attacker, 1 defender, 2 nobody.
    ///
    /// # Errors
    /// When there is no objective of that number.
    pub fn holder(&self, objective: i64) -> Result<i64, Illegal> {
        let count = self.objective_count();
        if !(0..count).contains(&objective) {
            return Err(none_such("objective", objective, count));
        }
        Ok(self.state.holders[objective as usize].map_or(2, |side| side as i64))
    }

    /// One group.
    ///
    /// # Errors
    /// When there is no group of that number.
    pub fn group(&self, group: i64) -> Result<&Group, Illegal> {
        usize::try_from(group)
            .ok()
            .and_then(|n| self.state.groups().get(n))
            .ok_or_else(|| none_such("group", group, self.group_count()))
    }

    /// One unit.
    ///
    /// # Errors
    /// When there is no unit of that number.
    pub fn unit(&self, unit: i64) -> Result<&Unit, Illegal> {
        usize::try_from(unit)
            .ok()
            .and_then(|n| self.state.units().get(n))
            .ok_or_else(|| none_such("unit", unit, self.unit_count()))
    }

    /// Whether a unit is on the table.
    ///
    /// # Errors
    /// When there is no unit of that number.
    pub fn on_table(&self, unit: i64) -> Result<bool, Illegal> {
        Ok(self.unit(unit)?.place == Place::Table)
    }

    /// Whether a unit is suppressed.
    ///
    /// # Errors
    /// When there is no unit of that number.
    pub fn suppressed(&self, unit: i64) -> Result<bool, Illegal> {
        let unit = self.unit(unit)?;
        Ok(unit.men > 0
            && match &self.ground {
                Some(ground) => unit.suppressed(&ground.rules),
                None => unit.pins >= unit.men,
            })
    }

    /// The cover a unit on the table is in.
    ///
    /// # Errors
    /// When the unit is not there.
    pub fn cover(&self, unit: i64) -> Result<Cover, Illegal> {
        let unit = self.placed(unit)?;
        let cover = |ground: &Ground| self.state.cover(&ground.arena, unit);
        Ok(self.ground.as_ref().map_or(Cover::None, cover))
    }

    /// Inches between two units on the table.
    ///
    /// # Errors
    /// When one of them is not there.
    pub fn range(&self, unit: i64, other: i64) -> Result<i64, Illegal> {
        Ok(self.placed(unit)?.at.range(self.placed(other)?.at).min(MAX_RANGE).into())
    }

    /// Whether a unit on the table sees another.
    ///
    /// # Errors
    /// When one of them is not there.
    pub fn sees(&self, unit: i64, other: i64) -> Result<bool, Illegal> {
        let (from, to) = (self.placed(unit)?.at, self.placed(other)?.at);
        let sees = |ground: &Ground| self.state.sees(&ground.arena, from, to);
        Ok(self.ground.as_ref().is_none_or(sees))
    }

    /// The value of a counter of the script that runs.
    ///
    /// # Errors
    /// When it has no such counter.
    pub fn counter(&self, counter: i64) -> Result<i64, Illegal> {
        Ok(self.state.counters[self.own_counter(counter)? as usize].into())
    }

    /// A unit that must be on the table.
    pub(crate) fn placed(&self, unit: i64) -> Result<&Unit, Illegal> {
        if !self.on_table(unit)? {
            return Err(Illegal(format!(
                "unit {unit} is not on the table: ask `game.on_table(unit)` first"
            )));
        }
        self.unit(unit)
    }

    pub(crate) fn side(&self, side: i64) -> Result<Side, Illegal> {
        match side {
            0 => Ok(Side::Attacker),
            1 => Ok(Side::Defender),
            _ => Err(Illegal(format!("there is no side {side}: use ATTACKER or DEFENDER"))),
        }
    }

    /// A counter of the script that runs, by its number over the whole stack.
    pub(crate) fn own_counter(&self, counter: i64) -> Result<u8, Illegal> {
        own("counter", "counters", counter, self.part.counters)?;
        Ok((self.part.first_counter + counter as u8).min(MAX_COUNTERS as u8 - 1))
    }

    /// A card of the script that runs, by its number over the whole stack.
    pub(crate) fn own_card(&self, card: i64) -> Result<u8, Illegal> {
        own("card", "cards", card, self.part.cards)?;
        Ok((self.part.first_card + card as u8).min(MAX_KINDS_OF_CARD as u8 - 1))
    }
}

fn own(what: &str, entry: &str, number: i64, count: u8) -> Result<(), Illegal> {
    if (0..i64::from(count)).contains(&number) {
        return Ok(());
    }
    let declare = format!("it declares {count} under `{entry}` in `about`");
    Err(Illegal(format!("the script has no {what} of its own with number {number}: {declare}")))
}

fn none_such(what: &str, number: i64, count: i64) -> Illegal {
    Illegal(format!(
        "there is no {what} {number}: {what}s are numbered 0 to {}",
        (count - 1).max(0)
    ))
}

mod acts;
