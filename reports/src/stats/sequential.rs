//! How far from zero must a result be that was looked at before?
//!
//! Group-sequential tests: results are looked at after given shares of the games, and each look may
//! end the run. The limits follow from the level that a [`Spending`] function allows so far, by
//! recursive numerical integration (Armitage, McPherson & Rowe 1969, Journal of the Royal
//! Statistical Society A 132:235-244; Jennison & Turnbull 2000, Group Sequential Methods, chapter
//! 19), for looks at any shares. The sum of what was seen moves like a random walk whose steps are
//! the games between looks; what is integrated is the chance that it is still within its limits.
//!
//! Limits are given as normal deviates and as nominal levels. A p-value of Student's t is compared
//! with the nominal level (the significance-level approach of Jennison & Turnbull 2000, section
//! 3.8), which is exact in the limit of many games.

use super::walk::{Walk, root};
use super::{Estimate, Interval, Spending, normal_quantile, normal_tail};

/// Which results end a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// Those far above.
    One,
    /// Those far above or below, alike.
    Two,
}

/// The limits of a test at its looks.
#[derive(Clone, Debug, PartialEq)]
pub struct Bounds {
    shares: Vec<f64>,
    z: Vec<f64>,
    spent: Vec<f64>,
    sides: Sides,
}

/// The limits of a test of that `level` that is looked at after `shares` of all games (Lan & DeMets
/// 1983). `None` unless there are looks, their shares rise from above 0 to at most 1, and the level
/// is between 0 and 1. A two-sided test spends half of its level on each side.
pub fn bounds(shares: &[f64], spending: Spending, level: f64, sides: Sides) -> Option<Bounds> {
    if !(are_shares(shares) && level > 0.0 && level < 1.0) {
        return None;
    }
    let both = if sides == Sides::Two { 2.0 } else { 1.0 };
    let (mut walk, mut used) = (Walk::start(), 0.0);
    let (mut z, mut spent) = (Vec::new(), Vec::new());
    for (look, &share) in shares.iter().enumerate() {
        let allowed = spending.spent(level / both, share);
        let limit = walk.limit(share, allowed - used);
        used = if limit.is_finite() { allowed } else { used };
        z.push(limit);
        spent.push(both * used);
        if let Some(next) = shares.get(look + 1) {
            walk = walk.carried(share, inner(limit, share, sides), 0.0, next - share);
        }
    }
    Some(Bounds { shares: shares.to_vec(), z, spent, sides })
}

/// The chance to leave first at each look, below and above, of a walk whose mean deviate after all
/// games is `drift`, with limits `z` (Armitage, McPherson & Rowe 1969). There are as many limits as
/// `shares`, which are as in [`bounds`]; one without a limit is infinite.
pub fn exits(shares: &[f64], z: &[f64], drift: f64, sides: Sides) -> Vec<(f64, f64)> {
    let mut walk = Walk::start();
    let mut left = Vec::with_capacity(shares.len());
    for (look, (&share, &limit)) in shares.iter().zip(z).enumerate() {
        let (low, high) = inner(limit, share, sides);
        left.push((walk.below(share, low, drift), walk.above(share, high, drift)));
        if let Some(next) = shares.get(look + 1) {
            walk = walk.carried(share, (low, high), drift, next - share);
        }
    }
    left
}

/// Whether there are looks and their shares rise from above 0 to at most 1.
fn are_shares(shares: &[f64]) -> bool {
    let within = |share: &f64| *share > 0.0 && *share <= 1.0;
    !shares.is_empty() && shares.iter().all(within) && shares.is_sorted_by(|a, b| a < b)
}

/// Where a walk goes on, as values of the sum.
fn inner(limit: f64, share: f64, sides: Sides) -> (f64, f64) {
    let high = limit * share.sqrt();
    (if sides == Sides::Two { -high } else { f64::NEG_INFINITY }, high)
}

