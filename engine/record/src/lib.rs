//! What a finished game and a finished run say: the serialised types.
//!
//! Engine crates produce these values, reports read them; neither knows the other. Only types of
//! this crate reach a file, and [`FORMAT`] rises whenever their meaning on disk changes.

mod balance;
mod closer;
mod course;
mod cross;
mod design;
mod game;
mod games;
mod handicap;
mod hunt;
mod judged;
mod ladder;
mod layout;
mod metric;
mod plan;
mod run;
mod schema;
mod shard;
mod style;
mod summary;
mod sweep;
mod ticket;
mod timing;
mod tune;

pub use balance::Balance;
pub use closer::{
    Closer, Explored, Holding, HoldingCurve, HoldingPoint, HoldingShift, RareEvent, Sample, Saved,
    ShiftSpread, TailPlace, TailShift,
};
pub use course::{Course, CourseTurn};
pub use cross::{CrossEffect, CrossPair, CrossPlan, CrossSummary, CrossWord};
pub use design::{
    CROSSED, Fraction, Word, aliases, cross_design, cross_generators, defining_relation,
    effect_sign, letters, resolution,
};
pub use game::{GameKey, GameRow};
pub use games::{
    Games, GamesError, Keep, Log, LogError, Memory, Played, Seal, Sink, Span, StoppedArm, Store,
    Table, read_games, write_csv, write_games,
};
pub use handicap::{HandicapChoice, HandicapPlan, HandicapStanding, HandicapSummary};
pub use hunt::{
    HuntEdge, HuntGain, HuntHabit, HuntPart, HuntPlan, HuntSearch, HuntSummary, HuntTrail,
    HuntVerdict, HuntWeight,
};
pub use judged::JudgedShift;
pub use ladder::{
    LadderFit, LadderPairing, LadderPlayer, LadderRivals, LadderScenario, LadderShare,
    LadderSpread, LadderStrength, LadderSummary,
};
pub use layout::Block;
pub use metric::{METRICS, Metric, MetricKind, MetricSpec, Theme, Values};
pub use plan::{
    Arm, Experiment, Pairing, Plan, PlanScenario, PlayerRef, Probe, Restriction, Seat, Stop,
    VariantRef,
};
pub use run::{ArmFault, RunRecord};
pub use schema::{SCHEMAS, SchemaOf};
pub use shard::{CoverError, Shard, ShardName, ShardWriter, cover, share, uncovered};
pub use style::{
    Importance, ImportanceShift, PairingShift, PlayerDependence, SkillEdge, WithoutPlayer,
};
pub use summary::{ArmSummary, Looks, MetricShift, ScenarioShift, Summary, TicketNote, Verdict};
pub use sweep::{
    SweepCrossing, SweepCurve, SweepFit, SweepGrid, SweepMean, SweepModel, SweepPlan, SweepRange,
    SweepReading, SweepShape, SweepSummary, SweepTarget,
};
pub use ticket::{Ticket, TicketError};
pub use timing::Timing;
pub use tune::{
    TuneAnswer, TuneCrossing, TunePlan, TuneSetting, TuneShape, TuneStanding, TuneSummary,
};

/// Version of everything this crate writes to disk.
pub const FORMAT: u32 = 5;

/// The oldest version whose plans are read: what a plan says has not changed since.
pub const OLDEST_PLAN: u32 = 3;

/// Nothing when a plan of that version can be read.
///
/// # Errors
/// That it was written by another version, and which ones are read.
fn readable(format: u32) -> Result<(), String> {
    if (OLDEST_PLAN..=FORMAT).contains(&format) {
        return Ok(());
    }
    Err(format!(
        "plan has format {format}, expected {OLDEST_PLAN} to {FORMAT}, which this program reads"
    ))
}
