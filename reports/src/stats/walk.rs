//! How likely is it that a walk is still within its limits?
//!
//! The sum of what was seen moves like a random walk in steps of the games between looks; its
//! density over the points still within is carried from look to look (Armitage, McPherson & Rowe
//! 1969, Journal of the Royal Statistical Society A 132:235-244; Jennison & Turnbull 2000, Group
//! Sequential Methods, section 19.2).

use statrs::distribution::{Continuous, Normal};

use super::normal_tail;
use super::quadrature::points;

/// Steps of the walk beyond which nothing is left to integrate: a chance below 1e-20.
const REACH: f64 = 9.5;
/// A look that may spend less than this is passed over; what it would spend stays for the next.
const LEAST: f64 = 1e-15;

/// A walk that has stayed within its limits: points of its sum with the chance they stand for.
pub(super) struct Walk {
    share: f64,
    points: Vec<(f64, f64)>,
}

impl Walk {
    /// Before the first game.
    pub(super) fn start() -> Walk {
        Walk { share: 0.0, points: vec![(0.0, 1.0)] }
    }

    /// The chance that the sum at `share` is above `high`.
    pub(super) fn above(&self, share: f64, high: f64, drift: f64) -> f64 {
        let gap = share - self.share;
        let tail = |(sum, chance): &(f64, f64)| {
            chance * normal_tail((high - sum - drift * gap) / gap.sqrt())
        };
        self.points.iter().map(tail).sum()
    }

    /// The chance that the sum at `share` is below `low`.
    pub(super) fn below(&self, share: f64, low: f64, drift: f64) -> f64 {
        let gap = share - self.share;
        let tail = |(sum, chance): &(f64, f64)| {
            chance * normal_tail((sum + drift * gap - low) / gap.sqrt())
        };
        self.points.iter().map(tail).sum()
    }

    /// The deviate at `share` beyond which the chance is `tail`.
    pub(super) fn limit(&self, share: f64, tail: f64) -> f64 {
        if tail < LEAST {
            return f64::INFINITY;
        }
        root(-REACH, REACH, |z| self.above(share, z * share.sqrt(), 0.0) - tail)
    }

    /// The walk that is still between the limits at `share`, ready for a next step of that length.
    pub(super) fn carried(
        &self,
        share: f64,
        (low, high): (f64, f64),
        drift: f64,
        next: f64,
    ) -> Walk {
        let gap = share - self.share;
        let reach = REACH * share.sqrt();
        let (low, high) = (low.max(drift * share - reach), high.min(drift * share + reach));
        if low >= high {
            return Walk { share, points: vec![] };
        }
        let step = Normal::new(drift * gap, gap.sqrt()).expect("a gap is above zero");
        // Points lie in rising order, and only those near enough can have come here.
        let near = REACH * gap.sqrt();
        let density = |x: f64| -> f64 {
            let from = x - drift * gap;
            let first = self.points.partition_point(|(sum, _)| *sum < from - near);
            let last = self.points.partition_point(|(sum, _)| *sum <= from + near);
            let here = self.points[first..last].iter();
            here.map(|(sum, chance)| chance * step.pdf(x - sum)).sum()
        };
        let panel = 3.0 * gap.min(next).sqrt();
        let points = points(low, high, panel).into_iter();
        Walk { share, points: points.map(|(x, weight)| (x, weight * density(x))).collect() }
    }
}

/// The zero of a falling function between `low` and `high`, by halving; an end when there is none.
pub(super) fn root(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..60 {
        let middle = low + (high - low) / 2.0;
        if f(middle) > 0.0 { low = middle } else { high = middle }
    }
    low + (high - low) / 2.0
}

#[cfg(test)]
mod tests {
    //! The library's normal tail is good to eleven digits.

    use super::*;

    #[test]
    fn a_walk_without_limits_is_a_normal_number() {
        let free = (f64::NEG_INFINITY, f64::INFINITY);
        let walk = Walk::start().carried(0.2, free, 1.5, 0.1).carried(0.3, free, 1.5, 0.7);
        let (above, below) = (walk.above(1.0, 2.5, 1.5), walk.below(1.0, 0.3, 1.5));
        assert!((above - normal_tail(1.0)).abs() < 1e-10, "{above}");
        assert!((below - normal_tail(1.2)).abs() < 1e-10, "{below}");
    }

    #[test]
    fn a_walk_stopped_at_zero_is_half_as_likely() {
        // Above at both of two equal looks: a quarter and an eighth for a correlation of 0.7071.
        let walk = Walk::start().carried(0.5, (0.0, f64::INFINITY), 0.0, 0.5);
        assert!((walk.above(1.0, 0.0, 0.0) - 0.375).abs() < 1e-10);
    }

    #[test]
    fn a_limit_leaves_the_tail_asked_for() {
        let start = Walk::start();
        assert!((start.limit(0.3, 0.025) - 1.959_963_984_5).abs() < 1e-9);
        assert_eq!(start.limit(0.3, 1e-16), f64::INFINITY);
    }
}
