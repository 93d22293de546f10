//! Dice: totals, and how many of some reach a number.

use num_traits::Zero;

use super::chances::Chances;
use super::fraction::{Fraction, fraction};

/// One die.
pub(crate) fn die() -> Chances<i32> {
    Chances::of((1..=6).map(|face| (face, fraction(1, 6))))
}

/// The total of so many dice, by convolution (Feller, An Introduction to Probability Theory and Its
/// Applications, vol. 1, 3rd ed. 1968, chapter XI, section 2).
pub(crate) fn total(dice: i32) -> Chances<i32> {
    (0..dice).fold(Chances::certain(0), |sum, _| sum.then(|&sum| die().map(|&face| sum + face)))
}

/// The chance that a die reaches `needed`.
pub(crate) fn one_reaches(needed: i32) -> Fraction {
    die().chance(|&face| face >= needed)
}

/// The chance that two dice together reach `needed`.
pub(crate) fn two_reach(needed: i32) -> Fraction {
    total(2).chance(|&rolled| rolled >= needed)
}

/// How many of some dice reach `needed`: the binomial distribution (Feller 1968, chapter VI,
/// section 2).
pub(crate) fn hits(dice: i32, needed: i32) -> Chances<i32> {
    let hit = one_reaches(needed);
    let miss = fraction(1, 1) - &hit;
    let of = |hits: i32| {
        let power = |base: &Fraction, by: i32| num_traits::pow(base.clone(), by.max(0) as usize);
        choose(dice as u64, hits as u64) * power(&hit, hits) * power(&miss, dice - hits)
    };
    Chances::of((0..=dice).map(|n| (n, of(n))))
}

/// Ways to choose `k` of `n` (Feller 1968, chapter II, section 4).
pub(crate) fn choose(n: u64, k: u64) -> Fraction {
    if k > n {
        return Fraction::zero();
    }
    (1..=k.min(n - k)).fold(fraction(1, 1), |ways, i| ways * fraction(n + 1 - i, i))
}

/// Values worked out elsewhere: by exact integers and fractions, not by this program. The laws are
/// textbook matter (Uspensky, Introduction to Mathematical Probability, 1937; Feller 1968), the
/// numbers recomputed; no printed table was at hand.
#[cfg(test)]
mod tests {
    use super::*;

    fn numerators(chances: &Chances<i32>, under: u64) -> Vec<u64> {
        let one = |(_, chance): (&i32, &Fraction)| {
            let ways = chance * fraction(under, 1);
            assert!(ways.is_integer(), "{chance} is not in parts of {under}");
            ways.to_integer().try_into().unwrap()
        };
        chances.outcomes().map(one).collect()
    }

    fn all(chances: &Chances<i32>) -> Fraction {
        chances.chance(|_| true)
    }

    #[test]
    fn totals_of_dice_are_the_known_counts() {
        assert_eq!(numerators(&total(2), 36), [1, 2, 3, 4, 5, 6, 5, 4, 3, 2, 1]);
        let three = [1, 3, 6, 10, 15, 21, 25, 27, 27, 25, 21, 15, 10, 6, 3, 1];
        assert_eq!(numerators(&total(3), 216), three);
        let four =
            [1, 4, 10, 20, 35, 56, 80, 104, 125, 140, 146, 140, 125, 104, 80, 56, 35, 20, 10, 4, 1];
        assert_eq!(numerators(&total(4), 1_296), four);
        // The middle of twelve dice, and what is to be expected of any number: 7n/2.
        let middle = total(12).chance(|&rolled| rolled == 42);
        assert_eq!(middle, fraction(144_840_476, 2_176_782_336));
        for dice in 0..=12 {
            assert_eq!(all(&total(dice)), fraction(1, 1));
            assert_eq!(total(dice).mean(|&n| n), fraction(7 * dice as u64, 2));
        }
    }

    #[test]
    fn hits_are_binomial() {
        let known: [(i32, i32, &[u64]); 6] = [
            (2, 2, &[1, 10, 25]),
            (4, 3, &[16, 128, 384, 512, 256]),
            (6, 4, &[729, 4374, 10935, 14580, 10935, 4374, 729]),
            (4, 5, &[256, 512, 384, 128, 16]),
            (6, 6, &[15625, 18750, 9375, 2500, 375, 30, 1]),
            (3, 7, &[216]),
        ];
        for (dice, needed, ways) in known {
            assert_eq!(numerators(&hits(dice, needed), 6u64.pow(dice as u32)), ways);
        }
        let one_of_ten = hits(10, 6).chance(|&n| n >= 1);
        assert_eq!(one_of_ten, fraction(50_700_551, 60_466_176));
        for needed in 1..=7 {
            assert_eq!(all(&hits(24, needed)), fraction(1, 1));
        }
    }

    fn best(dice: i32) -> Chances<i32> {
        (1..dice).fold(die(), |best, _| best.then(|&one| die().map(|&face| one.max(face))))
    }

    #[test]
    fn best_and_worst_of_dice_are_the_known_counts() {
        let worst = |dice| best(dice).map(|&face| 7 - face);
        assert_eq!(numerators(&best(2), 36), [1, 3, 5, 7, 9, 11]);
        assert_eq!(numerators(&best(4), 1_296), [1, 15, 65, 175, 369, 671]);
        assert_eq!(numerators(&worst(4), 1_296), [671, 369, 175, 65, 15, 1]);
        let means = [(2, 161, 36, 91, 36), (3, 119, 24, 49, 24), (4, 6797, 1296, 2275, 1296)];
        for (dice, over, under, least_over, least_under) in means {
            assert_eq!(best(dice).mean(|&n| n), fraction(over, under));
            assert_eq!(worst(dice).mean(|&n| n), fraction(least_over, least_under));
        }
    }

    #[test]
    fn opposed_rolls_are_won_as_often_as_known() {
        let beats = |ours: &Chances<i32>, theirs: &Chances<i32>| {
            let lead = ours.then(|&one| theirs.map(|&other| (one - other).signum()));
            [1, 0, -1].map(|sign| lead.chance(|&lead| lead == sign))
        };
        let third = [fraction(55, 216), fraction(1, 6), fraction(125, 216)];
        assert_eq!(beats(&best(1), &best(2)), third);
        let close = [fraction(2183, 7776), fraction(107, 432), fraction(3667, 7776)];
        assert_eq!(beats(&best(2), &best(3)), close);
        assert_eq!(beats(&total(2), &total(2))[1], fraction(73, 648));
        assert_eq!(two_reach(7), fraction(7, 12));
    }
}
