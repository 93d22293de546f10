//! Whether some shards together are a whole run.

use std::fmt;
use std::ops::Range;

/// Why some shards are not together a whole run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CoverError {
    /// Blocks that no shard holds, in order.
    Gaps(Vec<Range<usize>>),
    /// Two shards, by their places, that share blocks and are not of the same ones.
    Overlap(usize, usize),
    /// Two shards, by their places, with different results for the same blocks.
    Differ(usize, usize),
}

impl fmt::Display for CoverError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CoverError::Gaps(gaps) => {
                let gaps: Vec<String> =
                    gaps.iter().map(|gap| format!("{}..{}", gap.start, gap.end)).collect();
                write!(f, "no shard holds the blocks {}", gaps.join(", "))
            }
            CoverError::Overlap(..) => f.write_str("two shards share blocks"),
            CoverError::Differ(..) => f.write_str("two shards differ on the same blocks"),
        }
    }
}

/// The places of shards that are together all of so many blocks, in the order of the blocks, each
/// told by its blocks and the seal of its games. Of several that hold the same, one is taken.
///
/// # Errors
/// What is wrong, the gravest first: results that differ, then blocks that overlap, then gaps.
pub fn cover(shards: &[(Range<usize>, &str)], blocks: usize) -> Result<Vec<usize>, CoverError> {
    let key = |place: &usize| (shards[*place].0.start, shards[*place].0.end);
    let mut order: Vec<usize> = (0..shards.len()).collect();
    order.sort_by_key(key);
    for pair in order.windows(2) {
        let [one, other] = [&shards[pair[0]], &shards[pair[1]]];
        if one.0 == other.0 && one.1 != other.1 {
            return Err(CoverError::Differ(pair[0], pair[1]));
        }
    }
    order.dedup_by_key(|place| key(place));
    for pair in order.windows(2) {
        if shards[pair[1]].0.start < shards[pair[0]].0.end {
            return Err(CoverError::Overlap(pair[0], pair[1]));
        }
    }
    let parts: Vec<Range<usize>> = order.iter().map(|&place| shards[place].0.clone()).collect();
    let gaps = uncovered(&parts, blocks);
    if gaps.is_empty() { Ok(order) } else { Err(CoverError::Gaps(gaps)) }
}

/// The blocks, of so many, that are in none of these parts, in order.
pub fn uncovered(parts: &[Range<usize>], blocks: usize) -> Vec<Range<usize>> {
    let mut parts: Vec<&Range<usize>> = parts.iter().collect();
    parts.sort_by_key(|part| part.start);
    let (mut end, mut gaps) = (0, vec![]);
    for part in parts {
        if part.start > end {
            gaps.push(end..part.start);
        }
        end = end.max(part.end);
    }
    if end < blocks {
        gaps.push(end..blocks);
    }
    gaps
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shards_in_any_order_are_put_in_that_of_their_blocks() {
        let shards = [(5..9, "b"), (9..10, "c"), (0..5, "a"), (5..9, "b")];
        assert_eq!(cover(&shards, 10).map(|order| order.len()), Ok(3));
        assert_eq!(cover(&shards, 10).map(|order| order[0]), Ok(2));
    }

    #[test]
    fn what_is_not_whole_is_told_by_kind() {
        let gaps = |shards: &[(Range<usize>, &str)]| cover(shards, 10);
        assert_eq!(cover(&[], 0), Ok(vec![]));
        assert_eq!(gaps(&[(2..4, "a"), (6..10, "b")]), Err(CoverError::Gaps(vec![0..2, 4..6])));
        assert_eq!(gaps(&[(0..6, "a"), (5..10, "b")]), Err(CoverError::Overlap(0, 1)));
        assert_eq!(gaps(&[(0..6, "a"), (0..10, "b")]), Err(CoverError::Overlap(0, 1)));
        assert_eq!(gaps(&[(0..6, "a"), (6..10, "b"), (0..6, "c")]), Err(CoverError::Differ(0, 2)));
    }

    #[test]
    fn what_is_graver_is_told_before_a_gap() {
        assert_eq!(cover(&[(3..4, "a"), (3..4, "b")], 10), Err(CoverError::Differ(0, 1)));
        assert_eq!(cover(&[(3..5, "a"), (4..6, "b")], 10), Err(CoverError::Overlap(0, 1)));
    }
}
