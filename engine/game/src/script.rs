//! Event hooks: what happens in a game, and the checked handle through which a script may act.

use std::fmt;

use crate::hook::{Arg, Domain};
use crate::kinds::{Kind, Quality, Side};
use crate::limits::{MAX_PINS, MAX_TURNS, MAX_UNITS};
use crate::luck::Purpose;
use crate::state::{Place, State, Unit, Who};

/// Kinds of card as event hooks see them.
pub const CARD_KINDS: &[&str] =
    &["TURN_END_CARD", "MARKER_CARD", "GROUP_CARD", "LEADER_CARD", "BATTERY_CARD", "SHORTAGE_CARD"];
/// Owners of a card as event hooks see them; a turn-end card is nobody's.
pub const CARD_OWNERS: &[&str] = &["ATTACKER", "DEFENDER", "NOBODY"];

const UNIT: Arg =
    Arg { name: "unit", domain: Domain::Int(0, MAX_UNITS as i32 - 1), about: "number of the unit" };

/// What happened, for an event hook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Happening {
    /// The game starts.
    GameStart,
    /// A card was drawn: its place in [`CARD_KINDS`] and [`CARD_OWNERS`].
    CardDrawn {
        /// Place in [`CARD_KINDS`].
        card: u8,
        /// Place in [`CARD_OWNERS`].
        owner: u8,
    },
    /// A unit starts its activation.
    UnitActivated {
        /// The unit.
        unit: u8,
    },
    /// The turn ends, after recovery and tests and before scoring.
    TurnEnd {
        /// The turn.
        turn: u16,
    },
    /// A unit took pins from fire.
    UnitPinned {
        /// The unit.
        unit: u8,
        /// Pins it took.
        pins: u8,
    },
}

/// One event hook.
#[derive(Clone, Copy, Debug)]
pub struct EventSpec {
    /// Name of the function a script defines.
    pub name: &'static str,
    /// Arguments after `game`.
    pub args: &'static [Arg],
    /// When it runs.
    pub about: &'static str,
    /// The paragraph of RULES.md it belongs to.
    pub paragraph: &'static str,
}

/// Every event hook, indexed by [`Happening::index`].
pub static EVENT_HOOKS: [EventSpec; 5] = [
    EventSpec {
        name: "on_game_start",
        args: &[],
        about: "Before the first turn, when the markers are in place.",
        paragraph: "4.1",
    },
    EventSpec {
        name: "on_card_drawn",
        args: &[
            Arg { name: "card", domain: Domain::Named(CARD_KINDS), about: "kind of card" },
            Arg { name: "owner", domain: Domain::Named(CARD_OWNERS), about: "side it is for" },
        ],
        about: "When a card is drawn, before anyone acts on it.",
        paragraph: "2.4",
    },
    EventSpec {
        name: "on_unit_activated",
        args: &[UNIT],
        about: "When a unit starts its activation, its actions counted.",
        paragraph: "5.1",
    },
    EventSpec {
        name: "on_turn_end",
        args: &[Arg {
            name: "turn",
            domain: Domain::Int(1, MAX_TURNS as i32),
            about: "the turn that ends",
        }],
        about: "At turn end, after recovery and tests and before scoring.",
        paragraph: "2.5",
    },
    EventSpec {
        name: "on_unit_pinned",
        args: &[
            UNIT,
            Arg { name: "pins", domain: Domain::Int(1, MAX_PINS as i32), about: "pins it took" },
        ],
        about: "When fire has put pins on a unit that is still there. Pins put on by event hooks do not count.",
        paragraph: "9.1",
    },
];

impl Happening {
    /// Place in [`EVENT_HOOKS`].
    pub const fn index(self) -> usize {
        match self {
            Happening::GameStart => 0,
            Happening::CardDrawn { .. } => 1,
            Happening::UnitActivated { .. } => 2,
            Happening::TurnEnd { .. } => 3,
            Happening::UnitPinned { .. } => 4,
        }
    }

    /// The arguments after `game`, in the order of [`EventSpec::args`].
    pub fn arguments(self) -> Vec<i32> {
        match self {
            Happening::GameStart => vec![],
            Happening::CardDrawn { card, owner } => vec![card.into(), owner.into()],
            Happening::UnitActivated { unit } => vec![unit.into()],
            Happening::TurnEnd { turn } => vec![turn.into()],
            Happening::UnitPinned { unit, pins } => vec![unit.into(), pins.into()],
        }
    }
}

/// A fault of a rule stack at play time: the game cannot go on under it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What went wrong and where, for a reader; may span lines.
    pub message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Fault {}

/// The event hooks of a rule stack. One value serves one worker; it keeps nothing between calls.
pub trait EventScript {
    /// Whether any variant of the stack has the hook with that place in [`EVENT_HOOKS`].
    fn listens(&self, index: usize) -> bool;

    /// Runs the hooks for `happening`, which act through `handle`.
    ///
    /// # Errors
    /// A fault of the script, among them any illegal act.
    fn call(&mut self, happening: Happening, handle: &mut Handle) -> Result<(), Fault>;
}

/// Something an event hook did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// Put pins on a unit.
    AddPins {
        /// The unit.
        unit: u8,
        /// How many.
        pins: u8,
    },
    /// Took pins off a unit.
    RemovePins {
        /// The unit.
        unit: u8,
        /// How many.
        pins: u8,
    },
    /// Gave a unit an action.
    GrantAction {
        /// The unit.
        unit: u8,
    },
    /// Noted a line in the game's log.
    Note(String),
}

