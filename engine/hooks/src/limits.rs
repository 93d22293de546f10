//! Every bound on scripts, in one place, equal in every build.

/// Bytes of a script.
pub const MAX_SCRIPT: usize = 32 * 1024;
/// Operations of one call of a value hook; a usual one takes 3 to 30.
pub const VALUE_OPERATIONS: u64 = 5_000;
/// Operations of one call of an event hook, which may look at every unit.
pub const EVENT_OPERATIONS: u64 = 10_000;
/// Operations of all calls of event hooks in one game; a usual game takes some 10,000.
pub const GAME_OPERATIONS: u64 = 2_000_000;
/// Operations of all calls of value hooks while one variant is loaded.
pub const LOAD_OPERATIONS: u64 = 4_000_000;
/// Calls nested in calls.
pub const CALL_LEVELS: usize = 16;
/// Depth of expressions and blocks in one function.
pub const EXPRESSION_DEPTH: usize = 32;
/// Functions in a script.
pub const MAX_FUNCTIONS: usize = 256;
/// Variables at one moment.
pub const MAX_VARIABLES: usize = 64;
/// Elements of a list, those of lists within it included.
pub const MAX_LIST: usize = 128;
/// Entries of a map, those of maps within it included.
pub const MAX_MAP: usize = 64;
/// Bytes of a text.
pub const MAX_TEXT: usize = 1_024;
/// Cards of a variant's own.
pub const MAX_CARDS: usize = 8;
/// Counters of a variant.
pub const MAX_COUNTERS: usize = 8;
/// Options of a variant.
pub const MAX_OPTIONS: usize = 16;
/// Largest size of an option's value.
pub const MAX_OPTION_VALUE: i64 = 1_000_000;
/// Faults of one script that are told.
pub const MAX_FAULTS: usize = 50;
