//! How much of a test's level may be spent by a look at part of the games?
//!
//! Spending functions of Lan & DeMets (1983), Biometrika 70:659-663: they rise from 0 to the level
//! as the share of games rises to 1, and the looks need not be known beforehand, as long as they
//! are not chosen by what was seen.

use std::f64::consts::E;

use super::{normal_quantile, normal_tail};

/// How the level is spread over the looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spending {
    /// Almost nothing early, almost all at the end: the last look is nearly as sharp as a test
    /// without looks (the function of O'Brien & Fleming's type in Lan & DeMets 1983).
    Late,
    /// About the same at each look of equal size: what is far off shows early (Pocock's type in Lan
    /// & DeMets 1983).
    Even,
}

impl Spending {
    /// The part of a one-sided `level` that is spent when the `share` of all games is played, both
    /// between 0 and 1.
    pub fn spent(self, level: f64, share: f64) -> f64 {
        let share = share.clamp(0.0, 1.0);
        match self {
            _ if share == 0.0 => 0.0,
            _ if share == 1.0 => level,
            Spending::Late => 2.0 * normal_tail(normal_quantile(1.0 - level / 2.0) / share.sqrt()),
            Spending::Even => level * (1.0 + (E - 1.0) * share).ln(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_spent_at_the_start_and_all_at_the_end() {
        for spending in [Spending::Late, Spending::Even] {
            assert_eq!(spending.spent(0.025, 0.0), 0.0);
            assert_eq!(spending.spent(0.025, 1.0), 0.025);
            let near = spending.spent(0.025, 1.0 - 1e-9);
            assert!((near - 0.025).abs() < 1e-9, "{near}");
        }
    }

    #[test]
    fn more_games_spend_more() {
        for spending in [Spending::Late, Spending::Even] {
            let spent: Vec<f64> =
                (0..=20).map(|n| spending.spent(0.05, f64::from(n) / 20.0)).collect();
            assert!(spent.windows(2).all(|pair| pair[0] < pair[1]), "{spent:?}");
        }
    }

    #[test]
    fn half_of_the_games_spend_little_late_and_much_evenly() {
        // 0.025 ln(1 + (e - 1) / 2), and twice the tail beyond 2.2414 times the root of 2.
        assert!((Spending::Even.spent(0.025, 0.5) - 0.015_502_86).abs() < 1e-7);
        assert!((Spending::Late.spent(0.025, 0.5) - 0.001_525_322_758).abs() < 1e-11);
    }
}
