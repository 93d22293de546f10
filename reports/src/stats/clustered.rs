//! How sure are strengths when games share their luck?
//!
//! Games of one scenario with one seed have the same dice and cards, whoever plays them, so they
//! are one draw of luck and not many. The errors of [`strengths`](super::strengths) by its model
//! take every game for a draw of its own, and each win for a toss of a coin with draws and
//! scenarios alike. Here the errors come from how much the slopes of the likelihood differ between
//! draws of luck of one scenario (Binder 1983, International Statistical Review 51:279-292; Liang &
//! Zeger 1986, Biometrika 73:13-22; from memory): they are right for draws, for scenarios that
//! favour a side, and whether or not seeds are shared.

use std::collections::BTreeMap;

use super::bradley_terry::{Strengths, dot};
use super::cholesky::Matrix;

/// One game as the errors see it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Played {
    /// The attacker, by number.
    pub attacker: usize,
    /// The defender, by number.
    pub defender: usize,
    /// The attacker's share of the win: 1, 0 or a half.
    pub won: f64,
}

impl Strengths {
    /// The same strengths with errors from the games themselves: for each scenario, the games of
    /// each seed. Scenarios with a single seed, whose spread is not known, add all of their slope.
    ///
    /// A player who lost every game shows no spread at all, which is not to be sure of him. So
    /// where strengths rest on added games, pairings that always ended alike have the spread of the
    /// model.
    pub fn with_luck(mut self, scenarios: &[Vec<Vec<Played>>]) -> Strengths {
        let free = self.covariance.len();
        let mut spread = vec![vec![0.0; free]; free];
        for seeds in scenarios {
            add_spread(&mut spread, seeds.iter().map(|games| self.slope(games)).collect());
        }
        if self.added > 0 {
            self.add_foreseen(&mut spread, scenarios.iter().flatten().flatten());
        }
        self.covariance = sandwich(&self.covariance, &spread);
        self
    }

    /// Adds the variance that the model foresees in pairings that always ended alike.
    fn add_foreseen<'a>(&self, spread: &mut Matrix, games: impl Iterator<Item = &'a Played>) {
        // Games, and the sum of their results.
        let mut pairings: BTreeMap<(usize, usize), (f64, f64)> = BTreeMap::new();
        for game in games {
            let (count, won) = pairings.entry((game.attacker, game.defender)).or_default();
            *count += 1.0;
            *won += game.won;
        }
        for ((attacker, defender), (count, won)) in pairings {
            if won > 0.0 && won < count {
                continue;
            }
            let p = self.attacker_chance(attacker, defender);
            let games = count + f64::from(self.added);
            add_square(spread, &self.row(attacker, defender), games * p * (1.0 - p));
        }
    }

    /// What the games of one seed say about moving the strengths.
    fn slope(&self, games: &[Played]) -> Vec<f64> {
        let mut slope = vec![0.0; self.covariance.len()];
        for game in games {
            let left = game.won - self.attacker_chance(game.attacker, game.defender);
            for (s, r) in slope.iter_mut().zip(self.row(game.attacker, game.defender)) {
                *s += r * left;
            }
        }
        slope
    }
}

/// Adds the variance of a sum of such slopes.
fn add_spread(spread: &mut Matrix, slopes: Vec<Vec<f64>>) {
    let count = slopes.len() as f64;
    let known = slopes.len() > 1;
    let mean = |n: usize| -> f64 {
        if known { slopes.iter().map(|s| s[n]).sum::<f64>() / count } else { 0.0 }
    };
    let means: Vec<f64> = (0..spread.len()).map(mean).collect();
    let scale = if known { count / (count - 1.0) } else { 1.0 };
    for slope in &slopes {
        let off: Vec<f64> = slope.iter().zip(&means).map(|(s, m)| s - m).collect();
        add_square(spread, &off, scale);
    }
}

/// Adds `scale` times a column times itself as a row.
fn add_square(matrix: &mut Matrix, column: &[f64], scale: f64) {
    for (line, a) in matrix.iter_mut().zip(column) {
        line.iter_mut().zip(column).for_each(|(cell, b)| *cell += scale * a * b);
    }
}

/// `outer * inner * outer`, both symmetric.
fn sandwich(outer: &Matrix, inner: &Matrix) -> Matrix {
    let product = |a: &Matrix, b: &Matrix| -> Matrix {
        a.iter().map(|line| b.iter().map(|column| dot(line, column)).collect()).collect()
    };
    // `product` takes columns for rows, which is the same for a symmetric second factor.
    product(&product(outer, inner), outer)
}
