//! Games of two players under two arms, put side by side, and what they say in words.

use std::collections::BTreeMap;

use super::games::LadderRow;
use crate::format::{fixed, p_value};
use crate::stats::{Heterogeneity, LEVEL, SkillGame};

/// The games of `stronger` against `weaker` that were played under both arms: the same scenario,
/// side and seed. Games of others, and those played under one arm alone, are left out.
pub fn paired(
    reference: &[LadderRow],
    arm: &[LadderRow],
    stronger: usize,
    weaker: usize,
) -> Vec<SkillGame> {
    let (reference, mut arm) =
        (results(reference, stronger, weaker), results(arm, stronger, weaker));
    let game = |((scenario, attacking, seed), reference)| {
        let arm = arm.remove(&(scenario, attacking, seed))?;
        Some(SkillGame { scenario, attacking, seed, reference, arm })
    };
    reference.into_iter().filter_map(game).collect()
}

/// The share of `player` in each game against `other`, by scenario, side and seed.
fn results(rows: &[LadderRow], player: usize, other: usize) -> BTreeMap<(usize, bool, u64), f64> {
    let theirs = |row: &&LadderRow| {
        let sides = (row.attacker, row.defender);
        sides == (player, other) || sides == (other, player)
    };
    let result = |row: &LadderRow| {
        let attacking = row.attacker == player;
        let won = row.outcome.attacker_share();
        ((row.scenario, attacking, row.seed), if attacking { won } else { 1.0 - won })
    };
    rows.iter().filter(theirs).map(result).collect()
}

/// Whether a shift depends on who plays, in a sentence.
pub fn depends_on_players(test: &Heterogeneity) -> String {
    let p = if test.p < 0.001 { p_value(test.p) } else { format!("= {}", p_value(test.p)) };
    if test.p >= LEVEL {
        return format!("Nothing says that the shift depends on who plays (p {p}).");
    }
    let share = test.i_squared();
    let word = match share {
        s if s < 0.25 => "a little",
        s if s < 0.5 => "somewhat",
        s if s < 0.75 => "much",
        _ => "very much",
    };
    format!(
        "The shift depends {word} on who plays: {} % of how pairings of players differ is more \
         than chance (p {p}).",
        fixed(100.0 * share, 0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ladder::Outcome;

    fn row(attacker: usize, defender: usize, seed: u64, outcome: Outcome) -> LadderRow {
        LadderRow { attacker, defender, scenario: 0, seed, outcome }
    }

    #[test]
    fn only_the_same_games_of_both_are_paired() {
        let reference = [
            row(0, 1, 1, Outcome::Attacker),
            row(1, 0, 1, Outcome::Attacker),
            row(0, 1, 2, Outcome::Draw),
            row(0, 2, 1, Outcome::Attacker),
        ];
        let arm = [
            row(1, 0, 1, Outcome::Defender),
            row(0, 1, 1, Outcome::Draw),
            row(0, 1, 3, Outcome::Attacker),
            row(0, 2, 1, Outcome::Attacker),
        ];
        let game = |attacking, reference, arm| SkillGame {
            scenario: 0,
            attacking,
            seed: 1,
            reference,
            arm,
        };
        assert_eq!(paired(&reference, &arm, 0, 1), [game(false, 0.0, 1.0), game(true, 1.0, 0.5)],);
    }

    #[test]
    fn words_follow_the_share_that_is_more_than_chance() {
        let told = |q: f64, p: f64| depends_on_players(&Heterogeneity { q, df: 10.0, p });
        assert_eq!(told(9.0, 0.5), "Nothing says that the shift depends on who plays (p = 0.500).");
        assert_eq!(
            told(40.0, 1e-5),
            "The shift depends very much on who plays: 75 % of how pairings of players differ is \
             more than chance (p < 0.001)."
        );
        assert!(told(18.5, 0.047).starts_with("The shift depends somewhat on who plays: 46 %"));
    }
}
