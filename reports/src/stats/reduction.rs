//! What did each way of being surer save?
//!
//! Three ways make the same number of games surer: the same luck in both arms, scenarios in fixed
//! numbers, and known luck taken out. Each is a ratio of variances (Law, Simulation Modeling and
//! Analysis, chapter 11): games would have to be multiplied by one over it to be as sure without.

use super::{ControlledStratum, Moments, controlled_mean, variance_ratio};

/// Variance with each way over variance without it: below 1 where it helps.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reduction {
    /// The same luck in both arms, against luck of their own (common random numbers).
    pub pairing: f64,
    /// Fixed numbers of pairs from each stratum, against as many drawn from all.
    pub strata: f64,
    /// Controls, against none; `None` without controls.
    pub control: Option<f64>,
}

/// The three ratios of the shift over `strata` of pairs of reference and arm (Law, chapter 11); in
/// `controls`, for each stratum the columns of its controls less their known means.
pub fn reduction(strata: Vec<Vec<(f64, f64)>>, controls: Vec<Vec<Vec<f64>>>) -> Reduction {
    let pairing = variance_ratio(&strata);
    // Each step takes the place of the one before: of many games there is never more than one.
    let less = |stratum: Vec<(f64, f64)>| stratum.into_iter().map(|(r, a)| a - r).collect();
    let shifts: Vec<Vec<f64>> = strata.into_iter().map(less).collect();
    let strata = strata_ratio(&shifts);
    let whole = controls.len() == shifts.len();
    let controlled = shifts.into_iter().zip(controls);
    let controlled: Vec<ControlledStratum> =
        controlled.map(|(values, controls)| ControlledStratum { values, controls }).collect();
    let control = if whole { controlled_mean(&controlled) } else { None };
    Reduction { pairing, strata, control: control.map(|c| c.variance_ratio) }
}

/// Variance within strata over variance of all values together (Cochran 1977, Sampling Techniques,
/// 3rd edition, section 5.6, strata in proportion to their size); 1 without any spread.
pub fn strata_ratio(strata: &[Vec<f64>]) -> f64 {
    let parts: Vec<Moments> = strata.iter().filter_map(|s| Moments::of(s)).collect();
    let count: usize = parts.iter().map(|m| m.count).sum();
    let all = Moments::of(&strata.concat()).and_then(|m| m.variance());
    match all {
        Some(all) if all > 0.0 && count > parts.len() => {
            let within: f64 = parts.iter().map(|m| m.squares).sum();
            within / (count - parts.len()) as f64 / all
        }
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_saves_nothing() {
        let none = Reduction { pairing: 1.0, strata: 1.0, control: None };
        assert_eq!(reduction(vec![], vec![]), none);
        assert_eq!(reduction(vec![vec![(1.0, 1.0)], vec![(2.0, 2.0)]], vec![]), none);
    }

    #[test]
    fn scenarios_with_one_answer_each_save_everything() {
        assert_eq!(strata_ratio(&[vec![1.0, 1.0], vec![5.0, 5.0]]), 0.0);
    }

    #[test]
    fn scenarios_that_are_alike_cost_a_little() {
        // Squares 4 over 2 degrees of freedom within, 4 over 3 in all.
        assert!((strata_ratio(&[vec![1.0, 3.0], vec![1.0, 3.0]]) - 1.5).abs() < 1e-12);
    }

    #[test]
    fn each_way_is_told_apart() {
        let luck = [-1.0, 1.0, -2.0, 2.0, 0.0, 0.5];
        let pairs: Vec<(f64, f64)> =
            luck.iter().enumerate().map(|(n, l)| (n as f64, n as f64 + 3.0 + 2.0 * l)).collect();
        let found = reduction(vec![pairs], vec![vec![luck.to_vec()]]);
        assert!(found.pairing < 1.0 && found.strata == 1.0, "{found:?}");
        assert!(found.control.unwrap() < 1e-12, "{found:?}");
    }
}