impl Bounds {
    /// Limits that somebody else has set, as normal deviates after `shares` of all games. `None`
    /// unless the shares are as in [`bounds`], with a limit for each.
    pub fn given(shares: &[f64], z: &[f64], sides: Sides) -> Option<Bounds> {
        (are_shares(shares) && shares.len() == z.len()).then(|| {
            let left = exits(shares, z, 0.0, sides);
            let spent = left.iter().scan(0.0, |sum, (below, above)| {
                *sum += below + above;
                Some(*sum)
            });
            Bounds { shares: shares.to_vec(), z: z.to_vec(), spent: spent.collect(), sides }
        })
    }

    /// How many looks there are.
    pub fn looks(&self) -> usize {
        self.shares.len()
    }

    /// The limit at a look as a normal deviate, infinite when the look can end nothing.
    pub fn z(&self, look: usize) -> f64 {
        self.z[look]
    }

    /// The level spent by this look and those before, of both sides.
    pub fn spent(&self, look: usize) -> f64 {
        self.spent[look]
    }

    /// The largest p-value that ends the run at a look; `None` when the look can end nothing.
    pub fn nominal(&self, look: usize) -> Option<f64> {
        let both = if self.sides == Sides::Two { 2.0 } else { 1.0 };
        let z = self.z[look];
        z.is_finite().then(|| both * normal_tail(z))
    }

    /// The confidence of the repeated interval at a look, for an interval of any kind; `None` when
    /// the look can end nothing.
    pub fn confidence(&self, look: usize) -> Option<f64> {
        let both = if self.sides == Sides::Two { 1.0 } else { 2.0 };
        self.nominal(look).map(|nominal| 1.0 - both * nominal)
    }

    /// The repeated confidence interval at a look (Jennison & Turnbull 1989, Journal of the Royal
    /// Statistical Society B 51:305-361): those of all looks together hold the truth with one less
    /// the level, so that it is safe for whatever reason the run ended, and wide for an early end.
    /// `None` when the look can end nothing.
    pub fn interval(&self, look: usize, estimate: &Estimate) -> Option<Interval> {
        self.confidence(look).map(|confidence| estimate.interval(confidence))
    }

    /// The chance of an end on the upper side when the mean deviate after all games is `drift`.
    pub fn power(&self, drift: f64) -> f64 {
        exits(&self.shares, &self.z, drift, self.sides).iter().map(|(_, above)| above).sum()
    }

    /// The share of all games that is played in the mean, when the mean deviate after all games is
    /// `drift` and any end ends the run (Jennison & Turnbull 2000, section 2.3).
    pub fn expected(&self, drift: f64) -> f64 {
        let left = exits(&self.shares, &self.z, drift, self.sides);
        let ends = left.iter().map(|(below, above)| below + above);
        let last = self.shares[self.looks() - 1];
        last - ends.zip(&self.shares).map(|(end, share)| end * (last - share)).sum::<f64>()
    }

    /// The mean deviate after all games that ends the run on the upper side with chance `power`,
    /// above 0.1 and below 1.
    pub fn drift(&self, power: f64) -> f64 {
        root(0.0, 20.0, |drift| power - self.power(drift))
    }

