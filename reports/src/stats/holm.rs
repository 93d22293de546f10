//! How small must a p-value be when many are asked at once?
//!
//! The step-down method of Holm (1979), Scandinavian Journal of Statistics 6:65-70, as adjusted
//! p-values: the chance of any false shift in the family stays below the level.

/// The adjusted p-values, in the order given.
pub fn holm(p: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|&a, &b| p[a].total_cmp(&p[b]));
    let mut adjusted = vec![0.0; p.len()];
    let mut least = 0.0_f64;
    for (rank, &n) in order.iter().enumerate() {
        least = least.max((p.len() - rank) as f64 * p[n]).min(1.0);
        adjusted[n] = least;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_empty_family_has_no_values() {
        assert_eq!(holm(&[]), Vec::<f64>::new());
    }

    #[test]
    fn one_question_needs_no_adjustment() {
        assert_eq!(holm(&[0.03]), [0.03]);
    }

    #[test]
    fn ones_and_zeros_stay_what_they_are() {
        assert_eq!(holm(&[1.0, 0.0, 1.0]), [1.0, 0.0, 1.0]);
    }

    #[test]
    fn a_later_value_is_never_below_an_earlier_one() {
        assert_eq!(holm(&[0.25, 0.25, 0.3125]), [0.75, 0.75, 0.75]);
    }
}
