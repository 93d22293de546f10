//! Where does a curve cross a target, when each of its points is known within limits?
//!
//! The points are the means of a metric at the values of an option; between two of them the curve
//! is straight, as the mean of a coin that decides between the two is. Limits that hold for all
//! points together hold for every point between them too, so the crossings lie where the target is
//! within the limits: an interval by inversion of a simultaneous band (Working & Hotelling 1929,
//! Journal of the American Statistical Association 24:73-85, for the idea; from memory). A curve
//! that is said to rise or to fall shares its limits among its points, which can only narrow them
//! (Robertson, Wright & Dykstra 1988, Order Restricted Statistical Inference, for the idea; from
//! memory).

use ruleshift_record::TuneShape;

use crate::stats::Interval;

/// Limits that also obey the shape; the same limits and `false` when no such curve fits them.
pub(super) fn shaped(limits: &[Interval], shape: TuneShape) -> (Vec<Interval>, bool) {
    let mut narrowed = limits.to_vec();
    if shape == TuneShape::Falling {
        narrowed.reverse();
    }
    if shape != TuneShape::Any {
        for n in 1..narrowed.len() {
            narrowed[n].low = narrowed[n].low.max(narrowed[n - 1].low);
        }
        for n in (1..narrowed.len()).rev() {
            narrowed[n - 1].high = narrowed[n - 1].high.min(narrowed[n].high);
        }
    }
    if shape == TuneShape::Falling {
        narrowed.reverse();
    }
    let fits = narrowed.iter().all(|limits| limits.low <= limits.high);
    if fits { (narrowed, true) } else { (limits.to_vec(), false) }
}

/// The least interval with every value at which the curve may be at `target`; `None` when it can be
/// nowhere. The values rise, and there are as many limits.
pub(super) fn crossings(values: &[f64], limits: &[Interval], target: f64) -> Option<Interval> {
    let points = values.iter().zip(limits).filter(|(_, l)| l.low <= target && target <= l.high);
    let points = points.map(|(value, _)| (*value, *value));
    let pairs = values.windows(2).zip(limits.windows(2));
    let parts = pairs.filter_map(|(values, limits)| {
        // Parts of the way from the first value to the second.
        let (a, b) = up_to(target - limits[0].low, target - limits[1].low)?;
        let (c, d) = up_to(limits[0].high - target, limits[1].high - target)?;
        let (from, to) = (a.max(c), b.min(d));
        let at = |part: f64| values[0] + part * (values[1] - values[0]);
        (from <= to).then(|| (at(from), at(to)))
    });
    points
        .chain(parts)
        .reduce(|(low, high), (from, to)| (low.min(from), high.max(to)))
        .map(|(low, high)| Interval { low, high })
}

/// Where, between 0 and 1, a straight line between two heights is not below zero.
fn up_to(first: f64, second: f64) -> Option<(f64, f64)> {
    match (first >= 0.0, second >= 0.0) {
        (true, true) => Some((0.0, 1.0)),
        (false, false) => None,
        // One end may be without limit: then only the other end itself is sure to be on its side.
        (true, false) if first.is_infinite() => Some((0.0, 1.0)),
        (false, true) if second.is_infinite() => Some((0.0, 1.0)),
        (true, false) => Some((0.0, first / (first - second))),
        (false, true) => Some((first / (first - second), 1.0)),
    }
}

/// Where, within an interval, straight lines between the means seen first meet the target.
pub(super) fn crossing(
    values: &[f64],
    means: &[f64],
    target: f64,
    within: &Interval,
) -> Option<f64> {
    let met =
        values.iter().zip(means).filter(|(_, mean)| **mean == target).map(|(value, _)| *value);
    let pairs = values.windows(2).zip(means.windows(2));
    let between = pairs.filter(|(_, m)| (m[0] < target) != (m[1] < target)).map(|(v, m)| {
        let part = (target - m[0]) / (m[1] - m[0]);
        v[0] + part * (v[1] - v[0])
    });
    met.chain(between).filter(|at| within.low <= *at && *at <= within.high).reduce(f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    const UNKNOWN: Interval = Interval { low: f64::NEG_INFINITY, high: f64::INFINITY };

    fn limits(ends: &[(f64, f64)]) -> Vec<Interval> {
        ends.iter().map(|&(low, high)| Interval { low, high }).collect()
    }

    #[test]
    fn neighbours_share_their_limits_when_the_curve_rises() {
        let wide = limits(&[(0.0, 9.0), (3.0, 5.0), (1.0, 8.0)]);
        let (narrowed, fits) = shaped(&wide, TuneShape::Rising);
        assert_eq!((narrowed, fits), (limits(&[(0.0, 5.0), (3.0, 5.0), (3.0, 8.0)]), true));
        let (narrowed, _) = shaped(&wide, TuneShape::Falling);
        assert_eq!(narrowed, limits(&[(3.0, 9.0), (3.0, 5.0), (1.0, 5.0)]));
        assert_eq!(shaped(&wide, TuneShape::Any), (wide, true));
    }

    #[test]
    fn a_shape_that_the_games_refute_is_dropped() {
        let falling = limits(&[(4.0, 5.0), (1.0, 2.0)]);
        assert_eq!(shaped(&falling, TuneShape::Rising), (falling.clone(), false));
        assert!(shaped(&falling, TuneShape::Falling).1);
    }

    #[test]
    fn the_crossings_lie_where_the_target_is_within_the_limits() {
        let values = [1.0, 2.0, 3.0];
        let rising = limits(&[(0.0, 1.0), (2.0, 3.0), (4.0, 5.0)]);
        // The upper limits meet 2 half way to the second value; there the lower ones meet it.
        assert_eq!(crossings(&values, &rising, 2.0), Some(Interval { low: 1.5, high: 2.0 }));
        assert_eq!(crossings(&values, &rising, 0.5), Some(Interval { low: 1.0, high: 1.25 }));
        assert_eq!(crossings(&values, &rising, 5.5), None);
        // A hump is crossed twice; the interval holds both.
        let hump = limits(&[(0.0, 1.0), (4.0, 5.0), (0.0, 1.0)]);
        assert_eq!(crossings(&values, &hump, 2.0), Some(Interval { low: 1.25, high: 2.75 }));
    }

    #[test]
    fn a_point_without_limits_rules_nothing_out() {
        let open = [limits(&[(0.0, 1.0)])[0], UNKNOWN];
        assert_eq!(crossings(&[1.0, 2.0], &open, 2.0), Some(Interval { low: 1.0, high: 2.0 }));
        assert_eq!(crossings(&[1.0], &[UNKNOWN], 2.0), Some(Interval { low: 1.0, high: 1.0 }));
    }

    #[test]
    fn means_cross_where_the_line_between_them_does() {
        let anywhere = Interval { low: 0.0, high: 9.0 };
        let at = |values: &[f64], means: &[f64]| crossing(values, means, 2.0, &anywhere);
        assert_eq!(at(&[1.0, 2.0, 4.0], &[0.0, 1.0, 3.0]), Some(3.0));
        assert_eq!(at(&[1.0, 2.0], &[3.0, 2.0]), Some(2.0));
        assert_eq!(at(&[1.0, 2.0], &[3.0, 2.5]), None);
        let hump = ([1.0, 2.0, 3.0], [1.0, 3.0, 1.0]);
        assert_eq!(at(&hump.0, &hump.1), Some(1.5));
        let late = Interval { low: 2.0, high: 3.0 };
        assert_eq!(crossing(&hump.0, &hump.1, 2.0, &late), Some(2.5));
    }
}
