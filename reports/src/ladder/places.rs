//! Who stands where, and who may stand there too.
//!
//! A player's places run from one after all who are surely stronger to one before all who are
//! surely weaker (after Goldstein & Spiegelhalter 1996, Journal of the Royal Statistical Society A
//! 159:385-443, from memory). "Surely" is a test of every two strengths against each other, by
//! Holm's method over all of them: the chance of even one wrong order is at most 5 %.

use crate::stats::{LEVEL, Strengths, holm};

/// The players in order, the strongest first, and what is known about that order.
pub(super) struct Places {
    /// Players by number, the strongest first.
    pub(super) order: Vec<usize>,
    /// Whether two players, by number, are told apart.
    apart: Vec<Vec<bool>>,
}

impl Places {
    /// The order of `players` by strength, or by `shares` of games when strengths are not known;
    /// then nobody is told apart. Equals keep the order they came in.
    pub(super) fn of(players: usize, strengths: Option<&Strengths>, shares: &[f64]) -> Places {
        let height = |p: usize| match strengths {
            Some(fit) => fit.of(p).value,
            None => shares.get(p).copied().unwrap_or(0.0),
        };
        let mut order: Vec<usize> = (0..players).collect();
        order.sort_by(|a, b| height(*b).total_cmp(&height(*a)));
        let mut apart = vec![vec![false; players]; players];
        if let Some(fit) = strengths {
            let pairs: Vec<(usize, usize)> =
                (0..players).flat_map(|a| (a + 1..players).map(move |b| (a, b))).collect();
            let p: Vec<f64> = pairs.iter().map(|&(a, b)| fit.difference(a, b).p()).collect();
            for (&(a, b), p) in pairs.iter().zip(holm(&p)) {
                apart[a][b] = p < LEVEL;
                apart[b][a] = p < LEVEL;
            }
        }
        Places { order, apart }
    }

    /// The first and the last place that the player at `rank`, from 0, may hold; the top is 1.
    pub(super) fn places(&self, rank: usize) -> (u32, u32) {
        let sure = |others: &[usize]| {
            others.iter().filter(|o| self.apart[self.order[rank]][**o]).count() as u32
        };
        let (above, below) = (&self.order[..rank], &self.order[rank + 1..]);
        (1 + sure(above), self.order.len() as u32 - sure(below))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three players, of whom the first two differ by 1, 2, not 0, 1, 2 errors.
    fn places(apart: [[bool; 3]; 3]) -> Vec<(u32, u32)> {
        let places = Places { order: vec![2, 0, 1], apart: apart.map(Vec::from).to_vec() };
        (0..3).map(|rank| places.places(rank)).collect()
    }

    #[test]
    fn places_overlap_where_nothing_is_sure() {
        let (f, t) = (false, true);
        assert_eq!(places([[f; 3]; 3]), [(1, 3); 3]);
        assert_eq!(places([[f, t, t], [t, f, t], [t, t, f]]), [(1, 1), (2, 2), (3, 3)]);
        // The second player is surely below the third one and alike with the first.
        assert_eq!(places([[f, f, f], [f, f, t], [f, t, f]]), [(1, 2), (1, 3), (2, 3)]);
    }

    #[test]
    fn without_strengths_shares_put_players_in_order() {
        let places = Places::of(3, None, &[0.2, 0.7, 0.7]);
        assert_eq!(places.order, [1, 2, 0]);
        assert_eq!(places.places(0), (1, 3));
    }
}
