//! The timing table: how long things take people at a table.

mod read;

use serde::{Deserialize, Serialize};

/// Seconds people need for each kind of thing that happens in a game.
///
/// The defaults are common practice, not measurement: they put an activation of a platoon at one
/// to three minutes, the range organisers give for an evening of six to ten turns.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Timing {
    /// Per turn: gathering and shuffling the deck, recovery, scoring.
    pub turn: f64,
    /// Per card drawn: turning it over and finding who it is for.
    pub card: f64,
    /// Per action taken by a unit or a marker: measuring and moving figures.
    pub action: f64,
    /// Per throw of any number of dice together, with reading it.
    pub throw: f64,
    /// Per choice put to a player.
    pub decision: f64,
}

impl Default for Timing {
    fn default() -> Self {
        Timing { turn: 120.0, card: 15.0, action: 20.0, throw: 12.0, decision: 5.0 }
    }
}

impl Timing {
    /// A file to start from: the default table, with what each entry is for.
    pub const FILE: &'static str = include_str!("../timing.ron");
    /// Names of the entries.
    pub const NAMES: [&'static str; 5] = ["turn", "card", "action", "throw", "decision"];
    /// Most seconds that an entry may have: more is taken for a slip.
    pub const MOST: f64 = 3600.0;

    /// Reads the text of a file in RON; an entry that it leaves out has its default.
    ///
    /// # Errors
    /// All that is wrong with the text, each with line and column where they are known: an unknown
    /// entry with the nearest name, one given twice, no number, not from 0 to [`Timing::MOST`].
    /// A text that is not RON has one fault, the first.
    pub fn from_ron(text: &str) -> Result<Timing, Vec<String>> {
        read::read(text)
    }

    fn entry(&mut self, name: &str) -> Option<&mut f64> {
        match name {
            "turn" => Some(&mut self.turn),
            "card" => Some(&mut self.card),
            "action" => Some(&mut self.action),
            "throw" => Some(&mut self.throw),
            "decision" => Some(&mut self.decision),
            _ => None,
        }
    }
}