    /// How many times the games of a test without looks the last look must have for the same
    /// `power` (Jennison & Turnbull 2000, section 2.3).
    pub fn inflation(&self, level: f64, power: f64) -> f64 {
        let both = if self.sides == Sides::Two { 2.0 } else { 1.0 };
        let plain = normal_quantile(1.0 - level / both) + normal_quantile(power);
        (self.drift(power) / plain).powi(2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOUBLING: [f64; 7] =
        [1.0 / 64.0, 1.0 / 32.0, 1.0 / 16.0, 1.0 / 8.0, 1.0 / 4.0, 1.0 / 2.0, 1.0];

    #[test]
    fn a_single_look_is_the_plain_test() {
        for spending in [Spending::Late, Spending::Even] {
            let two = bounds(&[1.0], spending, 0.05, Sides::Two).unwrap();
            assert!((two.z(0) - 1.959_963_984_5).abs() < 1e-9 && two.spent(0) == 0.05);
            assert!((two.nominal(0).unwrap() - 0.05).abs() < 1e-12);
            assert!((two.inflation(0.05, 0.8) - 1.0).abs() < 1e-4, "the far tail is all");
            let one = bounds(&[1.0], spending, 0.05, Sides::One).unwrap();
            assert!((one.z(0) - 1.644_853_627).abs() < 1e-9);
            assert!((one.inflation(0.05, 0.8) - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn what_leaves_is_what_was_spent() {
        for shares in [DOUBLING.to_vec(), vec![0.3, 0.31, 0.9, 0.9001, 1.0], vec![0.001, 0.4]] {
            for (spending, sides) in [
                (Spending::Late, Sides::Two),
                (Spending::Even, Sides::Two),
                (Spending::Even, Sides::One),
            ] {
                let bounds = bounds(&shares, spending, 0.05, sides).unwrap();
                let mut sum = 0.0;
                for (look, (below, above)) in
                    exits(&shares, &bounds.z, 0.0, sides).into_iter().enumerate()
                {
                    sum += below + above;
                    assert!((sum - bounds.spent(look)).abs() < 1e-11, "{shares:?} {look}");
                }
            }
        }
    }

    #[test]
    fn a_look_with_nothing_to_spend_ends_nothing() {
        let late = bounds(&DOUBLING, Spending::Late, 0.05, Sides::Two).unwrap();
        assert_eq!((late.z(0), late.nominal(0), late.spent(0)), (f64::INFINITY, None, 0.0));
        let estimate = Estimate { value: 9.0, se: 0.1, df: 9.0, count: 10 };
        assert_eq!(late.interval(0, &estimate), None);
        assert!((late.spent(6) - 0.05).abs() < 1e-15, "nothing is lost");
    }

    #[test]
    fn looks_out_of_order_have_no_limits() {
        for shares in [vec![], vec![0.0, 1.0], vec![0.5, 0.5], vec![0.5, 1.1], vec![f64::NAN]] {
            assert_eq!(bounds(&shares, Spending::Late, 0.05, Sides::Two), None, "{shares:?}");
        }
        assert_eq!(bounds(&[1.0], Spending::Late, 0.0, Sides::Two), None);
    }

    /// What lets Holm's method step down at looks (Maurer & Bretz 2013, Statistics in
    /// Biopharmaceutical Research 5:311-320).
    #[test]
    fn a_larger_level_allows_more_at_every_look() {
        for spending in [Spending::Late, Spending::Even] {
            for shares in [&DOUBLING[..], &[0.2, 0.4, 0.6, 0.8, 1.0], &[0.1, 0.95, 1.0]] {
                let of = |m: f64| bounds(shares, spending, 0.05 / m, Sides::Two).unwrap();
                for m in 1..12 {
                    let (more, less) = (of(f64::from(m)), of(f64::from(m + 1)));
                    for look in 0..shares.len() {
                        assert!(more.nominal(look) >= less.nominal(look), "{m} {look}");
                    }
                }
            }
        }
    }

    #[test]
    fn the_interval_excludes_zero_exactly_when_the_p_value_ends_the_run() {
        let late = bounds(&DOUBLING, Spending::Late, 0.05, Sides::Two).unwrap();
        for look in 4..7 {
            for value in [1.0, 2.0, 2.2, 3.0, 4.4, 5.0] {
                let estimate = Estimate { value, se: 1.0, df: 400.0, count: 401 };
                let interval = late.interval(look, &estimate).unwrap();
                let ends = estimate.p() < late.nominal(look).unwrap();
                assert_eq!(interval.low > 0.0, ends, "{look} {value}");
            }
        }
    }
}
