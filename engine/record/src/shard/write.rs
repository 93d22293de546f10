//! Writing a shard.

use std::io::Write;
use std::ops::Range;

use super::{ShardName, notes};
use crate::games::Hashed;
use crate::{GamesError, Keep, Plan, Played, Sink, StoppedArm};

/// A shard that is being written, block after block.
pub struct ShardWriter<'a, W: Write + Send> {
    sink: Sink<'a, Hashed<W>>,
    blocks: Range<usize>,
    next: usize,
    /// Arms that stopped, each with its block.
    faults: Vec<(usize, StoppedArm)>,
}

impl<'a, W: Write + Send> ShardWriter<'a, W> {
    /// Begins the shard of those blocks of `plan`.
    ///
    /// # Errors
    /// What the writer `to` reports.
    pub fn begin(plan: &'a Plan, blocks: Range<usize>, to: W) -> Result<Self, GamesError> {
        let sink = Sink::begin(plan, Hashed::new(to))?;
        Ok(ShardWriter { sink, next: blocks.start, blocks, faults: vec![] })
    }

    /// Ends the shard: the writer, and the name that the file must have.
    ///
    /// # Errors
    /// What the writer reports; that blocks are missing.
    pub fn finish(self) -> Result<(W, ShardName), GamesError> {
        let Range { start, end } = self.blocks;
        if self.next != end {
            return Err(GamesError::new(format!("blocks {} to {end} were not played", self.next)));
        }
        let faults = serde_json::to_string(&self.faults).expect("faults hold only plain data");
        let said = [(notes::BLOCKS, format!("{start}..{end}")), (notes::FAULTS, faults)];
        let (to, hash) = self.sink.finish(&said)?.into_parts();
        Ok((to, ShardName::new(&self.blocks, &hash)))
    }
}

impl<W: Write + Send> Keep for ShardWriter<'_, W> {
    fn next(&self) -> usize {
        self.next
    }

    fn keep(&mut self, played: &Played) -> Result<(), String> {
        played
            .games
            .iter()
            .cloned()
            .try_for_each(|row| self.sink.push(row))
            .map_err(|e| e.to_string())?;
        self.faults.extend(played.faults.iter().map(|stopped| (self.next, stopped.clone())));
        self.next += 1;
        Ok(())
    }

    fn stopped(&self) -> Vec<StoppedArm> {
        self.faults.iter().map(|(_, stopped)| stopped.clone()).collect()
    }
}
