//! The manifest of event hooks: everything in a game at which a house rule may step in.

use crate::deck::Card;
use crate::event::Event;
use crate::hook::{Arg, Domain};
use crate::kinds::Side;
use crate::limits::{
    MAX_GROUPS, MAX_KINDS_OF_CARD, MAX_MEN, MAX_OBJECTIVES, MAX_PINS, MAX_TURNS, MAX_UNITS,
};
use crate::state::State;

use Domain::{Flag, Int, Named};

/// Kinds of card as event hooks see them.
pub const CARD_KINDS: &[&str] = &[
    "TURN_END_CARD",
    "MARKER_CARD",
    "GROUP_CARD",
    "LEADER_CARD",
    "BATTERY_CARD",
    "SHORTAGE_CARD",
    "EXTRA_CARD",
];
/// Owners of a card as event hooks see them; a turn-end card is nobody's.
pub const CARD_OWNERS: &[&str] = &["ATTACKER", "DEFENDER", "NOBODY"];

const UNIT: Domain = Int(0, MAX_UNITS as i32 - 1);
const GROUP: Domain = Int(0, MAX_GROUPS as i32 - 1);
const SIDE: Domain = Named(Side::CONSTANTS);
const OWNER: Domain = Named(CARD_OWNERS);
const PINS: Domain = Int(1, MAX_PINS as i32);
const TURN: Domain = Int(1, MAX_TURNS as i32);
const HITS: Domain = Int(0, 24);
const EXTRA: Domain = Int(0, MAX_KINDS_OF_CARD as i32 - 1);

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
    /// The body of an example. Examples share the card RUNNER and the counter ALARMS.
    pub example: &'static str,
}

impl EventSpec {
    /// The signature a script writes: `on_turn_end(game, turn)`.
    pub fn signature(&self) -> String {
        let args: String = self.args.iter().map(|arg| format!(", {}", arg.name)).collect();
        format!("{}(game{args})", self.name)
    }
}

/// A field of a happening as the number that scripts are given.
trait Argument: Sized {
    fn number(self) -> i32;
    fn from_number(number: i32) -> Self;
}

macro_rules! number_arguments {
    ($($type:ty),*) => { $(impl Argument for $type {
        fn number(self) -> i32 { self.into() }
        fn from_number(number: i32) -> Self { number as $type }
    })* };
}
number_arguments!(u8, u16);

impl Argument for bool {
    fn number(self) -> i32 {
        self.into()
    }
    fn from_number(number: i32) -> bool {
        number != 0
    }
}

impl Argument for Side {
    fn number(self) -> i32 {
        self.into()
    }
    fn from_number(number: i32) -> Side {
        Side::ALL[number as usize]
    }
}

impl Argument for Option<Side> {
    fn number(self) -> i32 {
        self.map_or(Side::ALL.len() as i32, i32::from)
    }
    fn from_number(number: i32) -> Option<Side> {
        Side::ALL.get(number as usize).copied()
    }
}

macro_rules! event_hooks {
    ($(
        $id:ident $name:ident ( $($arg:ident : $type:ty, $domain:expr, $arg_about:literal);* )
        $paragraph:literal $about:literal
        $example:literal;
    )*) => {
        /// What happened, for an event hook.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Happening { $(#[doc = $about] $id { $(#[doc = $arg_about] $arg: $type),* }),* }

        enum Place { $($id),* }

        /// Every event hook, indexed by [`Happening::index`].
        pub static EVENT_HOOKS: [EventSpec; [$(Place::$id),*].len()] = [$(
            EventSpec {
                name: stringify!($name),
                args: &[$(Arg { name: stringify!($arg), domain: $domain, about: $arg_about }),*],
                about: $about,
                paragraph: $paragraph,
                example: $example,
            }
        ),*];

        impl Happening {
            /// Place in [`EVENT_HOOKS`].
            pub const fn index(self) -> usize {
                match self { $(Happening::$id { .. } => Place::$id as usize),* }
            }

            /// The arguments after `game`, in the order of [`EventSpec::args`].
            pub fn arguments(self) -> Vec<i32> {
                match self { $(Happening::$id { $($arg),* } => vec![$($arg.number()),*]),* }
            }

            /// The happening with that place in [`EVENT_HOOKS`] and those arguments.
            ///
            /// # Panics
            /// When there is no such place, or for too few arguments.
            pub fn from_arguments(index: usize, arguments: &[i32]) -> Happening {
                let mut rest = arguments.iter();
                let mut _next = || *rest.next().expect("as many arguments as the hook has");
                match index {
                    $(_ if index == Place::$id as usize =>
                        Happening::$id { $($arg: <$type>::from_number(_next())),* },)*
                    _ => panic!("there is no event hook number {index}"),
                }
            }
        }
    };
}

