//! What did playing both arms with the same luck save?
//!
//! The variance of a difference under common random numbers over that of independent games (Law,
//! Simulation Modeling and Analysis, chapter 11): games unpaired would have to be multiplied by
//! one over this ratio to be as sure.

use super::Moments;

/// Variance of the paired difference over the sum of the two variances, each within strata; 1 when
/// neither side varies. Each stratum holds pairs of reference and arm.
pub fn variance_ratio(strata: &[Vec<(f64, f64)>]) -> f64 {
    let squares = |of: fn(&(f64, f64)) -> f64| -> f64 {
        strata
            .iter()
            .filter_map(|s| Moments::of(&s.iter().map(of).collect::<Vec<f64>>()))
            .map(|m| m.squares)
            .sum()
    };
    let unpaired = squares(|pair| pair.0) + squares(|pair| pair.1);
    if unpaired > 0.0 { squares(|pair| pair.1 - pair.0) / unpaired } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_never_varies_saves_nothing() {
        assert_eq!(variance_ratio(&[]), 1.0);
        assert_eq!(variance_ratio(&[vec![(2.0, 3.0)]]), 1.0);
        assert_eq!(variance_ratio(&[vec![(2.0, 3.0); 5]]), 1.0);
    }

    #[test]
    fn the_same_game_twice_saves_everything() {
        assert_eq!(variance_ratio(&[vec![(1.0, 1.0), (4.0, 4.0), (9.0, 9.0)]]), 0.0);
    }

    #[test]
    fn opposite_luck_costs_twice_the_games() {
        assert_eq!(variance_ratio(&[vec![(1.0, -1.0), (-1.0, 1.0)]]), 2.0);
    }

    #[test]
    fn differences_between_scenarios_are_not_luck() {
        let apart = [vec![(0.0, 1.0), (1.0, 0.0)], vec![(90.0, 91.0), (91.0, 90.0)]];
        assert_eq!(variance_ratio(&apart), 2.0);
    }
}
