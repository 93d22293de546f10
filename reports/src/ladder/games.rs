//! The games of a ladder, as they are handed in and as they are counted.

use ruleshift_record::TicketNote;

use crate::stats::{Pairing, Played};

/// Who won a game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// The attacker.
    Attacker,
    /// Nobody.
    Draw,
    /// The defender.
    Defender,
}

impl Outcome {
    /// The attacker's share of the win.
    pub fn attacker_share(self) -> f64 {
        match self {
            Outcome::Attacker => 1.0,
            Outcome::Draw => 0.5,
            Outcome::Defender => 0.0,
        }
    }
}

/// One finished game; players and scenario by their places in the lists of [`LadderGames`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LadderRow {
    /// The player of the attacker.
    pub attacker: usize,
    /// The player of the defender.
    pub defender: usize,
    /// The scenario.
    pub scenario: usize,
    /// Seed of the game: games of one scenario and seed share their luck.
    pub seed: u64,
    /// Who won.
    pub outcome: Outcome,
}

/// All games of a ladder and what was planned.
#[derive(Clone, Debug, PartialEq)]
pub struct LadderGames {
    /// Version of the engine's rules.
    pub rules: u32,
    /// The rule stack as typed.
    pub arm: String,
    /// Names of the players.
    pub players: Vec<String>,
    /// Names of the scenarios.
    pub scenarios: Vec<String>,
    /// The player whose strength is 0, by his place in `players`.
    pub reference: usize,
    /// Seed of the run.
    pub seed: u64,
    /// Games planned for each attacker against each defender.
    pub games_per_pairing: u32,
    /// The games, in any order. One whose players or scenario are not in the lists is left out.
    pub rows: Vec<LadderRow>,
    /// Games worth a look.
    pub tickets: Vec<TicketNote>,
}

/// The games in a fixed order: by scenario, then seed, then players.
pub(super) struct Sorted {
    pub(super) rows: Vec<LadderRow>,
    pub(super) scenarios: usize,
}

impl Sorted {
    pub(super) fn of(games: &LadderGames) -> Sorted {
        let (players, scenarios) = (games.players.len(), games.scenarios.len());
        let known =
            |r: &&LadderRow| r.attacker < players && r.defender < players && r.scenario < scenarios;
        let mut rows: Vec<LadderRow> = games.rows.iter().filter(known).copied().collect();
        rows.sort_unstable_by_key(|r| (r.scenario, r.seed, r.attacker, r.defender, r.outcome));
        Sorted { rows, scenarios }
    }

    /// For every scenario, the games of each seed.
    pub(super) fn by_luck(&self) -> Vec<Vec<&[LadderRow]>> {
        let mut scenarios = vec![Vec::new(); self.scenarios];
        for games in self.rows.chunk_by(|a, b| (a.scenario, a.seed) == (b.scenario, b.seed)) {
            scenarios[games[0].scenario].push(games);
        }
        scenarios
    }

    /// The games as the errors of strengths see them.
    pub(super) fn played(&self) -> Vec<Vec<Vec<Played>>> {
        let played = |r: &LadderRow| Played {
            attacker: r.attacker,
            defender: r.defender,
            won: r.outcome.attacker_share(),
        };
        let seed = |games: &&[LadderRow]| games.iter().map(played).collect();
        self.by_luck().iter().map(|seeds| seeds.iter().map(seed).collect()).collect()
    }

    /// The count of results of every pairing that was played, by attacker, then defender.
    pub(super) fn pairings(&self, players: usize) -> Vec<Pairing> {
        let empty = |n: usize| Pairing {
            attacker: n / players,
            defender: n % players,
            wins: 0,
            draws: 0,
            losses: 0,
        };
        let mut table: Vec<Pairing> = (0..players * players).map(empty).collect();
        for row in &self.rows {
            let pairing = &mut table[row.attacker * players + row.defender];
            match row.outcome {
                Outcome::Attacker => pairing.wins += 1,
                Outcome::Draw => pairing.draws += 1,
                Outcome::Defender => pairing.losses += 1,
            }
        }
        table.retain(|p| p.wins + p.draws + p.losses > 0);
        table
    }
}