event_hooks! {
    // The course of the game: called at once, before the game goes on.
    GameStart on_game_start ()
        "4.1" "Before the first turn, when the markers are in place."
        "game.add_points(DEFENDER, 1);";
    TurnStart on_turn_start (turn: u16, TURN, "the turn that starts")
        "2.3" "When the cards of a turn are gathered and not yet shuffled."
        "game.add_card(RUNNER, ATTACKER);";
    CardDrawn on_card_drawn (card: u8, Named(CARD_KINDS), "kind of card"; owner: Option<Side>, OWNER, "side it is for")
        "2.4" "When a card is drawn, before anyone acts on it."
        "if card == TURN_END_CARD && game.roll() >= 5 { game.put_back(); }";
    ExtraCard on_extra_card (card: u8, EXTRA, "which of the script's own cards"; owner: Option<Side>, OWNER, "side it is for")
        "18.2" "When an extra card of this script is drawn: what the card does."
        "if card == RUNNER { game.ask_unit(owner); }";
    Chosen on_choice (card: u8, EXTRA, "which of the script's own cards asked"; owner: Option<Side>, OWNER, "side the card is for"; chosen: u8, UNIT, "number of the unit or option chosen")
        "18.3" "When a side has chosen what a card of this script asked."
        "if card == RUNNER { game.grant_action(chosen); }";
    UnitActivated on_unit_activated (unit: u8, UNIT, "number of the unit")
        "5.1" "When a unit starts its activation, its actions counted. It may be in a vehicle, and so not on the table."
        "if game.turn == 1 { game.grant_action(unit); }";
    LateFire on_late_fire (turn: u16, TURN, "the turn that ends")
        "8.1" "When no more cards are drawn this turn, before late fire."
        "game.limit_sight(10);";
    TurnEnd on_turn_end (turn: u16, TURN, "the turn that ends")
        "2.5" "At turn end, after recovery and tests and before scoring."
        "if turn % 3 == 0 { game.add_points(DEFENDER, 1); }";

    // What happens in between: called when it is over (RULES 18.6).
    UnitMoved on_unit_moved (unit: u8, UNIT, "number of the unit"; inches: u8, Int(0, 24), "inches its roll allowed")
        "5.3" "When a unit has moved and is still on the table."
        "if inches >= 6 { game.add_pins(unit, 1); }";
    MarkerRevealed on_marker_revealed (side: Side, SIDE, "side it belonged to"; dummy: bool, Flag, "whether it hid nothing")
        "4.8" "When a marker has been taken off and its troops, if any, are in place."
        "if dummy { game.add_points(side, 1); }";
    UnitFired on_unit_fired (unit: u8, UNIT, "number of the unit that fired"; target: u8, UNIT, "number of the unit fired at"; hits: u8, HITS, "hits that counted")
        "7.4" "When a unit has fired at another, once for each unit that a blast reaches too, and before the pins and losses of the shot are told; either may be gone by then."
        "if hits >= 3 && game.on_table(target) { game.add_pins(target, 1); }";
    UnitPinned on_unit_pinned (unit: u8, UNIT, "number of the unit"; pins: u8, PINS, "pins it took")
        "9.1" "When a unit has taken pins and is still on the table. Pins put on by event hooks do not count."
        "if pins >= 3 { game.add_pins(unit, 1); }";
    UnitSuppressed on_unit_suppressed (unit: u8, UNIT, "number of the unit")
        "9.2" "When a unit has become suppressed and is still on the table."
        "if game.roll() == 6 { game.remove_pins(unit, 1); }";
    UnitRallied on_unit_rallied (unit: u8, UNIT, "number of the unit"; pins: u8, Int(0, MAX_PINS as i32), "pins it lost")
        "9.7" "When a unit has rallied and is still on the table."
        "if game.pins(unit) > 0 { game.remove_pins(unit, 1); }";
    MenLost on_men_lost (unit: u8, UNIT, "number of the unit"; men: u8, Int(1, MAX_MEN as i32), "men it lost")
        "7.5" "When a unit has lost men; it may be gone by then."
        "if men >= 2 && game.on_table(unit) { game.add_pins(unit, 1); }";
    UnitBroke on_unit_broke (unit: u8, UNIT, "number of the unit")
        "9.4" "When a unit has broken and left the table."
        "for other in 0..game.units { if game.on_table(other) && game.group(other) == game.group(unit) { game.add_pins(other, 1); } }";
    UnitLost on_unit_lost (unit: u8, UNIT, "number of the unit")
        "10.5" "When a unit has lost its last man."
        "if game.kind(unit) == LEADER && game.side(unit) == DEFENDER { game.add_points(ATTACKER, 1); }";
    GroupGone on_group_gone (group: u8, GROUP, "number of the group")
        "11.4" "When a group has no unit left."
        "game.add_points(game.group_side(group), -1);";
    OrderGiven on_order_given (leader: u8, UNIT, "number of the leader"; unit: u8, UNIT, "number of the unit ordered to act")
        "10.1" "When a leader orders a unit to take one more action, before it acts."
        "if game.grade(leader) >= 2 { game.grant_action(unit); }";
    AssaultFought on_assault_fought (unit: u8, UNIT, "number of the unit that assaults"; target: u8, UNIT, "number of the unit assaulted"; hits: u8, HITS, "its hits"; enemy_hits: u8, HITS, "hits of the unit assaulted")
        "12.6" "When a round of close assault has been fought and its outcome is settled; either may be gone by then."
        "if hits > enemy_hits && game.on_table(target) { game.add_pins(target, 2); }";
    BatteryFired on_battery_fired (side: Side, SIDE, "side it fires for")
        "14.6" "When a battery has fired."
        "game.limit_sight(30);";
    ObjectiveTaken on_objective_taken (objective: u8, Int(0, MAX_OBJECTIVES as i32 - 1), "number of the objective"; side: Side, SIDE, "side that holds it now")
        "11.1" "When an objective has passed to a side."
        "game.set_counter(ALARMS, game.counter(ALARMS) + 1); if game.counter(ALARMS) == 1 { game.add_points(side, 1); }";
}

