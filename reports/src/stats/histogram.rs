//! How are the values of several groups spread over common bins?

/// Bins of equal width, and for each group the share of its values in every bin.
#[derive(Clone, Debug, PartialEq)]
pub struct Histogram {
    /// Lower edge of the first bin.
    pub start: f64,
    /// Width of every bin, above 0.
    pub width: f64,
    /// Per group, the share in each bin; the shares of a group with values sum to 1.
    pub shares: Vec<Vec<f64>>,
}

/// Values further from zero than this are no measurements, and would stretch the bins out of use.
const FURTHEST: f64 = 1e6;

/// Sorts `groups` into at most `most` bins of a whole width, centred on multiples of it; `None`
/// without a value. Values that are not finite, or beyond a million, are left out.
pub fn histogram(groups: &[Vec<f64>], most: usize) -> Option<Histogram> {
    let finite = || groups.iter().flatten().copied().filter(|v| v.abs() <= FURTHEST);
    let (low, high) = (finite().min_by(f64::total_cmp)?, finite().max_by(f64::total_cmp)?);
    let width = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0]
        .into_iter()
        .find(|w| bins(low, high, *w) <= most as f64)
        .unwrap_or_else(|| ((high - low) / most.max(2) as f64).max(1.0) * 2.0);
    let start = (low / width).round() * width - width / 2.0;
    let count = bins(low, high, width) as usize;
    let shares = groups.iter().map(|g| shares(g, start, width, count)).collect();
    Some(Histogram { start, width, shares })
}

/// How many bins of `width`, centred on its multiples, reach from `low` to `high`.
fn bins(low: f64, high: f64, width: f64) -> f64 {
    (high / width).round() - (low / width).round() + 1.0
}

fn shares(values: &[f64], start: f64, width: f64, count: usize) -> Vec<f64> {
    let mut counts = vec![0.0; count];
    let mut total = 0.0;
    for value in values.iter().filter(|v| v.abs() <= FURTHEST) {
        // A value on an edge may fall either way by rounding: the range is kept.
        let bin = ((value - start) / width).floor().clamp(0.0, count as f64 - 1.0);
        counts[bin as usize] += 1.0;
        total += 1.0;
    }
    if total > 0.0 {
        counts.iter_mut().for_each(|c| *c /= total);
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_fills_no_bin() {
        assert_eq!(histogram(&[], 10), None);
        assert_eq!(histogram(&[vec![], vec![f64::NAN, f64::MAX]], 10), None);
    }

    #[test]
    fn one_value_fills_one_bin() {
        let one = histogram(&[vec![7.0], vec![]], 10).unwrap();
        assert_eq!((one.start, one.width), (6.5, 1.0));
        assert_eq!(one.shares, [vec![1.0], vec![0.0]]);
    }

    #[test]
    fn whole_numbers_get_a_bin_each_while_they_fit() {
        let whole = histogram(&[vec![6.0, 7.0, 7.0, 9.0]], 10).unwrap();
        assert_eq!(whole.shares, [[0.25, 0.5, 0.0, 0.25]]);
    }

    #[test]
    fn a_wide_range_gets_wider_bins() {
        let wide = histogram(&[vec![-30.0, 31.0]], 16).unwrap();
        assert_eq!((wide.start, wide.width, wide.shares[0].len()), (-32.5, 5.0, 13));
        assert!(histogram(&[vec![-1e6, 1e6]], 16).unwrap().shares[0].len() <= 16);
    }
}
