//! `games.parquet`: one row per game, written and read.
//!
//! Columns are those of [`KEYS`], then every metric, then the margins by turn as a list. All rows go
//! through one [`Sink`], which cuts them into row groups by their number alone, so that the bytes
//! depend on the rows and nothing else: not on how they arrive, not on the machine, not on the time.
//! Another version of the Parquet library may write other bytes for the same rows; whether two files
//! hold the same games is told by their [`Seal`](super::Seal), which the file carries.

mod read;
mod sink;
#[cfg(test)]
pub(super) mod tests;

use std::io::Write;
use std::sync::Arc;

use parquet::basic::{Compression, Encoding};
use parquet::errors::ParquetError;
use parquet::file::properties::{EnabledStatistics, WriterProperties};
use parquet::file::reader::ChunkReader;
use parquet::schema::parser::parse_message_type;
use parquet::schema::types::{ColumnPath, Type};

pub use self::read::Table;
pub use self::sink::Sink;
use super::csv::GamesError;
use super::log::LogError;
use crate::{GameRow, METRICS, Plan, RunRecord};

/// Games in a whole row group. Less would cost readers; each takes some 700 bytes in the memory of a
/// run that is written.
pub(super) const GROUP: usize = 1 << 15;

/// What is known of each game besides its metrics, with the type of its column.
const KEYS: [(&str, &str); 7] = [
    ("arm", "BYTE_ARRAY arm (STRING)"),
    ("scenario", "BYTE_ARRAY scenario (STRING)"),
    ("attacker", "BYTE_ARRAY attacker (STRING)"),
    ("defender", "BYTE_ARRAY defender (STRING)"),
    ("game", "INT32 game (INTEGER(32,false))"),
    ("seed", "BYTE_ARRAY seed (STRING)"),
    ("ticket", "BYTE_ARRAY ticket (STRING)"),
];

/// The margins by turn.
const MARGINS: &str = "REQUIRED GROUP margins (LIST) { REPEATED GROUP list { REQUIRED INT32 element \
                       (INTEGER(16,true)); } }";

/// Who wrote a file, in place of the library's version.
const WRITER: &str = "ruleshift";

/// Names of what a file says of all its rows.
pub(crate) mod notes {
    /// Version of the file format.
    pub(crate) const FORMAT: &str = "ruleshift.format";
    /// Digest of the plan.
    pub(crate) const PLAN: &str = "ruleshift.plan";
    /// Seal of the games, in the order of the rows.
    pub(crate) const SEAL: &str = "ruleshift.games";
}

/// The columns.
fn schema() -> Arc<Type> {
    let keys = KEYS.iter().map(|(_, column)| format!("REQUIRED {column};"));
    let metrics = METRICS.iter().map(|metric| format!("REQUIRED DOUBLE {};", metric.name));
    let columns: Vec<String> = keys.chain(metrics).chain([MARGINS.to_owned()]).collect();
    let text = format!("message games {{ {} }}", columns.join(" "));
    Arc::new(parse_message_type(&text).expect("the columns are fixed and tested"))
}

/// How columns are stored. Everything is said that the library might one day choose otherwise.
fn properties() -> Arc<WriterProperties> {
    let [seed, ticket] = ["seed", "ticket"].map(ColumnPath::from);
    let properties = WriterProperties::builder()
        .set_created_by(WRITER.to_owned())
        .set_compression(Compression::SNAPPY)
        .set_statistics_enabled(EnabledStatistics::Chunk)
        .set_max_row_group_row_count(Some(GROUP))
        // Seeds and tickets are there once or twice; tickets differ in their last letters only.
        .set_column_dictionary_enabled(seed, false)
        .set_column_dictionary_enabled(ticket.clone(), false)
        .set_column_encoding(ticket, Encoding::DELTA_BYTE_ARRAY);
    Arc::new(properties.build())
}

impl From<ParquetError> for GamesError {
    fn from(error: ParquetError) -> GamesError {
        GamesError::new(error.to_string())
    }
}

/// Writes the games of `run` by arm, then scenario, then number.
///
/// # Errors
/// What the writer `to` reports, or reading the games.
pub fn write_games(run: &RunRecord, to: impl Write + Send) -> Result<(), GamesError> {
    let mut sink = Sink::begin(&run.plan, to)?;
    run.games.each(&mut |row| sink.push(row).map_err(|e| LogError::new(e.to_string())))?;
    sink.finish(&[])?.flush().map_err(|e| GamesError::new(e.to_string()))
}

/// Reads what [`write_games`] wrote under the same plan.
///
/// # Errors
/// The first row that is no game of `plan`, or that the file is not one of games.
pub fn read_games(
    plan: &Plan,
    from: impl ChunkReader + 'static,
) -> Result<Vec<GameRow>, GamesError> {
    let mut rows = Vec::new();
    Table::open(from)?.each(plan, &mut |row| {
        rows.push(row);
        Ok(())
    })?;
    Ok(rows)
}
