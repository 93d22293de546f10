//! What share of games is won, each scenario counting alike?
//!
//! The mean over scenarios of their mean results. Its interval is Wilson's at the number of
//! independent games that would be as sure (Korn & Graubard 1998, Survey Methodology 24:193-201,
//! for the idea; Dean & Pagano 2015, Journal of Survey Statistics and Methodology 3:484-503, for
//! Wilson's interval; both from memory), at most the games played. So it stays within 0 and 1 and
//! leaves room at either end.

use super::wilson::score;
use super::{Interval, Moments};

/// A share of games with how sure it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// The share, from 0 to 1.
    pub value: f64,
    /// Its interval.
    pub interval: Interval,
    /// Independent games that would be as sure.
    pub worth: f64,
}

impl Share {
    /// A standard error that is never 0: two wins and two losses added (Agresti & Coull 1998, The
    /// American Statistician 52:119-126, from memory).
    pub fn se(&self) -> f64 {
        let games = self.worth + 4.0;
        let middle = (self.value * self.worth + 2.0) / games;
        (middle * (1.0 - middle) / games).sqrt()
    }
}

/// The share over scenarios, for each of which `scenarios` has one value from 0 to 1 per draw of
/// luck: a result, or the mean result of the games that shared it. `games` were played in all.
/// `None` without any value.
pub fn share(scenarios: &[Vec<f64>], games: usize, confidence: f64) -> Option<Share> {
    let moments: Vec<Moments> = scenarios.iter().filter_map(|s| Moments::of(s)).collect();
    if moments.is_empty() {
        return None;
    }
    let count = moments.len() as f64;
    let value = moments.iter().map(|m| m.mean).sum::<f64>() / count;
    // A single value has no spread of its own; a share has at most a quarter.
    let variance = |m: &Moments| m.variance().unwrap_or(0.25) / m.count as f64;
    let variance = moments.iter().map(variance).sum::<f64>() / (count * count);
    let draws = moments.iter().map(|m| m.count).sum::<usize>() as f64;
    let even = value * (1.0 - value);
    let worth = if variance > 0.0 && even > 0.0 { even / variance } else { draws };
    let worth = worth.clamp(1.0, (games as f64).max(1.0));
    Some(Share { value, interval: score(value * worth, worth, confidence), worth })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::wilson;

    fn results(won: usize, games: usize) -> Vec<f64> {
        (0..games).map(|g| f64::from(u8::from(g < won))).collect()
    }

    #[test]
    fn one_scenario_is_wilsons_interval_but_for_one_game() {
        let share = share(&[results(30, 100)], 100, 0.95).unwrap();
        assert!((share.worth - 99.0).abs() < 1e-9, "the sample variance divides by 99");
        let plain = wilson(30, 100, 0.95).unwrap();
        assert!((share.interval.low - plain.low).abs() < 1e-3);
        assert!((share.interval.high - plain.high).abs() < 1e-3);
    }

    #[test]
    fn every_scenario_counts_alike() {
        let share = share(&[results(10, 10), results(0, 90)], 100, 0.95).unwrap();
        assert_eq!(share.value, 0.5);
    }

    #[test]
    fn a_player_who_never_won_may_still_win() {
        let never = share(&[results(0, 200), results(0, 200)], 400, 0.95).unwrap();
        assert_eq!(never.interval, wilson(0, 400, 0.95).unwrap());
        assert!((never.se() - (2.0 * 402.0_f64).sqrt() / 404.0_f64.powf(1.5)).abs() < 1e-15);
        let always = share(&[results(9, 9)], 9, 0.95).unwrap();
        assert_eq!(always.interval, wilson(9, 9, 0.95).unwrap());
    }

    #[test]
    fn no_share_is_surer_than_its_games() {
        // Won in one scenario and lost in the other, without any spread.
        let split = share(&[results(50, 50), results(0, 50)], 100, 0.95).unwrap();
        assert_eq!((split.value, split.worth), (0.5, 100.0));
        assert_eq!(share(&[vec![], vec![]], 0, 0.95), None);
        assert_eq!(share(&[vec![1.0]], 1, 0.95).unwrap().worth, 1.0);
    }

    #[test]
    fn games_that_share_luck_are_fewer_draws() {
        // Four games a seed, all with one result: 25 draws of luck, not 100.
        let shared = share(&[results(10, 25)], 100, 0.95).unwrap();
        assert!((shared.worth - 24.0).abs() < 1e-9);
    }
}