impl Happening {
    /// What event hooks are told of an event once it is over, if anything.
    pub(crate) fn after(event: &Event, state: &State) -> Option<Happening> {
        Some(match *event {
            Event::UnitMoved { unit, inches, .. } => Happening::UnitMoved { unit, inches },
            Event::MarkerRevealed { marker, group, .. } => {
                let side = state.markers()[marker as usize].side;
                Happening::MarkerRevealed { side, dummy: group.is_none() }
            }
            Event::Fired { unit, target, hits, .. } => Happening::UnitFired { unit, target, hits },
            Event::GunFired { unit, target, rolled, needed } => {
                Happening::UnitFired { unit, target, hits: u8::from(rolled >= needed) }
            }
            Event::PinsAdded { unit, pins, .. } if pins > 0 => Happening::UnitPinned { unit, pins },
            Event::Suppressed { unit } => Happening::UnitSuppressed { unit },
            Event::Rallied { unit, pins, .. } => Happening::UnitRallied { unit, pins },
            Event::MenLost { unit, men, .. } => Happening::MenLost { unit, men },
            Event::UnitBroke { unit, .. } => Happening::UnitBroke { unit },
            Event::UnitLost { unit } => Happening::UnitLost { unit },
            Event::GroupGone { group, .. } => Happening::GroupGone { group },
            Event::OrderGiven { leader, unit } => Happening::OrderGiven { leader, unit },
            Event::AssaultFought { unit, target, hits, enemy_hits, .. } => {
                Happening::AssaultFought { unit, target, hits, enemy_hits }
            }
            Event::BatteryFired { battery, .. } => {
                Happening::BatteryFired { side: state.batteries()[battery as usize].side }
            }
            Event::ObjectiveTaken { objective, side } => {
                Happening::ObjectiveTaken { objective, side }
            }
            _ => return None,
        })
    }

    /// The unit that must still be on the table for the hook to be called.
    pub(crate) const fn needs(self) -> Option<u8> {
        match self {
            Happening::UnitMoved { unit, .. }
            | Happening::UnitPinned { unit, .. }
            | Happening::UnitSuppressed { unit }
            | Happening::UnitRallied { unit, .. } => Some(unit),
            _ => None,
        }
    }

    /// A card drawn, as event hooks are told of it.
    pub(crate) fn drawn(card: Card, state: &State) -> Happening {
        let (card, owner) = (card.kind(), card.owner(state));
        Happening::CardDrawn { card, owner }
    }
}
