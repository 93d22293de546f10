//! The rules of the game: state, legal choices, applying them, hook points, events, keyed luck.
//!
//! `RULES.md` beside this crate states the rules for a reader; code and tests quote its paragraphs.
//! The crate does no I/O, names no script language, and holds no float: a game is a function of
//! its arena, rules, players and seed.

mod arena;
pub mod cell;
mod choice;
mod deck;
mod digest;
mod disguise;
mod ending;
mod event;
mod fire;
mod game;
mod happen;
mod hook;
mod hooks;
mod kinds;
mod legal;
pub mod limits;
pub mod luck;
mod markers;
mod moves;
mod orders;
mod paths;
mod rules;
mod script;
mod setup;
mod sight;
mod stage;
mod state;
mod turn;
mod view;
mod will;

pub use arena::{Arena, GroupSetup, Objective, Setup, SetupFault, SideSetup, UnitSetup};
pub use cell::Cell;
pub use choice::{Choice, Heading};
pub use deck::{Card, Deck};
pub use digest::Digest;
pub use event::{BreakCause, EndCause, Event, Observer, RevealCause};
pub use game::{Broken, Game, Outcome, Player, Table};
pub use hook::{Arg, Domain, HookSpec};
pub use hooks::{HOOKS, Hook, hook_by_name};
pub use kinds::{BySide, Cover, Effect, Ground, Kind, Quality, Side, SightThrough};
pub use paths::{Paths, STEPS};
pub use rules::{FromCell, OutOfRange, Rules};
pub use script::{
    Act, CARD_KINDS, CARD_OWNERS, EVENT_HOOKS, EventScript, EventSpec, Fault, Handle, Happening,
    Illegal, trial_handle,
};
pub use sight::{Sight, SightRow, SightSpot};
pub use stage::{Doing, Mover, Moving, Stage};
pub use state::{Group, GroupId, Marker, MarkerId, Place, State, Tally, Unit, UnitId, Who};
pub use view::{SeenMarker, View};

/// Version of the rules: rises with every change that moves a golden digest.
pub const RULES_VERSION: u32 = 1;
