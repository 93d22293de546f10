//! A finished run: the plan, its games, and the faults met on the way.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{GameRow, Games, Log, Plan, Ticket};

/// An arm that stopped before its last game.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ArmFault {
    /// Index of the arm.
    pub arm: usize,
    /// What went wrong, for a reader; may span lines.
    pub message: String,
    /// Ticket of the game that met the fault; its digest is that of the events before the fault.
    pub ticket: String,
}

/// A finished run.
#[derive(Debug)]
pub struct RunRecord {
    /// What was played.
    pub plan: Plan,
    /// The finished games.
    pub games: Games,
    /// Arms that stopped early.
    pub faults: Vec<ArmFault>,
}

impl From<Log> for RunRecord {
    /// The run as far as it is kept.
    fn from(log: Log) -> RunRecord {
        let faults = log.faults().map(|stopped| stopped.fault.clone()).collect();
        RunRecord { plan: log.plan().clone(), faults, games: log.into() }
    }
}

impl RunRecord {
    /// The ticket that reproduces `row`.
    pub fn ticket(&self, row: &GameRow) -> Ticket {
        self.plan.ticket(row.key(), row.seed, row.digest)
    }
}
