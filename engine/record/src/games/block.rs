//! One block of games as it comes from play, and as bytes.
//!
//! `FAULTS`, then for each arm how many games it has (one byte), then for each arm its seeds, its
//! digests and each metric in turn: the values of one metric lie together, so that they can be read
//! without the others. Behind all arms stand the margins by turn: for each arm how many each game has
//! (one byte), then for each arm the margins, game by game. As many as turns were played: games differ
//! much in length, and a fixed width would take room for the longest that may be. Numbers are
//! little-endian. `FAULTS` is a length (4 bytes) and JSON.

use std::ops::Range;

use serde::{Deserialize, Serialize};

use crate::{ArmFault, GameRow, Metric};

/// An arm that a fault has stopped, and the place of its game in the plan.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StoppedArm {
    /// Where in the order of [`Plan::place`](crate::Plan::place).
    pub place: u64,
    /// What went wrong.
    pub fault: ArmFault,
}

/// What a block of games gave.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Played {
    /// The games of every arm in the order of the block: its first ones, as many as were played.
    pub games: Vec<GameRow>,
    /// Arms that stopped in it.
    pub faults: Vec<StoppedArm>,
}

/// Bytes of one number.
const WIDE: usize = 8;
/// Bytes of one margin.
const MARGIN: usize = 2;

impl Played {
    /// The block as bytes, for a plan of so many arms.
    pub(super) fn to_bytes(&self, arms: usize) -> Vec<u8> {
        let faults = serde_json::to_vec(&self.faults).expect("faults hold only plain data");
        let mut bytes = (faults.len() as u32).to_le_bytes().to_vec();
        bytes.extend(faults);
        let of = |arm| self.games.iter().filter(move |row| row.arm == arm);
        bytes.extend((0..arms).map(|arm| of(arm).count() as u8));
        for arm in 0..arms {
            bytes.extend(of(arm).flat_map(|row| row.seed.to_le_bytes()));
            bytes.extend(of(arm).flat_map(|row| row.digest.to_le_bytes()));
            for &metric in Metric::ALL {
                bytes.extend(of(arm).flat_map(|row| row.get(metric).to_le_bytes()));
            }
        }
        bytes.extend((0..arms).flat_map(of).map(|row| told(row).len() as u8));
        let margins = (0..arms).flat_map(of).flat_map(told);
        bytes.extend(margins.flat_map(|margin| margin.to_le_bytes()));
        bytes
    }
}

/// The margins of a game that have room in a block: no game lasts nearly as long.
fn told(row: &GameRow) -> &[i16] {
    &row.margins[..row.margins.len().min(u8::MAX.into())]
}

/// Where things are in the bytes of a block.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    /// Where the games of the first arm begin.
    start: u32,
    /// Games of each arm.
    counts: Box<[u8]>,
    /// Margins of each arm, over all its games.
    margins: Box<[u32]>,
}

/// What stands in a row of numbers.
#[derive(Clone, Copy)]
pub(super) enum Numbers {
    Seeds,
    Digests,
    Values(Metric),
}

impl Shape {
    /// Reads shape and faults of a block; `None` when the bytes are no block of so many arms.
    pub(super) fn of(bytes: &[u8], arms: usize) -> Option<(Shape, Vec<StoppedArm>)> {
        let (length, rest) = bytes.split_first_chunk::<4>()?;
        let (faults, rest) = rest.split_at_checked(u32::from_le_bytes(*length) as usize)?;
        let (counts, games) = rest.split_at_checked(arms)?;
        let start = (bytes.len() - games.len()) as u32;
        let mut shape = Shape { start, counts: counts.into(), margins: [].into() };
        shape.margins = (0..arms)
            .map(|arm| {
                let lengths = shape.lengths(arm);
                let lengths = bytes.get(lengths.start as usize..lengths.end as usize)?;
                Some(lengths.iter().map(|&length| u32::from(length)).sum())
            })
            .collect::<Option<_>>()?;
        let whole = shape.margins(arms).start == bytes.len() as u64;
        whole.then_some((shape, serde_json::from_slice(faults).ok()?))
    }

    /// Games of an arm.
    pub(super) fn count(&self, arm: usize) -> usize {
        self.counts.get(arm).map_or(0, |&count| count.into())
    }

    /// Games of the arms before an arm.
    fn before(&self, arm: usize) -> usize {
        (0..arm).map(|arm| self.count(arm)).sum()
    }

    /// The bytes of a row of numbers of one arm, counted from the start of the block.
    pub(super) fn range(&self, arm: usize, what: Numbers) -> Range<u64> {
        let rows = match what {
            Numbers::Seeds => 0,
            Numbers::Digests => 1,
            Numbers::Values(metric) => 2 + metric as usize,
        };
        let (before, count) = (self.before(arm), self.count(arm));
        let start = self.start as usize + WIDE * ((2 + Metric::ALL.len()) * before + rows * count);
        start as u64..(start + WIDE * count) as u64
    }

    /// The bytes that say how many margins each game of an arm has.
    pub(super) fn lengths(&self, arm: usize) -> Range<u64> {
        let all = self.counts.len();
        let start = self.range(all, Numbers::Seeds).start + self.before(arm) as u64;
        start..start + self.count(arm) as u64
    }

    /// The bytes of the margins of an arm.
    pub(super) fn margins(&self, arm: usize) -> Range<u64> {
        let all = self.counts.len();
        let before: u32 = self.margins[..arm].iter().sum();
        let start = self.lengths(all).start + MARGIN as u64 * u64::from(before);
        let own = self.margins.get(arm).copied().unwrap_or(0);
        start..start + MARGIN as u64 * u64::from(own)
    }
}

/// The numbers of a row of bytes.
pub(super) fn numbers(bytes: &[u8]) -> impl Iterator<Item = u64> + '_ {
    bytes.as_chunks::<WIDE>().0.iter().map(|number| u64::from_le_bytes(*number))
}

/// The margins of each game of so many each, from the bytes of all of them.
pub(super) fn margins(lengths: &[u8], bytes: &[u8]) -> Vec<Vec<i16>> {
    let mut all = bytes.as_chunks::<MARGIN>().0.iter().map(|margin| i16::from_le_bytes(*margin));
    lengths.iter().map(|&length| all.by_ref().take(length.into()).collect()).collect()
}
