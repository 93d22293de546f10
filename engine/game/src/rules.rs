//! The rules as data: one dense table of answers for each value hook.
//!
//! The base rules and any rule stack have the same form, so a house rule costs nothing in play: a
//! question is one look into a table, whoever wrote the answer. Tables hold every argument tuple
//! of a hook, so they are complete, pure and checked before the first game.

use std::sync::Arc;

use crate::digest::Digest;
use crate::kinds::{Damage, Effect, Face};
use crate::manifest::{CELLS, HOOKS, Hook};

/// An answer as it is kept in a table.
pub trait FromCell {
    /// The answer behind a cell's number, which the table has checked to be in range.
    fn from_cell(cell: i16) -> Self;
}

impl FromCell for i32 {
    #[inline]
    fn from_cell(cell: i16) -> i32 {
        cell.into()
    }
}

impl FromCell for bool {
    #[inline]
    fn from_cell(cell: i16) -> bool {
        cell != 0
    }
}

macro_rules! named_cells {
    ($($type:ident),*) => { $(impl FromCell for $type {
        #[inline]
        fn from_cell(cell: i16) -> $type { $type::ALL[cell as usize] }
    })* };
}
named_cells!(Effect, Face, Damage);

/// Where each hook's table begins; the last entry is the length of all.
const OFFSETS: [usize; Hook::ALL.len() + 1] = {
    let mut offsets = [0; Hook::ALL.len() + 1];
    let mut n = 0;
    while n < Hook::ALL.len() {
        offsets[n + 1] = offsets[n] + CELLS[n];
        n += 1;
    }
    offsets
};

/// A complete set of rules: an answer for every argument tuple of every value hook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rules {
    /// Shared by all that hold the same rules.
    cells: Arc<[i16]>,
}

/// An answer that a hook may not give.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutOfRange {
    /// The hook.
    pub hook: Hook,
    /// Its arguments.
    pub arguments: Vec<i32>,
    /// The answer that is out of range.
    pub answer: i64,
}

impl Default for Rules {
    fn default() -> Self {
        Rules::base()
    }
}

impl Rules {
    /// The base rules.
    pub fn base() -> Rules {
        let mut cells = Vec::new();
        for spec in &HOOKS {
            cells.extend((0..spec.cells()).map(|n| {
                let answer = (spec.base)(&spec.arguments(n));
                assert!(spec.result.contains(answer), "{}: base answer {answer}", spec.name);
                answer as i16
            }));
        }
        Rules { cells: cells.into() }
    }

    #[inline]
    pub(crate) fn cell(&self, hook: Hook, cell: usize) -> i16 {
        self.cells[OFFSETS[hook as usize] + cell]
    }

    /// The table of one hook; see [`crate::HookSpec::arguments`] for the order.
    pub fn table(&self, hook: Hook) -> &[i16] {
        &self.cells[OFFSETS[hook as usize]..OFFSETS[hook as usize + 1]]
    }

    /// Replaces the table of `hook` by asking `answer` for each argument tuple, with the value so
    /// far. Leaves the table as it was when an answer is an error.
    ///
    /// # Errors
    /// The first error of `answer`.
    pub fn change<E>(
        &mut self,
        hook: Hook,
        mut answer: impl FnMut(i32, &[i32]) -> Result<i64, E>,
    ) -> Result<Result<(), OutOfRange>, E> {
        let spec = hook.spec();
        let mut table = Vec::with_capacity(spec.cells());
        for (n, &now) in self.table(hook).iter().enumerate() {
            let arguments = spec.arguments(n);
            let answer = answer(now.into(), &arguments)?;
            match i32::try_from(answer) {
                Ok(value) if spec.result.contains(value) => table.push(value as i16),
                _ => return Ok(Err(OutOfRange { hook, arguments, answer })),
            }
        }
        let cells = Arc::make_mut(&mut self.cells);
        cells[OFFSETS[hook as usize]..OFFSETS[hook as usize + 1]].copy_from_slice(&table);
        Ok(Ok(()))
    }

    /// A digest of all answers: equal rules have equal digests, however they were written.
    pub fn digest(&self) -> u64 {
        let mut digest = Digest::new();
        for &cell in &*self.cells {
            digest.word(cell as u64);
        }
        digest.value()
    }
}
