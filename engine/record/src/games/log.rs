//! The file in which a run keeps its games while it is played.
//!
//! Blocks are appended in the order of the plan, each with its length and a checksum, behind a first
//! entry that names the plan. A process that is killed leaves at most a torn last entry, which is
//! cut off when the log is opened again: what stands before it is a beginning of the run.

use std::fmt;
use std::io;
use std::ops::Range;

use super::Keep;
use super::block::{Numbers, Played, Shape, StoppedArm, margins, numbers};
use super::span::Span;
use super::store::Store;
use crate::layout::Block;
use crate::{FORMAT, GameRow, Metric, Plan};

/// Why a log could not be read or written.
#[derive(Debug)]
pub struct LogError(String);

impl LogError {
    /// An error with that message.
    pub(super) fn new(message: impl Into<String>) -> LogError {
        LogError(message.into())
    }
}

impl fmt::Display for LogError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for LogError {}

impl From<io::Error> for LogError {
    fn from(error: io::Error) -> LogError {
        LogError(error.to_string())
    }
}

/// The games of a run in a file.
pub struct Log {
    store: Box<dyn Store>,
    plan: Plan,
    /// All blocks of the plan, of which the first are kept.
    blocks: Vec<Block>,
    kept: Vec<Kept>,
    /// Blocks that readers see.
    shown: usize,
    /// Every fault, and its block.
    faults: Vec<(usize, StoppedArm)>,
    /// Length of everything that is whole.
    length: u64,
}

struct Kept {
    offset: u64,
    shape: Shape,
}

impl fmt::Debug for Log {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Log of {} of {} blocks", self.kept.len(), self.blocks.len())
    }
}

/// Length and checksum before every entry.
const HEAD: usize = 8;

impl Log {
    /// Begins a log for the games of `plan` in a store that is empty.
    ///
    /// # Errors
    /// What the store says.
    pub fn begin(plan: &Plan, store: Box<dyn Store>) -> Result<Log, LogError> {
        let mut log = Log::empty(plan, store);
        log.append(&first(plan))?;
        Ok(log)
    }

    /// Opens a log of `length` bytes that was begun for `plan`; a torn end is cut off.
    ///
    /// # Errors
    /// What the store says; that the log is of another plan or version.
    pub fn open(plan: &Plan, store: Box<dyn Store>, length: u64) -> Result<Log, LogError> {
        let mut log = Log::empty(plan, store);
        match log.entry(length)? {
            Some(bytes) if bytes == first(plan) => log.length += (HEAD + bytes.len()) as u64,
            Some(_) => return Err(LogError::new("its games are of another plan or version")),
            // Killed before the first entry was whole.
            None => {
                log.store.cut(0)?;
                return Log::begin(plan, log.store);
            }
        }
        while let Some(bytes) = log.entry(length)? {
            let Some((shape, faults)) = Shape::of(&bytes, plan.arms.len()) else { break };
            if log.kept.len() == log.blocks.len() {
                break;
            }
            log.note(log.length + HEAD as u64, shape, faults);
            log.length += (HEAD + bytes.len()) as u64;
        }
        if log.length < length {
            log.store.cut(log.length)?;
        }
        Ok(log)
    }

    fn empty(plan: &Plan, store: Box<dyn Store>) -> Log {
        let blocks = plan.blocks(plan.rounds());
        let (kept, faults) = (vec![], vec![]);
        Log { store, plan: plan.clone(), blocks, kept, shown: 0, faults, length: 0 }
    }

    /// The entry that begins where everything known ends; `None` at the end or at a torn one.
    fn entry(&self, length: u64) -> Result<Option<Vec<u8>>, LogError> {
        if length < self.length + HEAD as u64 {
            return Ok(None);
        }
        let mut head = [0; HEAD];
        self.store.read_at(self.length, &mut head)?;
        let [a, b, c, d, e, f, g, h] = head;
        let (size, sum) = (u32::from_le_bytes([a, b, c, d]), u32::from_le_bytes([e, f, g, h]));
        if length < self.length + HEAD as u64 + u64::from(size) {
            return Ok(None);
        }
        let mut bytes = vec![0; size as usize];
        self.store.read_at(self.length + HEAD as u64, &mut bytes)?;
        Ok((crc32fast::hash(&bytes) == sum).then_some(bytes))
    }

    /// Keeps the next block of the plan.
    ///
    /// # Errors
    /// What the store says; the log is then as it was before.
    pub fn keep(&mut self, played: &Played) -> Result<(), LogError> {
        let bytes = played.to_bytes(self.plan.arms.len());
        let (shape, _) =
            Shape::of(&bytes, self.plan.arms.len()).expect("a block can be read as it is written");
        let offset = self.append(&bytes)?;
        self.note(offset, shape, played.faults.clone());
        Ok(())
    }

