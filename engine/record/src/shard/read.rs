//! Reading a shard.

use std::ops::Range;

use parquet::file::reader::ChunkReader;

use super::notes;
use crate::games::notes::SEAL;
use crate::{Block, GameRow, GamesError, Plan, Played, StoppedArm, Table};

/// A shard that is open.
pub struct Shard {
    table: Table,
    blocks: Range<usize>,
    faults: Vec<(usize, StoppedArm)>,
}

impl Shard {
    /// Opens a shard whose bytes are those that its name tells.
    ///
    /// # Errors
    /// That it is none, or one of another version.
    pub fn open(from: impl ChunkReader + 'static) -> Result<Shard, GamesError> {
        let table = Table::open(from)?;
        let text = table.note(notes::BLOCKS)?;
        let ends = text.split_once("..").and_then(|(a, b)| a.parse().ok().zip(b.parse().ok()));
        let (start, end) =
            ends.ok_or_else(|| GamesError::new(format!("`{text}` are no blocks")))?;
        let faults = serde_json::from_str(table.note(notes::FAULTS)?);
        let faults = faults.map_err(|e| GamesError::new(e.to_string()))?;
        Ok(Shard { table, blocks: start..end, faults })
    }

    /// The blocks it holds.
    pub fn blocks(&self) -> Range<usize> {
        self.blocks.clone()
    }

    /// The digest of the plan whose games it holds.
    ///
    /// # Errors
    /// That it does not say.
    pub fn plan(&self) -> Result<&str, GamesError> {
        self.table.plan()
    }

    /// The seal of its games.
    ///
    /// # Errors
    /// That it does not say.
    pub fn seal(&self) -> Result<&str, GamesError> {
        self.table.note(SEAL)
    }

    /// Hands every block to `to`, in order; `all` are the blocks of `plan`.
    ///
    /// # Errors
    /// That its games are not those of its blocks of `plan`; those of `to`.
    pub fn each(
        &self,
        plan: &Plan,
        all: &[Block],
        to: &mut dyn FnMut(Played) -> Result<(), GamesError>,
    ) -> Result<(), GamesError> {
        let blocks =
            all.get(self.blocks()).ok_or_else(|| GamesError::new("the plan has fewer blocks"))?;
        let mut hand =
            Hand { blocks, first: self.blocks.start, faults: &self.faults, n: 0, games: vec![] };
        self.table.each(plan, &mut |row| {
            while !hand.block()?.has(row.scenario, row.game) {
                to(hand.over(plan)?)?;
            }
            hand.games.push(row);
            Ok(())
        })?;
        while hand.n < blocks.len() {
            to(hand.over(plan)?)?;
        }
        Ok(())
    }
}

/// The block that is being put together.
struct Hand<'a> {
    blocks: &'a [Block],
    /// Number of the first of them in the plan.
    first: usize,
    faults: &'a [(usize, StoppedArm)],
    n: usize,
    games: Vec<GameRow>,
}

impl Hand<'_> {
    fn block(&self) -> Result<&Block, GamesError> {
        self.blocks
            .get(self.n)
            .ok_or_else(|| GamesError::new("it holds games of no block of its own"))
    }

    /// The block as far as it has come, which must be the first games of each arm; the next one begins.
    fn over(&mut self, plan: &Plan) -> Result<Played, GamesError> {
        let block = self.block()?;
        for arm in 0..plan.arms.len() {
            let own = self.games.iter().filter(|row| row.arm == arm).map(|row| row.game);
            let count = own.clone().count();
            if !own.eq(block.games().take(count)) {
                return Err(GamesError::new(format!(
                    "games of block {} are missing",
                    self.first + self.n
                )));
            }
        }
        let faults = self.faults.iter().filter(|(n, _)| *n == self.first + self.n);
        let faults = faults.map(|(_, stopped)| stopped.clone()).collect();
        self.n += 1;
        Ok(Played { games: std::mem::take(&mut self.games), faults })
    }
}