/// An act or question that the handle refuses: what was wrong, in words for the script's author.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Illegal(pub String);

/// What an event hook may read and do. Acts are checked here, at the moment they are asked for,
/// and take effect in order when the hook returns; questions see the state with the hook's own
/// acts in it.
#[derive(Debug)]
pub struct Handle {
    pub(crate) state: Box<State>,
    pub(crate) acts: Vec<Act>,
}

impl Default for Handle {
    fn default() -> Self {
        Handle { state: Box::new(State::empty(0)), acts: Vec::new() }
    }
}

/// Most acts of one call.
const MAX_ACTS: usize = 200;
/// Longest note in bytes.
const MAX_NOTE: usize = 200;

impl Handle {
    /// The turn being played.
    pub fn turn(&self) -> i64 {
        self.state.turn.into()
    }

    /// How many units there are, of both sides, gone ones included; they are numbered from 0.
    pub fn unit_count(&self) -> i64 {
        self.state.unit_count.into()
    }

    /// Cards drawn this turn.
    pub fn cards_drawn(&self) -> i64 {
        self.state.deck.drawn().into()
    }

    /// Points of a side, 0 attacker, 1 defender.
    ///
    /// # Errors
    /// When there is no such side.
    pub fn points(&self, side: i64) -> Result<i64, Illegal> {
        match side {
            0 => Ok(self.state.points[Side::Attacker].into()),
            1 => Ok(self.state.points[Side::Defender].into()),
            _ => Err(Illegal(format!("there is no side {side}: use ATTACKER or DEFENDER"))),
        }
    }

    /// One unit.
    ///
    /// # Errors
    /// When there is no unit of that number.
    pub fn unit(&self, unit: i64) -> Result<&Unit, Illegal> {
        usize::try_from(unit).ok().and_then(|n| self.state.units().get(n)).ok_or_else(|| {
            let count = self.state.unit_count;
            Illegal(format!(
                "there is no unit {unit}: units are numbered 0 to {}",
                count.saturating_sub(1)
            ))
        })
    }

    /// Whether a unit is on the table.
    ///
    /// # Errors
    /// When there is no unit of that number.
    pub fn on_table(&self, unit: i64) -> Result<bool, Illegal> {
        Ok(self.unit(unit)?.place == Place::Table)
    }

    /// Rolls one six-sided die of the game's own luck.
    pub fn roll(&mut self) -> i64 {
        self.state.roll(Purpose::Script, Who::Script, 1).die().into()
    }

    /// Puts pins on a unit on the table.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 1 to 12.
    pub fn add_pins(&mut self, unit: i64, pins: i64) -> Result<(), Illegal> {
        let (unit, pins) = self.change(unit, pins)?;
        let now = &mut self.state.units[unit as usize].pins;
        *now = (*now + pins).min(MAX_PINS);
        self.act(Act::AddPins { unit, pins })
    }

    /// Takes pins off a unit on the table, as many as it has at most.
    ///
    /// # Errors
    /// When the unit is not there or the number is not 1 to 12.
    pub fn remove_pins(&mut self, unit: i64, pins: i64) -> Result<(), Illegal> {
        let (unit, pins) = self.change(unit, pins)?;
        let now = &mut self.state.units[unit as usize].pins;
        let pins = pins.min(*now);
        *now -= pins;
        self.act(Act::RemovePins { unit, pins })
    }

    /// Gives a unit on the table one more action in its present or next activation this turn.
    ///
    /// # Errors
    /// When the unit is not there.
    pub fn grant_action(&mut self, unit: i64) -> Result<(), Illegal> {
        let (unit, _) = self.change(unit, 1)?;
        self.act(Act::GrantAction { unit })
    }

    /// Notes a line in the game's log.
    ///
    /// # Errors
    /// When the line is too long.
    pub fn note(&mut self, line: &str) -> Result<(), Illegal> {
        if line.len() > MAX_NOTE {
            return Err(Illegal(format!(
                "a note has at most {MAX_NOTE} bytes, this one has {}",
                line.len()
            )));
        }
        self.act(Act::Note(line.to_owned()))
    }

    fn change(&self, unit: i64, pins: i64) -> Result<(u8, u8), Illegal> {
        if !self.on_table(unit)? {
            return Err(Illegal(format!(
                "unit {unit} is not on the table: ask `game.on_table(unit)` first"
            )));
        }
        match u8::try_from(pins) {
            Ok(pins @ 1..=12) => Ok((unit as u8, pins)),
            _ => Err(Illegal(format!("the number of pins must be 1 to 12, not {pins}"))),
        }
    }

    fn act(&mut self, act: Act) -> Result<(), Illegal> {
        if self.acts.len() == MAX_ACTS {
            return Err(Illegal(format!("one call may act at most {MAX_ACTS} times")));
        }
        self.acts.push(act);
        Ok(())
    }
}

/// A handle on a small made-up game, for trying an event hook when its script is loaded: two units
/// a side on the table, one of each side under a marker, turn 1.
pub fn trial_handle() -> Handle {
    let mut handle = Handle::default();
    let state = &mut *handle.state;
    state.turn = 1;
    state.unit_count = 6;
    for (n, unit) in state.units[..6].iter_mut().enumerate() {
        unit.side = Side::ALL[n / 3];
        unit.group = (n / 3) as u8;
        unit.kind = Kind::Section;
        unit.quality = Quality::Regular;
        (unit.men, unit.first_men, unit.pins) = (8, 10, (n % 3) as u8);
        unit.place = if n % 3 == 2 { Place::Hidden } else { Place::Table };
    }
    handle
}
