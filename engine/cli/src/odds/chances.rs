//! What may come, each with its exact chance.

use std::collections::BTreeMap;

use num_traits::{One, Zero};

use super::fraction::{Fraction, whole};

/// A distribution over finitely many outcomes; its chances add up to 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Chances<T>(BTreeMap<T, Fraction>);

impl<T: Ord + Clone> Chances<T> {
    /// What is certain.
    pub(crate) fn certain(outcome: T) -> Chances<T> {
        Chances(BTreeMap::from([(outcome, Fraction::one())]))
    }

    /// Outcomes with their chances; those of equal outcomes are added, impossible ones left out.
    pub(crate) fn of(outcomes: impl IntoIterator<Item = (T, Fraction)>) -> Chances<T> {
        let mut chances = BTreeMap::new();
        for (outcome, chance) in outcomes.into_iter().filter(|(_, chance)| !chance.is_zero()) {
            *chances.entry(outcome).or_insert_with(Fraction::zero) += chance;
        }
        Chances(chances)
    }

    /// What comes of an outcome when more is rolled for each: the law of total probability
    /// (Feller, An Introduction to Probability Theory and Its Applications, vol. 1, 3rd ed. 1968,
    /// chapter V, section 1).
    pub(crate) fn then<U: Ord + Clone>(&self, next: impl Fn(&T) -> Chances<U>) -> Chances<U> {
        let paths = self.0.iter().flat_map(|(outcome, chance)| {
            let weigh = move |(end, after): (U, Fraction)| (end, chance * after);
            next(outcome).0.into_iter().map(weigh)
        });
        Chances::of(paths)
    }

    /// What comes of an outcome without any more luck.
    pub(crate) fn map<U: Ord + Clone>(&self, become_: impl Fn(&T) -> U) -> Chances<U> {
        Chances::of(self.0.iter().map(|(outcome, chance)| (become_(outcome), chance.clone())))
    }

    /// The chance of all outcomes of a kind together.
    pub(crate) fn chance(&self, of: impl Fn(&T) -> bool) -> Fraction {
        self.0.iter().filter(|(outcome, _)| of(outcome)).map(|(_, chance)| chance).sum()
    }

    /// The mean of a number that each outcome has.
    pub(crate) fn mean(&self, number: impl Fn(&T) -> i32) -> Fraction {
        self.0.iter().map(|(outcome, chance)| whole(number(outcome)) * chance).sum()
    }

    /// Outcomes in order, each with its chance.
    pub(crate) fn outcomes(&self) -> impl Iterator<Item = (&T, &Fraction)> {
        self.0.iter()
    }
}

impl Chances<i32> {
    /// The largest number that is reached with at least this chance, or the least of all.
    pub(crate) fn reached(&self, with: &Fraction) -> i32 {
        let surely = |&&number: &&i32| self.chance(|&other| other >= number) >= *with;
        let least = self.0.keys().next().copied().unwrap_or(0);
        self.0.keys().rfind(surely).copied().unwrap_or(least)
    }
}

#[cfg(test)]
mod tests {
    use super::super::fraction::fraction;
    use super::*;

    fn coin() -> Chances<i32> {
        Chances::of([(0, fraction(1, 2)), (1, fraction(1, 2)), (2, fraction(0, 1))])
    }

    #[test]
    fn paths_to_the_same_end_are_added() {
        let two = coin().then(|&one| coin().map(|&other| one + other));
        let quarters = [(0, fraction(1, 4)), (1, fraction(1, 2)), (2, fraction(1, 4))];
        assert_eq!(two, Chances::of(quarters));
        assert_eq!((two.mean(|&n| n), two.chance(|&n| n > 0)), (whole(1), fraction(3, 4)));
    }

    #[test]
    fn what_is_reached_with_a_chance_is_the_largest_such_number() {
        let two = coin().then(|&one| coin().map(|&other| one + other));
        let reached = |over, under| two.reached(&fraction(over, under));
        assert_eq!([reached(9, 10), reached(3, 4), reached(1, 2), reached(1, 4)], [0, 1, 1, 2]);
    }
}
