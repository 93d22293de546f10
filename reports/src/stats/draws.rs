//! Where does the chance of a resampled answer come from?
//!
//! From SplitMix64 (Steele, Lea & Flood 2014, Proceedings of OOPSLA, 453-472), as the luck of a game
//! does: one stream for each resample, keyed by the seed that the caller gives and the number of the
//! resample. So an answer is the same every time, and in whatever order resamples are made.

use std::convert::Infallible;

use rand::TryRng;

const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// The output function of SplitMix64.
fn finalise(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A stream of random numbers that library samplers can read (Steele, Lea & Flood 2014).
#[derive(Clone, Debug)]
pub struct Draws(u64);

impl Draws {
    /// SplitMix64 started from `seed`, as published.
    pub fn new(seed: u64) -> Draws {
        Draws(seed)
    }

    /// The stream of number `nth` under `seed`.
    pub fn keyed(seed: u64, nth: u64) -> Draws {
        Draws(finalise(finalise(seed).wrapping_add(nth.wrapping_mul(GOLDEN))))
    }

    /// The next 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GOLDEN);
        finalise(self.0)
    }

    /// A number from 0 to `below` - 1: the high half of a multiplication, off by less than one part
    /// in 2^40 for the counts of games.
    pub(super) fn below(&mut self, below: usize) -> usize {
        ((u128::from(self.bits()) * below as u128) >> 64) as usize
    }
}

impl TryRng for Draws {
    type Error = Infallible;

    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        Ok((self.bits() >> 32) as u32)
    }

    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        Ok(self.bits())
    }

    fn try_fill_bytes(&mut self, to: &mut [u8]) -> Result<(), Infallible> {
        for chunk in to.chunks_mut(8) {
            chunk.copy_from_slice(&self.bits().to_le_bytes()[..chunk.len()]);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use rand::Rng;

    use super::*;

    #[test]
    fn streams_repeat_and_differ_by_seed_and_number() {
        let first = |seed, nth| Draws::keyed(seed, nth).bits();
        assert_eq!(first(7, 1), first(7, 1));
        let all = [first(7, 1), first(7, 2), first(8, 1), first(1, 7)];
        assert!((0..4).all(|n| !all[n + 1..].contains(&all[n])), "{all:?}");
    }

    #[test]
    fn a_library_sampler_reads_the_same_numbers() {
        let (mut ours, mut theirs) = (Draws::new(3), Draws::new(3));
        assert_eq!(theirs.next_u64(), ours.bits());
        let mut bytes = [0; 11];
        theirs.fill_bytes(&mut bytes);
        assert_eq!(bytes[..8], ours.bits().to_le_bytes());
    }

    #[test]
    fn every_number_below_comes_about_equally_often() {
        let mut draws = Draws::new(5);
        let mut counts = [0_u32; 6];
        (0..60_000).for_each(|_| counts[draws.below(6)] += 1);
        // Chi-squared with 5 degrees of freedom exceeds 20.5 once in a thousand seeds.
        let chi: f64 = counts.iter().map(|c| (f64::from(*c) - 1e4).powi(2) / 1e4).sum();
        assert!(chi < 20.5, "{counts:?}");
    }
}
