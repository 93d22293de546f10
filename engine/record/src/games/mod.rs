//! The games of a run, wherever they are.
//!
//! A long run keeps its games in a file as they come, and reads them back a column at a time: the
//! answer needs all games, but only ever one metric of two arms. Short runs hold them.

mod block;
mod csv;
mod keep;
mod log;
mod seal;
mod span;
mod store;
mod table;
#[cfg(test)]
pub(crate) mod tests;

use std::borrow::Cow;
use std::sync::OnceLock;

pub use self::block::{Played, StoppedArm};
pub use self::csv::{GamesError, write_csv};
pub use self::keep::Keep;
pub use self::log::{Log, LogError};
pub use self::seal::Seal;
pub(crate) use self::seal::{Hashed, sha256};
pub use self::span::Span;
pub use self::store::{Memory, Store};
pub(crate) use self::table::notes;
pub use self::table::{Sink, Table, read_games, write_games};
use crate::{GameRow, Metric};

/// The games of a run. Those of an arm have an order: by scenario, then number.
///
/// Reading a file may fail. Then what was asked is empty, and [`Games::failure`] says why: whoever
/// makes an answer from the games asks it before he gives the answer to anyone.
#[derive(Debug)]
pub struct Games {
    source: Source,
    failed: OnceLock<String>,
}

#[derive(Debug)]
enum Source {
    Held(Vec<GameRow>),
    Kept(Box<Log>),
}

impl From<Vec<GameRow>> for Games {
    /// Games that are held in memory, in any order.
    fn from(mut rows: Vec<GameRow>) -> Games {
        let key = |row: &GameRow| (row.arm, row.scenario, row.game);
        rows.sort_by_key(key);
        rows.dedup_by_key(|row| key(row));
        Games { source: Source::Held(rows), failed: OnceLock::new() }
    }
}

impl From<Log> for Games {
    /// Games that lie in a file.
    fn from(log: Log) -> Games {
        Games { source: Source::Kept(Box::new(log)), failed: OnceLock::new() }
    }
}

impl Games {
    /// How many games an arm has finished.
    pub fn count(&self, arm: usize) -> usize {
        match &self.source {
            Source::Held(rows) => of_arm(rows, arm).len(),
            Source::Kept(log) => log.count(arm),
        }
    }

    /// The games of an arm, in order.
    pub fn spans(&self, arm: usize) -> Vec<Span> {
        match &self.source {
            Source::Held(rows) => Span::of(of_arm(rows, arm)),
            Source::Kept(log) => log.spans(arm),
        }
    }

    /// Scenario and number of every game of an arm, in order.
    pub fn keys(&self, arm: usize) -> impl Iterator<Item = (usize, u32)> + use<> {
        self.spans(arm).into_iter().flat_map(Span::keys)
    }

    /// One metric of every game of an arm, in the order of [`Games::keys`].
    pub fn column(&self, arm: usize, metric: Metric) -> Vec<f64> {
        match &self.source {
            Source::Held(rows) => of_arm(rows, arm).iter().map(|row| row.get(metric)).collect(),
            Source::Kept(log) => self.read(log.column(arm, metric)),
        }
    }

    /// The digest of every game of an arm, in the order of [`Games::keys`].
    pub fn digests(&self, arm: usize) -> Vec<u64> {
        match &self.source {
            Source::Held(rows) => of_arm(rows, arm).iter().map(|row| row.digest).collect(),
            Source::Kept(log) => self.read(log.digests(arm)),
        }
    }

    /// Hands the margins by turn of every game of an arm to `to`, in no order that may be relied
    /// on, without holding them all.
    pub fn margins(&self, arm: usize, to: &mut dyn FnMut(&[i16])) {
        match &self.source {
            Source::Held(rows) => of_arm(rows, arm).iter().for_each(|row| to(&row.margins)),
            Source::Kept(log) => self.read(log.margins(arm, to)),
        }
    }

    /// One game, when the arm has finished it.
    pub fn row(&self, arm: usize, scenario: usize, game: u32) -> Option<GameRow> {
        match &self.source {
            Source::Held(rows) => {
                let same = |row: &&GameRow| (row.scenario, row.game) == (scenario, game);
                of_arm(rows, arm).iter().find(same).cloned()
            }
            Source::Kept(log) => self.read(log.row(arm, scenario, game)),
        }
    }

    /// All games by arm, then in order; a run that keeps its games in a file should have few.
    pub fn rows(&self) -> Cow<'_, [GameRow]> {
        match &self.source {
            Source::Held(rows) => Cow::Borrowed(rows),
            Source::Kept(log) => {
                let mut rows = Vec::new();
                let all = log.each(&mut |row| {
                    rows.push(row);
                    Ok(())
                });
                self.read(all.map(|()| rows)).into()
            }
        }
    }

    /// Hands every game to `to`, by arm, then in order, without holding them all.
    ///
    /// # Errors
    /// The first error of `to`, or of reading.
    pub(crate) fn each(
        &self,
        to: &mut dyn FnMut(GameRow) -> Result<(), LogError>,
    ) -> Result<(), LogError> {
        match &self.source {
            Source::Held(rows) => rows.iter().cloned().try_for_each(to),
            Source::Kept(log) => log.each(to),
        }
    }

    /// These games with something done to them, held.
    pub fn changed(&self, change: impl FnOnce(&mut Vec<GameRow>)) -> Games {
        let mut rows = self.rows().into_owned();
        change(&mut rows);
        rows.into()
    }

    /// The file in which the games lie, to go on with; none when they are held.
    pub fn into_log(self) -> Option<Log> {
        match self.source {
            Source::Held(_) => None,
            Source::Kept(log) => Some(*log),
        }
    }

    /// Why some games could not be read, if that has happened.
    pub fn failure(&self) -> Option<&str> {
        self.failed.get().map(String::as_str)
    }

    fn read<T: Default>(&self, result: Result<T, LogError>) -> T {
        result.unwrap_or_else(|error| {
            // The first reason is the one that counts.
            let _ = self.failed.set(error.to_string());
            T::default()
        })
    }
}

/// The rows of one arm among rows in order.
fn of_arm(rows: &[GameRow], arm: usize) -> &[GameRow] {
    let start = rows.partition_point(|row| row.arm < arm);
    &rows[start..start + rows[start..].partition_point(|row| row.arm == arm)]
}
