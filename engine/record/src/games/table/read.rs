//! Reading games from Parquet.

use std::collections::BTreeMap;

use parquet::column::reader::{ColumnReader, ColumnReaderImpl};
use parquet::data_type::{ByteArray, DataType};
use parquet::file::reader::{ChunkReader, FileReader, RowGroupReader, SerializedFileReader};

use super::{GROUP, KEYS, notes, schema};
use crate::games::csv::GamesError;
use crate::games::seal::Seal;
use crate::{FORMAT, GameKey, GameRow, Metric, Plan};

/// A file of games that is open.
pub struct Table {
    file: Box<dyn FileReader>,
    notes: BTreeMap<String, String>,
}

impl Table {
    /// Opens a file of games, whose bytes must be as they were written: the library trusts what
    /// pages say, and may panic where that is damaged.
    ///
    /// # Errors
    /// That it is no Parquet file, or one with other columns, or of another version.
    pub fn open(from: impl ChunkReader + 'static) -> Result<Table, GamesError> {
        let file = SerializedFileReader::new(from)?;
        let metadata = file.metadata().file_metadata();
        let pairs = metadata.key_value_metadata().into_iter().flatten();
        let notes = pairs.filter_map(|pair| Some((pair.key.clone(), pair.value.clone()?)));
        let notes: BTreeMap<String, String> = notes.collect();
        let table = Table { notes, file: Box::new(file) };
        let format = table.note(notes::FORMAT)?;
        if format != FORMAT.to_string() {
            return Err(GamesError::new(format!(
                "it has format {format}, and this program reads {FORMAT}"
            )));
        }
        let columns = table.file.metadata().file_metadata().schema();
        if *columns != *schema() {
            return Err(GamesError::new("its columns are not those of this version"));
        }
        Ok(table)
    }

    /// What the file says of itself under a name.
    ///
    /// # Errors
    /// That it does not.
    pub fn note(&self, name: &str) -> Result<&str, GamesError> {
        let note = self.notes.get(name).map(String::as_str);
        note.ok_or_else(|| GamesError::new(format!("it does not say `{name}`")))
    }

    /// The digest of the plan whose games it says it holds.
    ///
    /// # Errors
    /// That it does not say.
    pub fn plan(&self) -> Result<&str, GamesError> {
        self.note(notes::PLAN)
    }

    /// Hands every game to `to`, in order, a row group at a time; the games must be those of `plan`.
    ///
    /// # Errors
    /// The first row that is no game of the plan; that the games are not those that were sealed;
    /// those of `to`.
    pub fn each(
        &self,
        plan: &Plan,
        to: &mut dyn FnMut(GameRow) -> Result<(), GamesError>,
    ) -> Result<(), GamesError> {
        let (mut seal, mut first) = (Seal::default(), 1);
        for n in 0..self.file.num_row_groups() {
            let group = Group::read(&*self.file.get_row_group(n)?)?;
            for place in 0..group.games.len() {
                let row = group
                    .row(plan, place)
                    .map_err(|error| GamesError::new(format!("row {}: {error}", first + place)))?;
                seal.take(&row);
                to(row)?;
            }
            first += group.games.len();
        }
        if seal.text() == self.note(notes::SEAL)? {
            return Ok(());
        }
        Err(GamesError::new("its games are not those that were sealed when it was written"))
    }
}

/// The columns of a row group.
struct Group {
    arms: Vec<ByteArray>,
    scenarios: Vec<ByteArray>,
    games: Vec<i32>,
    seeds: Vec<ByteArray>,
    tickets: Vec<ByteArray>,
    values: Vec<Vec<f64>>,
    margins: Vec<Vec<i16>>,
}