    /// Puts an entry at the end; where its bytes begin.
    fn append(&mut self, bytes: &[u8]) -> Result<u64, LogError> {
        let mut entry = Vec::with_capacity(HEAD + bytes.len());
        entry.extend((bytes.len() as u32).to_le_bytes());
        entry.extend(crc32fast::hash(bytes).to_le_bytes());
        entry.extend(bytes);
        if let Err(error) = self.store.append(&entry) {
            // The end may be torn. Where that cannot be mended now, opening the log again does it.
            let _ = self.store.cut(self.length);
            return Err(error.into());
        }
        let offset = self.length + HEAD as u64;
        self.length += entry.len() as u64;
        Ok(offset)
    }

    fn note(&mut self, offset: u64, shape: Shape, faults: Vec<StoppedArm>) {
        self.faults.extend(faults.into_iter().map(|stopped| (self.kept.len(), stopped)));
        self.kept.push(Kept { offset, shape });
        self.shown = self.kept.len();
    }

    /// Lets readers see the first `blocks` blocks alone, as if the run had come so far; all again
    /// when more are kept.
    pub fn show(&mut self, blocks: usize) {
        self.shown = blocks.min(self.kept.len());
    }

    /// The plan whose games these are.
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Blocks that are kept: the first ones of the plan.
    pub fn kept(&self) -> usize {
        self.kept.len()
    }

    /// The first fault of each arm that has one, in the order of the arms.
    pub fn faults(&self) -> impl Iterator<Item = &StoppedArm> {
        (0..self.plan.arms.len()).filter_map(|arm| self.fault(arm))
    }

    fn fault(&self, arm: usize) -> Option<&StoppedArm> {
        let own =
            self.faults.iter().filter(|(n, stopped)| *n < self.shown && stopped.fault.arm == arm);
        own.map(|(_, stopped)| stopped).min_by_key(|stopped| stopped.place)
    }

    /// Games of an arm; those behind its first fault do not count.
    pub(super) fn count(&self, arm: usize) -> usize {
        (0..self.shown).map(|n| self.games(arm, n).count()).sum()
    }

