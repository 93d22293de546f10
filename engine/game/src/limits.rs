//! Every bound of the engine, as a named constant.

/// Units of both sides together.
pub const MAX_UNITS: usize = 96;
/// Groups of both sides together.
pub const MAX_GROUPS: usize = 24;
/// Markers of both sides together, dummies included.
pub const MAX_MARKERS: usize = 40;
/// Starting spots of a side.
pub const MAX_SPOTS: usize = 64;
/// Places of a side that may hide troops.
pub const MAX_FEATURES: usize = 16;
/// Batteries of both sides together.
pub const MAX_BATTERIES: usize = 6;
/// Times a battery may fire.
pub const MAX_MISSIONS: u8 = 12;
/// Smoke screens on the table at a time.
pub const MAX_SCREENS: usize = 8;
/// Points a side may start with, either way.
pub const MAX_START_POINTS: i16 = 1000;
/// Objectives of a scenario.
pub const MAX_OBJECTIVES: usize = 6;
/// Leaders of both sides together.
pub const MAX_LEADERS: usize = 16;
/// Cards in the deck: room for the most that rules may ask for, which is 6 turn-end cards, 4 marker
/// and 2 shortage cards a side, 3 cards a group, 3 a leader and 2 a battery, and those that event
/// hooks add.
pub const MAX_CARDS: usize =
    6 + 2 * (4 + 2) + 3 * MAX_GROUPS + 3 * MAX_LEADERS + 2 * MAX_BATTERIES + MAX_ADDED_CARDS;
/// Cards that event hooks may add to the deck of one turn.
pub const MAX_ADDED_CARDS: usize = 32;
/// Copies of one card in the deck.
pub const MAX_COPIES: u8 = 16;
/// Kinds of card that a rule stack may have of its own.
pub const MAX_KINDS_OF_CARD: usize = 32;
/// Counters that a rule stack may have.
pub const MAX_COUNTERS: usize = 64;
/// Largest value of a counter, either way.
pub const MAX_COUNT: i16 = 9_999;
/// Most points that one act of an event hook gives or takes.
pub const MAX_POINTS_AT_ONCE: i16 = 20;
/// Most options that a card offers.
pub const MAX_OFFERED: u8 = 12;
/// Most men a unit may hold.
pub const MAX_MEN: u8 = 13;
/// Most pins a unit may carry: more change nothing.
pub const MAX_PINS: u8 = 30;
/// Longest game in turns.
pub const MAX_TURNS: u16 = 40;
/// Longest range that can occur on the table, in inches.
pub const MAX_RANGE: u8 = 86;
/// Most choices put to a player at once.
pub const MAX_CHOICES: usize = 256;
/// Choices in one game: more means that a rule stack keeps a game from ending.
pub const MAX_DECISIONS: u32 = 50_000;
/// Calls of event hooks in one game.
pub const MAX_SCRIPT_CALLS: u32 = 20_000;
