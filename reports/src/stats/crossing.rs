//! At which value of an option does a metric have its target?
//!
//! Off a fitted curve: the values at which the curve's interval holds the target, which is Fieller's
//! answer for a ratio (Fieller 1954, Journal of the Royal Statistical Society B 16:175-185; for doses:
//! Finney 1971, Probit Analysis, 3rd edition, section 4.6, from memory). Without a curve: the values
//! at which the band of all means holds the target (inversion of a simultaneous band, as in
//! calibration: Lieberman, Miller & Hamilton 1967, Biometrika 54:133-145, from memory), the means and
//! the ends of the band joined by straight lines. Both answers may be empty or reach beyond the values
//! tried; they are cut off there and say so.

use super::{Curve, Interval};

/// A range of values that are possible.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Possible {
    /// Its ends, within the values tried.
    pub range: Interval,
    /// Whether it may go on below the least value tried.
    pub open_below: bool,
    /// Whether it may go on above the largest value tried.
    pub open_above: bool,
}

/// Where a curve has its target.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossing {
    /// The values at which it does, within those tried.
    pub at: Vec<f64>,
    /// The values at which it may, rising.
    pub possible: Vec<Possible>,
}

/// Reads a fitted curve backwards between the values `x`, two at least and rising; `reach` is how
/// many standard errors the interval takes. `None` for a target that the scale does not have.
pub fn fieller(curve: &Curve, x: &[f64], target: f64, reach: f64) -> Option<Crossing> {
    let (&first, &last) = (x.first()?, x.last()?);
    let wanted = curve.link.of(target);
    if !wanted.is_finite() {
        return None;
    }
    let (a, b) = (curve.intercept - wanted, curve.slope);
    let [[aa, ab], [_, bb]] = curve.covariance;
    let r = reach * reach;
    // The target is possible where this quadratic is not above zero.
    let [p, q, s] = [b * b - r * bb, 2.0 * (a * b - r * ab), a * a - r * aa];
    let holds = |x: f64| (p * x + q) * x + s <= 0.0;
    let mut ends = vec![first, last];
    ends.extend(roots(p, q, s).into_iter().filter(|root| first < *root && *root < last));
    ends.sort_by(f64::total_cmp);
    let pieces = ends.windows(2).filter(|pair| holds((pair[0] + pair[1]) / 2.0));
    let pieces = pieces.map(|pair| Interval { low: pair[0], high: pair[1] }).collect();
    let at = -a / b;
    let within = at.is_finite() && (first..=last).contains(&at);
    Some(Crossing {
        at: if within { vec![at] } else { vec![] },
        possible: joined(pieces, (first, holds(first)), (last, holds(last))),
    })
}

/// Where `p x^2 + q x + s` is zero.
fn roots(p: f64, q: f64, s: f64) -> Vec<f64> {
    let under = q * q - 4.0 * p * s;
    if under < 0.0 || !under.is_finite() {
        return vec![];
    }
    // The larger one first, so that neither loses its digits (Press et al., section 5.6).
    let half = -0.5 * (q + under.sqrt().copysign(q));
    [half / p, s / half].into_iter().filter(|root| root.is_finite()).collect()
}

/// Reads means and their band backwards between the values `x`, which rise.
pub fn band_crossing(x: &[f64], means: &[f64], band: &[Interval], target: f64) -> Crossing {
    let mut at: Vec<f64> = Vec::new();
    let mut pieces = Vec::new();
    for n in 1..x.len().min(means.len()).min(band.len()) {
        let step = (x[n - 1], x[n]);
        at.extend(hit(step, (means[n - 1] - target, means[n] - target)));
        let low = below(step, (band[n - 1].low - target, band[n].low - target));
        let high = below(step, (target - band[n - 1].high, target - band[n].high));
        if let (Some(low), Some(high)) = (low, high) {
            let both = Interval { low: low.low.max(high.low), high: low.high.min(high.high) };
            pieces.extend((both.low <= both.high).then_some(both));
        }
    }
    at.dedup();
    let holds = |band: Option<&Interval>| {
        band.is_some_and(|band| band.low <= target && target <= band.high)
    };
    let [first, last] = [x.first(), x.last()].map(|x| x.copied().unwrap_or_default());
    let possible = joined(pieces, (first, holds(band.first())), (last, holds(band.last())));
    Crossing { at, possible }
}

/// Where a straight line between two ends of a step is zero.
fn hit((from, to): (f64, f64), (a, b): (f64, f64)) -> Option<f64> {
    let crosses = a == 0.0 || b == 0.0 || (a < 0.0) != (b < 0.0);
    let share = if a == b { 0.0 } else { a / (a - b) };
    crosses.then_some(from + share * (to - from))
}

/// Where such a line is not above zero.
fn below((from, to): (f64, f64), (a, b): (f64, f64)) -> Option<Interval> {
    let at = || from + (to - from) * (a / (a - b));
    match (a <= 0.0, b <= 0.0) {
        (true, true) => Some(Interval { low: from, high: to }),
        (true, false) => Some(Interval { low: from, high: at() }),
        (false, true) => Some(Interval { low: at(), high: to }),
        (false, false) => None,
    }
}

