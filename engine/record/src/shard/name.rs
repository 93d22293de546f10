//! Which blocks a shard holds, and how its file is called.

use std::fmt;
use std::io::{self, Read};
use std::ops::Range;
use std::str::FromStr;

use crate::games::Hashed;

/// Digits of a block's number.
const WIDE: usize = 8;
/// Digits of the hash: 64 bits tell damage from none.
const HASH: usize = 16;

/// The name of a shard's file: `shard-00000000-00000061-9d6561f9ed0628bd.parquet` holds the blocks from
/// 0 to 60, and its bytes have that hash.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShardName {
    /// The first block.
    pub first: usize,
    /// The block behind the last.
    pub end: usize,
    /// The first digits of the SHA-256 of the file's bytes.
    hash: String,
}

impl ShardName {
    /// The name of a shard of those blocks whose bytes have that SHA-256, in hexadecimal digits.
    pub(super) fn new(blocks: &Range<usize>, sha256: &str) -> ShardName {
        let hash = sha256[..HASH].to_owned();
        ShardName { first: blocks.start, end: blocks.end, hash }
    }

    /// The blocks it holds.
    pub fn blocks(&self) -> Range<usize> {
        self.first..self.end
    }

    /// Whether these are the bytes of the file.
    ///
    /// # Errors
    /// What reading them says.
    pub fn fits(&self, mut from: impl Read) -> io::Result<bool> {
        let mut hashed = Hashed::new(io::sink());
        io::copy(&mut from, &mut hashed)?;
        Ok(hashed.into_parts().1.starts_with(&self.hash))
    }
}

impl fmt::Display for ShardName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let ShardName { first, end, hash } = self;
        write!(f, "shard-{first:0WIDE$}-{end:0WIDE$}-{hash}.parquet")
    }
}

impl FromStr for ShardName {
    type Err = ();

    fn from_str(name: &str) -> Result<ShardName, ()> {
        let inner = name.strip_prefix("shard-").and_then(|rest| rest.strip_suffix(".parquet"));
        let mut parts = inner.ok_or(())?.split('-');
        let mut number = || parts.next()?.parse().ok();
        let (first, end) = number().zip(number()).ok_or(())?;
        let hash = parts.next().ok_or(())?.to_owned();
        let read = ShardName { first, end, hash };
        // Only what is written as this program writes it: else two names might mean one shard.
        if read.to_string() == name && read.hash.len() == HASH && first < end {
            Ok(read)
        } else {
            Err(())
        }
    }
}

/// The blocks of part `k` of `n`, of so many blocks: all parts together are all blocks, in order, and
/// differ by one block at most. A part is empty when there are more parts than blocks.
pub fn share(k: u64, n: u64, blocks: usize) -> Range<usize> {
    let border = |k: u64| (u128::from(k) * blocks as u128 / u128::from(n)) as usize;
    border(k)..border(k + 1)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::games::sha256;

    #[test]
    fn a_name_comes_back_and_tells_its_bytes() {
        let name = ShardName::new(&(3..61), &sha256(b"games"));
        let fits = |bytes: &[u8]| name.fits(bytes).unwrap();
        let text = name.to_string();
        assert!(
            text.starts_with("shard-00000003-00000061-") && text.ends_with(".parquet"),
            "{text}"
        );
        assert_eq!(text.parse(), Ok(name.clone()));
        assert!(fits(b"games") && !fits(b"gamez"));
    }

    #[test]
    fn other_names_are_none() {
        let hash = "9d6561f9ed0628bd";
        for name in [
            "games.parquet".to_owned(),
            format!("shard-00000003-00000061-{hash}.parquet.half"),
            format!("shard-3-61-{hash}.parquet"),
            format!("shard-00000061-00000003-{hash}.parquet"),
            format!("shard-00000003-00000061-{}.parquet", &hash[1..]),
            format!("shard-00000003-00000061-{hash}-2.parquet"),
        ] {
            assert_eq!(name.parse::<ShardName>(), Err(()), "{name}");
        }
    }

    proptest! {
        #[test]
        fn all_parts_are_all_blocks(n in 1..2000_u64, blocks in 0..200_000_usize) {
            let parts: Vec<_> = (0..n).map(|k| share(k, n, blocks)).collect();
            prop_assert_eq!((parts[0].start, parts[parts.len() - 1].end), (0, blocks));
            prop_assert!(parts.windows(2).all(|pair| pair[0].end == pair[1].start));
            let sizes = parts.iter().map(ExactSizeIterator::len);
            prop_assert!(sizes.clone().max().unwrap() - sizes.min().unwrap() <= 1);
        }
    }
}