impl Group {
    fn read(group: &dyn RowGroupReader) -> Result<Group, GamesError> {
        let rows = usize::try_from(group.metadata().num_rows()).ok().filter(|rows| *rows <= GROUP);
        let rows = rows.ok_or_else(|| GamesError::new("a row group is larger than any is"))?;
        let texts = |n| match group.get_column_reader(n)? {
            ColumnReader::ByteArrayColumnReader(from) => plain(from, rows),
            _ => Err(not_of_that_type()),
        };
        let games = match group.get_column_reader(4)? {
            ColumnReader::Int32ColumnReader(from) => plain(from, rows)?,
            _ => return Err(not_of_that_type()),
        };
        let value =
            |metric: &Metric| match group.get_column_reader(KEYS.len() + *metric as usize)? {
                ColumnReader::DoubleColumnReader(from) => plain(from, rows),
                _ => Err(not_of_that_type()),
            };
        Ok(Group {
            arms: texts(0)?,
            scenarios: texts(1)?,
            games,
            seeds: texts(5)?,
            tickets: texts(6)?,
            values: Metric::ALL.iter().map(value).collect::<Result<_, _>>()?,
            margins: margins(group.get_column_reader(KEYS.len() + Metric::ALL.len())?, rows)?,
        })
    }

    /// One game. Its ticket must be the one that the plan gives it: so names, digests of rules and
    /// players, and luck are all as they should be.
    fn row(&self, plan: &Plan, n: usize) -> Result<GameRow, String> {
        let arm = place(plan.arms.iter().map(|arm| &*arm.name), &self.arms[n], "arm")?;
        let named = plan.scenarios.iter().map(|scenario| &*scenario.name);
        let scenario = place(named, &self.scenarios[n], "scenario")?;
        let game = self.games[n].cast_unsigned();
        let [seed, written] =
            [&self.seeds[n], &self.tickets[n]].map(|text| String::from_utf8_lossy(text.data()));
        let number = |hex: &str| u64::from_str_radix(hex, 16).ok();
        let seed = number(&seed).ok_or_else(|| format!("`{seed}` is no seed"))?;
        let digest = written.rsplit('~').next().and_then(number);
        let digest = digest.ok_or_else(|| format!("`{written}` is no ticket"))?;
        let key = GameKey { arm, scenario, game };
        let ticket = plan.ticket(key, seed, digest).to_string();
        if ticket != written {
            return Err(format!("its ticket is {written}, and that of the plan is {ticket}"));
        }
        let values = std::array::from_fn(|metric| self.values[metric][n]);
        Ok(GameRow { arm, scenario, game, seed, digest, values, margins: self.margins[n].clone() })
    }
}

/// A column of so many values, none of which is absent.
fn plain<T: DataType>(mut from: ColumnReaderImpl<T>, rows: usize) -> Result<Vec<T::T>, GamesError> {
    let mut values = Vec::with_capacity(rows);
    let (records, _, _) = from.read_records(rows, None, None, &mut values)?;
    if (records, values.len()) == (rows, rows) { Ok(values) } else { Err(short()) }
}

/// The lists of margins of so many games.
fn margins(from: ColumnReader, rows: usize) -> Result<Vec<Vec<i16>>, GamesError> {
    let ColumnReader::Int32ColumnReader(mut from) = from else { return Err(not_of_that_type()) };
    let (mut values, mut defined, mut repeated) = (Vec::new(), Vec::new(), Vec::new());
    from.read_records(rows, Some(&mut defined), Some(&mut repeated), &mut values)?;
    let (mut all, mut values) = (Vec::<Vec<i16>>::with_capacity(rows), values.into_iter());
    for (defined, repeated) in defined.into_iter().zip(repeated) {
        if repeated == 0 {
            all.push(vec![]);
        }
        if defined == 1 {
            let margin = values.next().and_then(|value| i16::try_from(value).ok());
            let (game, margin) = all.last_mut().zip(margin).ok_or_else(short)?;
            game.push(margin);
        }
    }
    if all.len() == rows { Ok(all) } else { Err(short()) }
}

/// Where a name stands among those of the plan.
fn place<'a>(
    mut names: impl Iterator<Item = &'a str>,
    name: &ByteArray,
    what: &str,
) -> Result<usize, String> {
    let found = names.position(|known| known.as_bytes() == name.data());
    found
        .ok_or_else(|| format!("the plan has no {what} `{}`", String::from_utf8_lossy(name.data())))
}

fn short() -> GamesError {
    GamesError::new("a column does not have a value for every game")
}

fn not_of_that_type() -> GamesError {
    GamesError::new("a column is not of the type of its values")
}