/// Pieces that touch made one, with what is known at either end of the values tried.
fn joined(pieces: Vec<Interval>, first: (f64, bool), last: (f64, bool)) -> Vec<Possible> {
    let mut possible: Vec<Possible> = Vec::new();
    for range in pieces {
        match possible.last_mut() {
            Some(before) if before.range.high >= range.low => before.range.high = range.high,
            _ => possible.push(Possible { range, open_below: false, open_above: false }),
        }
    }
    for found in &mut possible {
        found.open_below = first.1 && found.range.low <= first.0;
        found.open_above = last.1 && found.range.high >= last.0;
    }
    possible
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::Link;

    fn curve(intercept: f64, slope: f64, covariance: [[f64; 2]; 2]) -> Curve {
        Curve { link: Link::Plain, intercept, slope, covariance, fitted: vec![], lack: None }
    }

    fn band(ends: &[(f64, f64)]) -> Vec<Interval> {
        ends.iter().map(|&(low, high)| Interval { low, high }).collect()
    }

    #[test]
    fn the_ends_are_where_the_interval_of_the_curve_meets_the_target() {
        let line = curve(-3.0, 1.0, [[0.2, -0.03], [-0.03, 0.01]]);
        let found = fieller(&line, &[0.0, 6.0], 0.0, 2.0).unwrap();
        assert_eq!(found.at, [3.0]);
        for x in [found.possible[0].range.low, found.possible[0].range.high] {
            let variance = 0.2 - 0.06 * x + 0.01 * x * x;
            assert!(((x - 3.0).abs() - 2.0 * f64::sqrt(variance)).abs() < 1e-12, "{x}");
        }
        assert!(!found.possible[0].open_below && !found.possible[0].open_above);
    }

    #[test]
    fn a_flat_curve_leaves_everything_possible_and_a_far_one_nothing() {
        let flat = curve(0.1, 0.0, [[0.2, 0.0], [0.0, 0.01]]);
        let everywhere = fieller(&flat, &[0.0, 6.0], 0.0, 2.0).unwrap();
        assert_eq!(everywhere.at, Vec::<f64>::new());
        let [all] = everywhere.possible[..] else { panic!("{everywhere:?}") };
        assert_eq!((all.range, all.open_below), (Interval { low: 0.0, high: 6.0 }, true));
        assert!(all.open_above);
        let far = fieller(&curve(9.0, 0.1, [[0.2, 0.0], [0.0, 0.0]]), &[0.0, 6.0], 0.0, 2.0);
        assert_eq!(far, Some(Crossing { at: vec![], possible: vec![] }));
    }

    #[test]
    fn a_target_beyond_all_shares_has_no_answer() {
        let logistic = Curve { link: Link::LogOdds, ..curve(0.0, 1.0, [[0.1, 0.0], [0.0, 0.1]]) };
        assert_eq!(fieller(&logistic, &[0.0, 1.0], 1.0, 2.0), None);
        assert_eq!(fieller(&logistic, &[0.0, 1.0], 0.5, 2.0).unwrap().at, [0.0]);
    }

    #[test]
    fn a_band_is_read_by_its_ends() {
        let ends = band(&[(0.0, 2.0), (2.0, 4.0), (4.0, 6.0)]);
        let found = band_crossing(&[1.0, 2.0, 4.0], &[1.0, 3.0, 5.0], &ends, 3.0);
        assert_eq!(found.at, [2.0]);
        // The upper end meets 3 at 1.5, the lower one at 3.
        assert_eq!(found.possible.len(), 1);
        assert_eq!(found.possible[0].range, Interval { low: 1.5, high: 3.0 });
    }

    #[test]
    fn a_curve_that_turns_crosses_twice() {
        let ends = band(&[(-0.1, 0.1), (0.9, 1.1), (-0.1, 0.1)]);
        let found = band_crossing(&[0.0, 1.0, 2.0], &[0.0, 1.0, 0.0], &ends, 0.5);
        assert_eq!((found.at, found.possible.len()), (vec![0.5, 1.5], 2));
        let beyond = band_crossing(&[0.0, 1.0, 2.0], &[0.0, 1.0, 0.0], &ends, 5.0);
        assert_eq!(beyond, Crossing { at: vec![], possible: vec![] });
        let start = band_crossing(&[0.0, 1.0, 2.0], &[0.0, 1.0, 0.0], &ends, 0.05);
        assert!(start.possible[0].open_below && start.possible[1].open_above);
    }

    #[test]
    fn a_single_value_crosses_nothing() {
        let found = band_crossing(&[1.0], &[1.0], &band(&[(0.0, 2.0)]), 1.0);
        assert_eq!(found, Crossing { at: vec![], possible: vec![] });
    }
}
