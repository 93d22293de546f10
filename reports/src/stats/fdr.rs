//! Which of many shifts are real when a few false ones among them may be borne?
//!
//! Adjusted p-values that bound the expected share of false shifts among those found: by Benjamini &
//! Hochberg (1995, Journal of the Royal Statistical Society B 57:289-300) for tests that are
//! independent or move together, and by Benjamini & Yekutieli (2001, The Annals of Statistics
//! 29:1165-1188) for any. Holm's method bounds the chance of a single false one, and is stricter.

/// Adjusted p-values by Benjamini & Hochberg (1995), in the order given.
pub fn benjamini_hochberg(p: &[f64]) -> Vec<f64> {
    step_up(p, 1.0)
}

/// Adjusted p-values by Benjamini & Yekutieli (2001), in the order given.
pub fn benjamini_yekutieli(p: &[f64]) -> Vec<f64> {
    step_up(p, (1..=p.len()).map(|k| 1.0 / k as f64).sum())
}

/// From the largest down: the count over the rank times the value, never above a later one.
fn step_up(p: &[f64], price: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|&a, &b| p[a].total_cmp(&p[b]));
    let mut adjusted = vec![0.0; p.len()];
    let mut most = 1.0_f64;
    for (rank, &n) in order.iter().enumerate().rev() {
        most = most.min(price * p.len() as f64 / (rank + 1) as f64 * p[n]);
        adjusted[n] = most;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_family_has_no_values() {
        assert_eq!(benjamini_hochberg(&[]), Vec::<f64>::new());
        assert_eq!(benjamini_yekutieli(&[]), Vec::<f64>::new());
    }

    #[test]
    fn one_question_needs_no_adjustment() {
        assert_eq!(
            (benjamini_hochberg(&[0.03]), benjamini_yekutieli(&[0.03])),
            (vec![0.03], vec![0.03])
        );
    }

    #[test]
    fn an_earlier_value_is_never_above_a_later_one() {
        assert_eq!(
            benjamini_hochberg(&[0.5, 0.25, 0.375, 1.0]),
            [2.0 / 3.0, 2.0 / 3.0, 2.0 / 3.0, 1.0]
        );
        assert_eq!(benjamini_yekutieli(&[0.5, 0.5]), [0.75, 0.75]);
    }
}
