//! Writing games as Parquet.

use std::io::Write;

use parquet::column::writer::ColumnWriter;
use parquet::data_type::ByteArray;
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::writer::{SerializedFileWriter, SerializedRowGroupWriter};

use super::{GROUP, notes, properties, schema};
use crate::games::csv::GamesError;
use crate::games::seal::Seal;
use crate::{FORMAT, GameRow, Metric, Plan};

/// Takes the games of a plan one after the other and writes them as Parquet.
pub struct Sink<'a, W: Write + Send> {
    plan: &'a Plan,
    file: SerializedFileWriter<W>,
    /// Games of the row group that is not yet whole.
    rows: Vec<GameRow>,
    seal: Seal,
}

impl<'a, W: Write + Send> Sink<'a, W> {
    /// Begins a file of games of `plan`.
    ///
    /// # Errors
    /// What the writer `to` reports.
    pub fn begin(plan: &'a Plan, to: W) -> Result<Sink<'a, W>, GamesError> {
        let file = SerializedFileWriter::new(to, schema(), properties())?;
        Ok(Sink { plan, file, rows: Vec::new(), seal: Seal::default() })
    }

    /// Takes the next game.
    ///
    /// # Errors
    /// What the writer reports: the file is of no use then.
    pub fn push(&mut self, row: GameRow) -> Result<(), GamesError> {
        self.seal.take(&row);
        self.rows.push(row);
        if self.rows.len() == GROUP { self.flush() } else { Ok(()) }
    }

    /// Ends the file, which then says of itself what `said` holds besides its format, plan and seal;
    /// hands back the writer.
    ///
    /// # Errors
    /// What the writer reports: the file is of no use then.
    pub fn finish(mut self, said: &[(&str, String)]) -> Result<W, GamesError> {
        self.flush()?;
        let own = [
            (notes::FORMAT, FORMAT.to_string()),
            (notes::PLAN, self.plan.digest()),
            (notes::SEAL, self.seal.text()),
        ];
        for (key, value) in own.iter().chain(said) {
            self.file.append_key_value_metadata(KeyValue::new((*key).to_owned(), value.clone()));
        }
        Ok(self.file.into_inner()?)
    }

    /// Writes the games held as a row group.
    fn flush(&mut self) -> Result<(), GamesError> {
        if self.rows.is_empty() {
            return Ok(());
        }
        let mut group = self.file.next_row_group()?;
        Columns { group: &mut group, plan: self.plan, rows: &self.rows }.write()?;
        group.close()?;
        self.rows.clear();
        Ok(())
    }
}

/// A row group that is filled column by column.
struct Columns<'a, 'g, W: Write + Send> {
    group: &'a mut SerializedRowGroupWriter<'g, W>,
    plan: &'a Plan,
    rows: &'a [GameRow],
}

impl<W: Write + Send> Columns<'_, '_, W> {
    fn write(&mut self) -> Result<(), ParquetError> {
        let plan = self.plan;
        let players = |row: &GameRow| plan.players(row.arm, plan.pairing(row.game));
        self.texts(|row| plan.arms[row.arm].name.clone())?;
        self.texts(|row| plan.scenarios[row.scenario].name.clone())?;
        self.texts(|row| players(row).attacker.name.clone())?;
        self.texts(|row| players(row).defender.name.clone())?;
        self.column(|rows, column| match column {
            ColumnWriter::Int32ColumnWriter(to) => {
                let games: Vec<i32> = rows.iter().map(|row| row.game.cast_signed()).collect();
                to.write_batch(&games, None, None)
            }
            _ => Err(not_of_that_type()),
        })?;
        self.texts(|row| format!("{:016x}", row.seed))?;
        self.texts(|row| plan.ticket(row.key(), row.seed, row.digest).to_string())?;
        for &metric in Metric::ALL {
            self.column(|rows, column| match column {
                ColumnWriter::DoubleColumnWriter(to) => {
                    let values: Vec<f64> = rows.iter().map(|row| row.get(metric)).collect();
                    to.write_batch(&values, None, None)
                }
                _ => Err(not_of_that_type()),
            })?;
        }
        self.column(margins)
    }

    fn texts(&mut self, text: impl Fn(&GameRow) -> String) -> Result<(), ParquetError> {
        self.column(|rows, column| match column {
            ColumnWriter::ByteArrayColumnWriter(to) => {
                let texts: Vec<ByteArray> =
                    rows.iter().map(|row| text(row).into_bytes().into()).collect();
                to.write_batch(&texts, None, None)
            }
            _ => Err(not_of_that_type()),
        })
    }

    /// Fills the next column.
    fn column(
        &mut self,
        fill: impl FnOnce(&[GameRow], &mut ColumnWriter<'_>) -> Result<usize, ParquetError>,
    ) -> Result<(), ParquetError> {
        let mut column = self.group.next_column()?.ok_or_else(not_of_that_type)?;
        fill(self.rows, column.untyped())?;
        column.close()
    }
}

/// The margins of all games behind each other. A level of repetition of 0 begins a game, one of
/// definition of 0 says that it has no margins.
fn margins(rows: &[GameRow], column: &mut ColumnWriter<'_>) -> Result<usize, ParquetError> {
    let ColumnWriter::Int32ColumnWriter(to) = column else { return Err(not_of_that_type()) };
    let (mut values, mut defined, mut repeated) = (Vec::new(), Vec::new(), Vec::new());
    for GameRow { margins, .. } in rows {
        values.extend(margins.iter().map(|&margin| i32::from(margin)));
        defined.extend(std::iter::repeat_n(1, margins.len()));
        repeated.extend((0..margins.len()).map(|n| i16::from(n > 0)));
        if margins.is_empty() {
            defined.push(0);
            repeated.push(0);
        }
    }
    to.write_batch(&values, Some(&defined), Some(&repeated))
}

fn not_of_that_type() -> ParquetError {
    ParquetError::General("a column is not of the type of its values".to_owned())
}
