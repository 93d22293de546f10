//! How the games of a plan are cut into blocks, the same for everyone who plays, keeps or reads them.
//!
//! A block is some games of one scenario and one pairing of players, in all arms. The blocks of all
//! scenarios and pairings that begin at the same game make a round. Blocks are played and kept in
//! this order, so a run that stops after any of them has a beginning of the run, and a run of more
//! games begins with the same blocks.

use crate::{Experiment, Plan, Stop};

/// Games in a whole block: enough to share the making of players and event hooks.
const WHOLE: u32 = 64;

/// Times to look, at most: beyond these, looks at the beginning fall together.
const MOST_LOOKS: u32 = 31;

/// Some games of one scenario and pairing: every `step`-th of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Block {
    /// Index into the plan's scenarios.
    pub scenario: usize,
    /// Index into the plan's pairings.
    pub pairing: usize,
    first: u32,
    /// Behind the last.
    end: u32,
    step: u32,
}

impl Block {
    /// The numbers of its games, rising.
    pub fn games(&self) -> impl Iterator<Item = u32> + use<> {
        (self.first..self.end).step_by(self.step as usize)
    }

    /// Whether a game is one of them.
    pub fn has(&self, scenario: usize, game: u32) -> bool {
        let inside = (self.first..self.end).contains(&game);
        scenario == self.scenario && inside && (game - self.first).is_multiple_of(self.step)
    }
}

impl Plan {
    /// Games of one scenario that a round plays, all pairings together.
    fn round(&self) -> u32 {
        WHOLE * self.pairings.len() as u32
    }

    /// The number below which lie the games of every scenario in so many rounds.
    pub fn games_of_scenario_in(&self, rounds: u32) -> u32 {
        self.round().saturating_mul(rounds)
    }

    /// Rounds in which all games are played.
    pub fn rounds(&self) -> u32 {
        self.games_in_scenario(0).div_ceil(self.round())
    }

    /// Rounds after which every arm has at least `games` games, or all of them.
    pub fn rounds_for(&self, games: u32) -> u32 {
        let scenarios = self.scenarios.len() as u32;
        games.div_ceil(scenarios).div_ceil(self.round()).clamp(1, self.rounds().max(1))
    }

    /// Games of a compared arm, over all scenarios, in so many rounds.
    pub fn games_in_rounds(&self, rounds: u32) -> u32 {
        let most = self.games_of_scenario_in(rounds);
        (0..self.scenarios.len()).map(|s| self.games_in_scenario(s).min(most)).sum()
    }

    /// The rounds after which the run looks at what it has, rising, the last one at its end. Every
    /// look is twice as far as the one before; without a rule to stop there is only the end.
    pub fn looks(&self) -> Vec<u32> {
        let looks = match (&self.experiment, self.stop) {
            (Experiment::Tune(tune), _) => tune.looks.clamp(1, MOST_LOOKS),
            (_, Some(Stop::Clear { looks })) => looks.clamp(1, MOST_LOOKS),
            (_, Some(Stop::Precision { .. }) | None) => 1,
        };
        let at = |look: u32| self.rounds_for(self.games_per_arm.div_ceil(1 << (looks - 1 - look)));
        let mut rounds: Vec<u32> = (0..looks).map(at).collect();
        rounds.dedup();
        rounds
    }

    /// The blocks of the first `rounds` rounds, in order: by round, then scenario, then pairing.
    pub fn blocks(&self, rounds: u32) -> Vec<Block> {
        let step = self.pairings.len() as u32;
        let starts = (0..rounds.min(self.rounds())).map(|round| round * self.round());
        let places = |start: u32| {
            (0..self.scenarios.len()).flat_map(move |scenario| {
                let end = self.games_in_scenario(scenario).min(start + self.round());
                (0..step).map(move |pairing| Block {
                    scenario,
                    pairing: pairing as usize,
                    first: start + pairing,
                    end,
                    step,
                })
            })
        };
        starts.flat_map(places).filter(|block| block.first < block.end).collect()
    }

    /// Games of all arms in a block, when no fault stops any.
    pub fn games_in(&self, block: &Block) -> u64 {
        let of_arm = |arm| {
            let end = self.games_of(arm, block.scenario);
            block.games().take_while(|game| *game < end).count() as u64
        };
        (0..self.arms.len()).map(of_arm).sum()
    }

    /// Place of a game in the order in which an arm keeps its games when a fault stops it: by number,
    /// then scenario.
    pub fn place(&self, scenario: usize, game: u32) -> u64 {
        u64::from(game) * self.scenarios.len() as u64 + scenario as u64
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::plan::tests::plan;

    fn keys(blocks: &[Block]) -> Vec<(usize, u32)> {
        blocks.iter().flat_map(|b| b.games().map(|game| (b.scenario, game))).collect()
    }

    #[test]
    fn every_game_is_in_one_block_with_its_pairing() {
        for games in [1, 5, 127, 128, 129, 1000] {
            let plan = Plan { games_per_arm: games, ..plan() };
            let blocks = plan.blocks(plan.rounds());
            let keys = keys(&blocks);
            assert_eq!(keys.len(), games as usize);
            assert_eq!(keys.iter().collect::<BTreeSet<_>>().len(), keys.len());
            let right = |b: &Block| b.games().all(|game| plan.pairing(game) == b.pairing);
            assert!(blocks.iter().all(right));
            for &(scenario, game) in &keys {
                assert_eq!(blocks.iter().filter(|b| b.has(scenario, game)).count(), 1);
            }
        }
    }

    #[test]
    fn a_longer_run_begins_with_the_same_blocks() {
        let short = Plan { games_per_arm: 512, ..plan() };
        let long = Plan { games_per_arm: 4000, ..plan() };
        let whole = short.blocks(short.rounds());
        assert_eq!(long.blocks(long.rounds())[..whole.len()], whole);
        assert_eq!((short.rounds(), short.games_in_rounds(1)), (2, 256));
    }

    #[test]
    fn looks_double_and_the_last_is_the_end() {
        let plan = |games, stop| Plan { games_per_arm: games, stop, ..plan() };
        let clear = Some(Stop::Clear { looks: 5 });
        assert_eq!(plan(100_000, None).looks(), [391]);
        assert_eq!(plan(100_000, clear).looks(), [25, 49, 98, 196, 391]);
        assert_eq!(plan(300, clear).looks(), [1, 2], "looks that fall together are one");
    }

    #[test]
    fn rounds_reach_the_games_that_are_asked() {
        let plan = Plan { games_per_arm: 4000, ..plan() };
        for games in [1, 256, 257, 3999, 4000, 9000] {
            let rounds = plan.rounds_for(games);
            assert!(plan.games_in_rounds(rounds) >= games.min(4000));
            assert!(rounds == 1 || plan.games_in_rounds(rounds - 1) < games);
        }
    }
}
