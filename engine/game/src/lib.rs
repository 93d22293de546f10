//! The rules of the game: state, legal choices, applying them, hook points, events, keyed luck.
//!
//! `RULES.md` beside this crate states the rules for a reader; code and tests quote its paragraphs.
//! The crate does no I/O, names no script language, and holds no float: a game is a function of
//! its arena, rules, players and seed.

mod acts;
mod arena;
mod armour;
mod ask;
mod assault;
mod battery;
pub mod cell;
mod checks;
mod choice;
mod deck;
mod digest;
mod disguise;
mod ending;
mod event;
mod fire;
mod forces;
mod game;
mod handle;
mod happen;
mod happening;
mod hidden;
mod hook;
mod hooks;
mod kinds;
mod legal;
pub mod limits;
pub mod luck;
mod manifest;
mod markers;
mod moves;
mod orders;
mod paths;
mod pieces;
mod rules;
mod script;
mod setup;
mod sight;
mod stage;
mod state;
mod trial;
mod turn;
mod vehicles;
mod view;
mod walk;
mod will;
mod works;

pub use arena::{Arena, Objective, Setup, SetupFault};
pub use ask::Prospects;
pub use cell::Cell;
pub use choice::{Choice, Heading};
pub use deck::{Card, Deck};
pub use digest::Digest;
pub use event::{BreakCause, EndCause, Event, Observer, RevealCause};
pub use forces::{BatterySetup, Feature, GroupSetup, Gun, SideSetup, Start, UnitSetup};
pub use game::{Broken, Game, Outcome, Player, Table};
pub use handle::{Handle, Part};
pub use happening::{CARD_KINDS, CARD_OWNERS, EVENT_HOOKS, EventSpec, Happening};
pub use hook::{Arg, Domain, HookSpec};
pub use hooks::hook_by_name;
pub use kinds::{
    BySide, Cover, Damage, Effect, Face, Ground, Kind, Meaning, Quality, Side, SightThrough,
    meaning,
};
pub use manifest::{HOOKS, Hook};
pub use paths::{Gait, Paths, STEPS};
pub use rules::{FromCell, OutOfRange, Rules};
pub use script::{Act, EventScript, Fault, Illegal, Offer};
pub use sight::{Sight, SightRow, SightSpot};
pub use stage::{Asked, Doing, Mover, Moving, Reaction, Stage};
pub use state::{
    Battery, BatteryId, Call, Group, GroupId, Marker, MarkerId, Origin, Place, Screen, State,
    Tally, Unit, UnitId, Who,
};
pub use trial::{trial_handle, trial_happenings};
pub use view::{SeenMarker, View};

/// Version of the rules: rises with every change that moves a golden digest.
pub const RULES_VERSION: u32 = 3;