    /// Numbers of the games that an arm has in a block.
    fn games(&self, arm: usize, n: usize) -> impl Iterator<Item = u32> + '_ {
        let block = self.blocks[n];
        let fault = self.fault(arm).map_or(u64::MAX, |stopped| stopped.place);
        let before = move |game: &u32| self.plan.place(block.scenario, *game) < fault;
        block.games().take(self.kept[n].shape.count(arm)).take_while(before)
    }

    /// The shown blocks in the order of their games: of each scenario those of one round after the
    /// other, the pairings of a round together.
    fn rounds(&self) -> Vec<Vec<usize>> {
        let of = |scenario| {
            let own = move |n: &usize| self.blocks[*n].scenario == scenario;
            (0..self.shown).filter(own).collect::<Vec<usize>>()
        };
        let scenarios = (0..self.plan.scenarios.len()).map(of);
        let begun = |a: &usize, b: &usize| self.blocks[*a].pairing < self.blocks[*b].pairing;
        let rounds = |blocks: Vec<usize>| -> Vec<Vec<usize>> {
            blocks.chunk_by(begun).map(<[usize]>::to_vec).collect()
        };
        scenarios.flat_map(rounds).collect()
    }

    /// What `read` makes of the blocks of a round for an arm, each with its game, in order.
    fn round<T>(
        &self,
        arm: usize,
        round: &[usize],
        read: impl Fn(usize) -> Result<Vec<T>, LogError>,
    ) -> Result<Vec<(u32, T)>, LogError> {
        let mut games = Vec::new();
        for &n in round {
            games.extend(self.games(arm, n).zip(read(n)?));
        }
        games.sort_by_key(|(game, _)| *game);
        Ok(games)
    }

    /// What `read` makes of each block for an arm, in the order of its games.
    fn in_order<T>(
        &self,
        arm: usize,
        read: impl Fn(usize) -> Result<Vec<T>, LogError>,
    ) -> Result<Vec<T>, LogError> {
        let mut all = Vec::with_capacity(self.count(arm));
        for round in self.rounds() {
            all.extend(self.round(arm, &round, &read)?.into_iter().map(|(_, value)| value));
        }
        Ok(all)
    }

    /// The games of an arm, in order.
    pub(super) fn spans(&self, arm: usize) -> Vec<Span> {
        let mut spans = Vec::new();
        for round in self.rounds() {
            let mut games: Vec<u32> = round.iter().flat_map(|&n| self.games(arm, n)).collect();
            games.sort_unstable();
            let scenario = self.blocks[round[0]].scenario;
            games.into_iter().for_each(|game| Span::note(&mut spans, scenario, game));
        }
        spans
    }

    pub(super) fn column(&self, arm: usize, metric: Metric) -> Result<Vec<f64>, LogError> {
        self.in_order(arm, |n| {
            let bits = self.numbers(arm, n, Numbers::Values(metric))?;
            Ok(bits.into_iter().map(f64::from_bits).collect())
        })
    }

    pub(super) fn digests(&self, arm: usize) -> Result<Vec<u64>, LogError> {
        self.in_order(arm, |n| self.numbers(arm, n, Numbers::Digests))
    }

    fn numbers(&self, arm: usize, n: usize, what: Numbers) -> Result<Vec<u64>, LogError> {
        Ok(numbers(&self.bytes(n, self.kept[n].shape.range(arm, what))?).collect())
    }

    /// Some bytes of a block, counted from its start.
    fn bytes(&self, n: usize, range: Range<u64>) -> Result<Vec<u8>, LogError> {
        let mut bytes = vec![0; (range.end - range.start) as usize];
        self.store.read_at(self.kept[n].offset + range.start, &mut bytes)?;
        Ok(bytes)
    }

    /// The margins by turn of each game that an arm has in a block.
    fn block_margins(&self, arm: usize, n: usize) -> Result<Vec<Vec<i16>>, LogError> {
        let shape = &self.kept[n].shape;
        let (lengths, all) = (shape.lengths(arm), shape.margins(arm));
        Ok(margins(&self.bytes(n, lengths)?, &self.bytes(n, all)?))
    }

    /// Hands the margins by turn of every game of an arm to `to`, a block at a time.
    pub(super) fn margins(&self, arm: usize, to: &mut dyn FnMut(&[i16])) -> Result<(), LogError> {
        for n in 0..self.shown {
            let counting = self.games(arm, n).zip(self.block_margins(arm, n)?);
            counting.for_each(|(_, margins)| to(&margins));
        }
        Ok(())
    }

    pub(super) fn row(
        &self,
        arm: usize,
        scenario: usize,
        game: u32,
    ) -> Result<Option<GameRow>, LogError> {
        let has = |n: &usize| {
            self.blocks[*n].scenario == scenario && self.games(arm, *n).any(|g| g == game)
        };
        let Some(n) = (0..self.shown).find(has) else { return Ok(None) };
        Ok(self.rows(arm, n)?.into_iter().find(|row| row.game == game))
    }

    /// All games that an arm has in a block.
    fn rows(&self, arm: usize, n: usize) -> Result<Vec<GameRow>, LogError> {
        let seeds = self.numbers(arm, n, Numbers::Seeds)?;
        let digests = self.numbers(arm, n, Numbers::Digests)?;
        let mut values = vec![[0.0; Metric::ALL.len()]; seeds.len()];
        for &metric in Metric::ALL {
            let column = self.numbers(arm, n, Numbers::Values(metric))?;
            for (row, value) in values.iter_mut().zip(column) {
                row[metric as usize] = f64::from_bits(value);
            }
        }
        let scenario = self.blocks[n].scenario;
        let row = |(game, (((seed, digest), values), margins))| GameRow {
            arm,
            scenario,
            game,
            seed,
            digest,
            values,
            margins,
        };
        let margins = self.block_margins(arm, n)?;
        let sealed = seeds.into_iter().zip(digests).zip(values).zip(margins);
        Ok(self.games(arm, n).zip(sealed).map(row).collect())
    }

    /// Every game by arm, then scenario, then number: the blocks of one scenario and round at a time.
    pub(super) fn each(
        &self,
        to: &mut dyn FnMut(GameRow) -> Result<(), LogError>,
    ) -> Result<(), LogError> {
        for arm in 0..self.plan.arms.len() {
            for round in self.rounds() {
                let rows = self.round(arm, &round, |n| self.rows(arm, n))?;
                rows.into_iter().map(|(_, row)| row).try_for_each(&mut *to)?;
            }
        }
        Ok(())
    }
}

impl Keep for Log {
    fn next(&self) -> usize {
        self.kept()
    }

    fn keep(&mut self, played: &Played) -> Result<(), String> {
        Log::keep(self, played).map_err(|error| error.to_string())
    }

    fn stopped(&self) -> Vec<StoppedArm> {
        self.faults().cloned().collect()
    }
}

/// The first entry of a log: whose games these are.
fn first(plan: &Plan) -> Vec<u8> {
    let names: Vec<&str> = Metric::ALL.iter().map(|metric| metric.spec().name).collect();
    format!("games of a run, format {FORMAT}\n{}\n{}", names.join(","), plan.to_ron()).into_bytes()
}
