//! What a finished game and a finished run say: the serialised types.
//!
//! Engine crates produce these values, reports read them; neither knows the other. Only types of
//! this crate reach a file, and [`FORMAT`] rises whenever their meaning on disk changes.

mod game;
mod hunt;
mod io;
mod ladder;
mod metric;
mod plan;
mod run;
mod style;
mod summary;
mod ticket;
mod timing;

pub use game::{GameKey, GameRow};
pub use hunt::{
    HuntEdge, HuntGain, HuntHabit, HuntPart, HuntPlan, HuntSearch, HuntSummary, HuntTrail,
    HuntVerdict, HuntWeight,
};
pub use io::{GamesError, read_games, write_games};
pub use ladder::{
    LadderFit, LadderPairing, LadderPlayer, LadderRivals, LadderScenario, LadderShare,
    LadderSpread, LadderStrength, LadderSummary,
};
pub use metric::{METRICS, Metric, MetricKind, MetricSpec, Theme, Values};
pub use plan::{Arm, Pairing, Plan, PlanScenario, PlayerRef, Probe, Restriction, Seat, VariantRef};
pub use run::{ArmFault, RunRecord};
pub use style::{
    Importance, ImportanceShift, PairingShift, PlayerDependence, SkillEdge, WithoutPlayer,
};
pub use summary::{ArmSummary, MetricShift, ScenarioShift, Summary, TicketNote, Verdict};
pub use ticket::{Ticket, TicketError};
pub use timing::Timing;

/// Version of everything this crate writes to disk.
pub const FORMAT: u32 = 2;
