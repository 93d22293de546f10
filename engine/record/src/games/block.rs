//! One block of games as it comes from play, and as bytes.
//!
//! `FAULTS`, then for each arm how many games it has (one byte), then for each arm its seeds, its
//! digests and each metric in turn: the values of one metric lie together, so that they can be read
//! without the others. Numbers are little-endian. `FAULTS` is a length (4 bytes) and JSON.

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
        bytes
    }
}

/// Where things are in the bytes of a block.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    /// Where the games of the first arm begin.
    start: u32,
    /// Games of each arm.
    counts: Box<[u8]>,
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
        let shape = Shape { start: (bytes.len() - games.len()) as u32, counts: counts.into() };
        let whole = shape.range(arms, Numbers::Seeds).start == bytes.len() as u64;
        whole.then_some((shape, serde_json::from_slice(faults).ok()?))
    }

    /// Games of an arm.
    pub(super) fn count(&self, arm: usize) -> usize {
        self.counts[arm].into()
    }

    /// The bytes of a row of numbers of one arm, counted from the start of the block.
    pub(super) fn range(&self, arm: usize, what: Numbers) -> Range<u64> {
        let rows = match what {
            Numbers::Seeds => 0,
            Numbers::Digests => 1,
            Numbers::Values(metric) => 2 + metric as usize,
        };
        let before: usize = self.counts[..arm].iter().map(|&count| usize::from(count)).sum();
        let count = self.counts.get(arm).map_or(0, |&count| usize::from(count));
        let start = self.start as usize + WIDE * ((2 + Metric::ALL.len()) * before + rows * count);
        start as u64..(start + WIDE * count) as u64
    }
}

/// The numbers of a row of bytes.
pub(super) fn numbers(bytes: &[u8]) -> impl Iterator<Item = u64> + '_ {
    bytes.as_chunks::<WIDE>().0.iter().map(|number| u64::from_le_bytes(*number))
}
