//! Does a house rule make the better player win more often, or less?
//!
//! The *edge* of the stronger of two players is his share of wins less a half: 0 when the game does
//! not care who plays it, a half when it always goes to him. Its shift is the mean of paired
//! differences, the same game under both arms, by strata of scenario and side
//! ([`stratified_mean`]). Where both sides were played with one seed they share their luck, so they
//! are one value of a stratum of their own.
//!
//! Who is stronger must be known beforehand, or from other games: the one who happened to win more
//! of these has had luck under the first arm that he will not have under the second.

use std::collections::BTreeMap;

use super::{Estimate, Heterogeneity, heterogeneity, stratified_mean};

/// One game of the stronger player against the weaker, played under both arms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkillGame {
    /// The scenario, by number.
    pub scenario: usize,
    /// Whether the stronger player was the attacker.
    pub attacking: bool,
    /// Seed of the game.
    pub seed: u64,
    /// His share of the win under the reference arm: 1, 0 or a half.
    pub reference: f64,
    /// His share of the win under the other arm.
    pub arm: f64,
}

/// The edge of the stronger player under both arms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SkillEdge {
    /// His share less a half under the reference arm.
    pub reference: f64,
    /// His share less a half under the other arm.
    pub arm: f64,
    /// What the arm adds to the edge.
    pub shift: Estimate,
}

/// The edge over all `games`; `None` with fewer than two draws of luck.
pub fn skill_edge(games: &[SkillGame]) -> Option<SkillEdge> {
    let strata = strata(games);
    let mean = |of: fn(&(f64, f64)) -> f64| {
        stratified_mean(&strata.iter().map(|s| s.iter().map(of).collect()).collect::<Vec<_>>())
    };
    Some(SkillEdge {
        reference: mean(|v| v.0)?.value - 0.5,
        arm: mean(|v| v.1)?.value - 0.5,
        shift: mean(|v| v.1 - v.0)?,
    })
}

/// The results of one draw of luck.
#[derive(Default)]
struct Draw {
    games: f64,
    reference: f64,
    arm: f64,
    /// Whether he defended, and whether he attacked.
    sides: [bool; 2],
}

impl Draw {
    fn add(&mut self, game: &SkillGame) {
        self.games += 1.0;
        self.reference += game.reference;
        self.arm += game.arm;
        self.sides[usize::from(game.attacking)] = true;
    }
}

/// Mean results under the reference and the other arm, one pair for each draw of luck.
type Results = Vec<(f64, f64)>;

/// The results by scenario and by the sides that a seed was played from.
fn strata(games: &[SkillGame]) -> Vec<Results> {
    let mut draws: BTreeMap<(usize, u64), Draw> = BTreeMap::new();
    for game in games {
        draws.entry((game.scenario, game.seed)).or_default().add(game);
    }
    let mut strata: BTreeMap<(usize, [bool; 2]), Results> = BTreeMap::new();
    for ((scenario, _), draw) in draws {
        let result = (draw.reference / draw.games, draw.arm / draw.games);
        strata.entry((scenario, draw.sides)).or_default().push(result);
    }
    strata.into_values().collect()
}

/// Whether a shift is the same whoever plays: one estimate for each pairing of players, those
/// without any spread left out.
pub fn over_pairings(shifts: &[Estimate]) -> Option<Heterogeneity> {
    heterogeneity(&shifts.iter().map(|s| (s.value, s.se)).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn game(scenario: usize, attacking: bool, seed: u64, reference: f64, arm: f64) -> SkillGame {
        SkillGame { scenario, attacking, seed, reference, arm }
    }

    #[test]
    fn the_edge_is_a_share_less_a_half() {
        let games: Vec<SkillGame> = (0..8)
            .map(|n| game(0, n % 2 == 0, n, f64::from(u8::from(n < 6)), f64::from(u8::from(n < 5))))
            .collect();
        let edge = skill_edge(&games).unwrap();
        assert_eq!((edge.reference, edge.arm, edge.shift.value), (0.25, 0.125, -0.125));
        assert_eq!(edge.shift.count, 8);
    }

    #[test]
    fn the_same_rules_shift_no_edge_at_all() {
        let games: Vec<SkillGame> =
            (0..9).map(|n| game(n as usize % 3, n % 2 == 0, n, 0.5, 0.5)).collect();
        let edge = skill_edge(&games).unwrap();
        assert_eq!((edge.reference, edge.shift.value, edge.shift.se), (0.0, 0.0, 0.0));
        assert_eq!(skill_edge(&games[..1]), None);
    }

    #[test]
    fn sides_and_scenarios_that_differ_are_no_noise() {
        // The arm gives him every attack in one scenario and takes every defence in the other.
        let games: Vec<SkillGame> = (0..8)
            .map(|n| match n % 2 {
                0 => game(0, true, n, 0.0, 1.0),
                _ => game(1, false, n, 1.0, 0.0),
            })
            .collect();
        let shift = skill_edge(&games).unwrap().shift;
        assert_eq!((shift.value, shift.se), (0.0, 0.0));
    }

    #[test]
    fn both_sides_of_one_seed_are_one_draw_of_luck() {
        // What he gains as attacker he loses as defender, seed by seed.
        let games: Vec<SkillGame> = (0..6)
            .flat_map(|n| {
                let up = f64::from(u8::from(n % 2 == 0));
                [game(0, true, n, 0.0, up), game(0, false, n, up, 0.0)]
            })
            .collect();
        let shift = skill_edge(&games).unwrap().shift;
        assert_eq!((shift.value, shift.se, shift.count), (0.0, 0.0, 6));
    }

    #[test]
    fn one_pairing_cannot_disagree() {
        let at = |value| Estimate { value, se: 0.01, df: 99.0, count: 100 };
        assert_eq!(over_pairings(&[at(0.1)]), None);
        assert!(over_pairings(&[at(0.1), at(0.1)]).unwrap().p > 0.99);
        assert!(over_pairings(&[at(0.1), at(0.2)]).unwrap().p < 1e-9);
    }
}
