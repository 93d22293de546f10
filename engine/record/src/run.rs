//! A finished run: the plan, its games, and the faults met on the way.

use serde::{Deserialize, Serialize};

use crate::{GameRow, Plan, Ticket};

/// An arm that stopped before its last game.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ArmFault {
    /// Index of the arm.
    pub arm: usize,
    /// What went wrong, for a reader; may span lines.
    pub message: String,
    /// Ticket of the game that met the fault; its digest is that of the events before the fault.
    pub ticket: String,
}

/// A finished run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunRecord {
    /// What was played.
    pub plan: Plan,
    /// The finished games, by arm, then scenario, then game number.
    pub games: Vec<GameRow>,
    /// Arms that stopped early.
    pub faults: Vec<ArmFault>,
}

impl RunRecord {
    /// The ticket that reproduces `row`.
    pub fn ticket(&self, row: &GameRow) -> Ticket {
        self.plan.ticket(row.key(), row.seed, row.digest)
    }
}
