//! Small made ladders for the unit tests.

use super::games::{LadderGames, LadderRow, Outcome};

/// Attacker, defender, scenario and outcome of one made game.
pub(super) type Made = (usize, usize, usize, Outcome);

/// A ladder in two scenarios, `hill` and `meeting`, every game with a seed of its own.
pub(super) fn games(players: &[&str], rows: &[Made]) -> LadderGames {
    let row = |(n, &(attacker, defender, scenario, outcome)): (usize, &Made)| LadderRow {
        attacker,
        defender,
        scenario,
        seed: n as u64,
        outcome,
    };
    LadderGames {
        rules: 1,
        arm: "base".into(),
        players: players.iter().map(|&name| name.into()).collect(),
        scenarios: vec!["hill".into(), "meeting".into()],
        reference: 0,
        seed: 7,
        games_per_pairing: 20,
        rows: rows.iter().enumerate().map(row).collect(),
        tickets: vec![],
    }
}

/// A round robin of 20 games a pairing of which the attacker wins as many as `wins` says.
pub(super) fn round_robin(players: &[&str], wins: impl Fn(usize, usize) -> usize) -> LadderGames {
    let count = players.len();
    let mut rows = Vec::new();
    for (attacker, defender) in (0..count).flat_map(|a| (0..count).map(move |d| (a, d))) {
        let outcome =
            |n| if n < wins(attacker, defender) { Outcome::Attacker } else { Outcome::Defender };
        let games = if attacker == defender { 0 } else { 20 };
        rows.extend((0..games).map(|n| (attacker, defender, n % 2, outcome(n))));
    }
    games(players, &rows)
}
