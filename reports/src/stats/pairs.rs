//! How often does each pair of values occur?
//!
//! Most of what games are measured by is whole numbers in a small range, so that 100,000 pairs of
//! reference and arm are a few hundred different ones. A statistic that reads counts of different
//! pairs need not look at 100,000 numbers each time it is resampled.

use super::stratified::collapsed;

/// Pairs of values by stratum, each different pair held once.
#[derive(Clone, Debug, PartialEq)]
pub struct CountedPairs {
    /// The different pairs, in order of value.
    different: Vec<(f64, f64)>,
    /// For each stratum with a pair, the number of each of its pairs in the list, in the order
    /// given.
    strata: Vec<Vec<usize>>,
}

impl CountedPairs {
    /// Counts the pairs of `strata`. A stratum of one pair has no spread of its own and is joined
    /// with another, as in [`stratified_mean`](super::stratified_mean) (Cochran 1977, Sampling
    /// Techniques, 3rd edition, section 5A.12).
    pub fn of(strata: &[Vec<(f64, f64)>]) -> CountedPairs {
        let mut different: Vec<(f64, f64)> = strata.concat();
        different.sort_by(order);
        different.dedup_by(|a, b| order(a, b).is_eq());
        let number = |pair: &(f64, f64)| different.partition_point(|d| order(d, pair).is_lt());
        let numbers = |s: &Vec<(f64, f64)>| s.iter().map(number).collect::<Vec<usize>>();
        let strata = collapsed(&strata.iter().map(numbers).collect::<Vec<_>>()).into_owned();
        CountedPairs { different, strata }
    }

    /// The different pairs, in order of value. A statistic has a weight for each.
    pub fn different(&self) -> &[(f64, f64)] {
        &self.different
    }

    /// All pairs.
    pub fn count(&self) -> usize {
        self.strata.iter().map(Vec::len).sum()
    }

    /// How often each different pair occurs: the weights of the data themselves.
    pub fn weights(&self) -> Vec<f64> {
        let mut weights = vec![0.0; self.different.len()];
        self.strata.iter().flatten().for_each(|&n| weights[n] += 1.0);
        weights
    }

    pub(super) fn strata(&self) -> &[Vec<usize>] {
        &self.strata
    }
}

fn order(a: &(f64, f64), b: &(f64, f64)) -> std::cmp::Ordering {
    a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_pairs_are_held_once() {
        let counted = CountedPairs::of(&[
            vec![(7.0, 6.0), (5.0, 5.0), (7.0, 6.0)],
            vec![(5.0, 5.0), (5.0, 4.0)],
            vec![],
        ]);
        assert_eq!(counted.different(), [(5.0, 4.0), (5.0, 5.0), (7.0, 6.0)]);
        assert_eq!(counted.strata(), [vec![2, 1, 2], vec![1, 0]]);
        assert_eq!((counted.weights(), counted.count()), (vec![1.0, 2.0, 2.0], 5));
    }

    #[test]
    fn a_lone_pair_joins_another_stratum() {
        let lone = CountedPairs::of(&[vec![(1.0, 1.0)], vec![(2.0, 2.0), (3.0, 3.0)]]);
        assert_eq!(lone.strata(), [vec![1, 2, 0]]);
        let two = CountedPairs::of(&[vec![(1.0, 1.0)], vec![(2.0, 2.0)]]);
        assert_eq!(two.strata(), [vec![0, 1]]);
        assert_eq!(CountedPairs::of(&[vec![]]).count(), 0);
    }
}
