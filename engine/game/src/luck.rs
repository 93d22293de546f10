//! Keyed luck: every random number of a game is named by what it is for.
//!
//! A roll's [`Stream`] is SplitMix64 (Steele, Lea and Flood 2014) seeded with a key mixed from the
//! game's seed, the purpose of the roll, the turn, who rolls, and how many such rolls that one has
//! made this turn. So a rule that rolls more dice in one place leaves all other dice as they were.
//! One draw makes one die, by multiplication and without rejection: nothing falls out of step.

use std::convert::Infallible;

use rand::TryRng;

const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// The output function of SplitMix64: a bijection of 64-bit words that mixes all bits.
pub const fn finalise(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// What a roll is for. The numbers are part of every ticket's meaning: never reuse one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Purpose {
    /// Places of markers at the start.
    Setup = 1,
    /// Order of the deck.
    Deck = 2,
    /// Move dice.
    Move = 3,
    /// Spotting dice.
    Spot = 4,
    /// Dice to hit.
    Hit = 5,
    /// Dice for the effect of hits.
    Effect = 6,
    /// Whether a leader is hit.
    LeaderHit = 7,
    /// Tests of groups.
    GroupTest = 8,
    /// Tests of sides.
    SideTest = 9,
    /// Dice rolled by event hooks.
    Script = 10,
    /// A player's own choice among equals; not a rule.
    Choice = 11,
    /// Whether armour holds, and what happens when it does not.
    Armour = 12,
    /// Sticking in the ground and getting free.
    Bog = 13,
    /// Mines.
    Mine = 14,
    /// Dice of close assault.
    Assault = 15,
    /// Where the shells of a battery fall.
    Scatter = 16,
    /// Whether and where reserves come.
    Reserve = 17,
}

impl Purpose {
    /// One more than the highest purpose.
    pub const COUNT: usize = 18;
}

/// The seed of game number `game` in scenario number `scenario` of a run: independent of threads,
/// arms and the order of play.
pub const fn game_seed(run: u64, scenario: u32, game: u32) -> u64 {
    let place = ((scenario as u64) << 32) | game as u64;
    finalise(finalise(run ^ 0x5275_6c65_7368_6966).wrapping_add(place.wrapping_mul(GOLDEN)))
}

/// One stream of random numbers: SplitMix64.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stream {
    state: u64,
}

impl Stream {
    /// SplitMix64 started from `seed`, as published.
    pub const fn new(seed: u64) -> Stream {
        Stream { state: seed }
    }

    /// The stream of one roll. `who` tells apart all that may roll for `purpose` in a turn, `nth`
    /// the rolls that one makes.
    pub const fn keyed(seed: u64, purpose: Purpose, turn: u16, who: u16, nth: u16) -> Stream {
        let place =
            ((purpose as u64) << 48) | ((turn as u64) << 32) | ((who as u64) << 16) | nth as u64;
        Stream { state: finalise(finalise(seed).wrapping_add(place.wrapping_mul(GOLDEN))) }
    }

    /// The next 64 random bits.
    pub const fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(GOLDEN);
        finalise(self.state)
    }

    /// A number from 0 to `below` - 1; the high half of a multiplication, its bias below 2^-58 for
    /// every `below` a game uses.
    pub const fn below(&mut self, below: u32) -> u32 {
        ((self.next() as u128 * below as u128) >> 64) as u32
    }

    /// One six-sided die.
    pub const fn die(&mut self) -> u8 {
        self.below(6) as u8 + 1
    }

    /// The sum of `count` six-sided dice.
    pub const fn dice(&mut self, count: u8) -> u16 {
        let mut sum = 0;
        let mut rolled = 0;
        while rolled < count {
            sum += self.die() as u16;
            rolled += 1;
        }
        sum
    }
}

/// For library samplers where no result of a game depends on them.
impl TryRng for Stream {
    type Error = Infallible;

    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        Ok((self.next() >> 32) as u32)
    }

    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        Ok(self.next())
    }

    fn try_fill_bytes(&mut self, to: &mut [u8]) -> Result<(), Infallible> {
        for chunk in to.chunks_mut(8) {
            chunk.copy_from_slice(&self.next().to_le_bytes()[..chunk.len()]);
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use rand::Rng;

    use super::*;

    /// First outputs for seed 1234567, as listed with the reference implementation by Vigna.
    #[test]
    fn the_stream_is_splitmix64() {
        let mut stream = Stream::new(1_234_567);
        let expected = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(expected.map(|_| stream.next()), expected);
    }

    #[test]
    fn the_streams_of_different_rolls_differ_and_repeat() {
        let key = |purpose, turn, who, nth| Stream::keyed(7, purpose, turn, who, nth).next();
        let rolls = [
            key(Purpose::Hit, 1, 2, 0),
            key(Purpose::Hit, 1, 2, 1),
            key(Purpose::Hit, 1, 3, 0),
            key(Purpose::Hit, 2, 2, 0),
            key(Purpose::Effect, 1, 2, 0),
        ];
        for (n, roll) in rolls.iter().enumerate() {
            assert!(!rolls[n + 1..].contains(roll));
        }
        assert_eq!(rolls[0], key(Purpose::Hit, 1, 2, 0));
    }

    #[test]
    fn a_library_sampler_reads_the_same_numbers() {
        let (mut ours, mut theirs) = (Stream::new(3), Stream::new(3));
        assert_eq!(theirs.next_u64(), ours.next());
        let mut bytes = [0; 11];
        theirs.fill_bytes(&mut bytes);
        assert_eq!(bytes[..8], ours.next().to_le_bytes());
    }
}
