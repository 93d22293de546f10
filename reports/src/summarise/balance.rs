//! The attacker's wins under each arm: in all games, by scenario and by pairing of players.

use ruleshift_record::{Balance, Metric, Plan, RunRecord};

use super::players::names;
use crate::stats::{CONFIDENCE, wilson};

/// Games, and who won them.
#[derive(Clone, Copy, Default)]
struct Count {
    games: u32,
    wins: u32,
    drawn: u32,
}

impl Count {
    fn note(&mut self, won: bool, drawn: bool) {
        self.games += 1;
        self.wins += u32::from(won);
        self.drawn += u32::from(drawn);
    }

    /// `None` without games.
    fn told(self, arm: &str) -> Option<Balance> {
        let Count { games, wins, drawn } = self;
        let interval = wilson(wins.into(), games.into(), CONFIDENCE)?;
        Some(Balance {
            arm: arm.to_owned(),
            scenario: None,
            players: None,
            games,
            wins,
            drawn,
            share: f64::from(wins) / f64::from(games),
            low: interval.low,
            high: interval.high,
        })
    }
}

/// The balance of each arm: over all games, of each scenario, of each pairing if there are several.
pub(super) fn balance(run: &RunRecord) -> Vec<Balance> {
    run.plan.compared().flat_map(|arm| of(run, arm)).collect()
}

fn of(run: &RunRecord, arm: usize) -> Vec<Balance> {
    let plan = &run.plan;
    let pairings = plan.pairings.len();
    let mut all = Count::default();
    let mut scenarios = vec![Count::default(); plan.scenarios.len()];
    let mut players = vec![Count::default(); if pairings > 1 { pairings } else { 0 }];
    let won = run.games.column(arm, Metric::AttackerWins).into_iter().map(|won| won >= 0.5);
    let drawn = run.games.column(arm, Metric::Drawn).into_iter().map(|drawn| drawn >= 0.5);
    for ((scenario, game), (won, drawn)) in run.games.keys(arm).zip(won.zip(drawn)) {
        // Games of a scenario that the plan lacks are not counted anywhere.
        let Some(own) = scenarios.get_mut(scenario) else { continue };
        own.note(won, drawn);
        all.note(won, drawn);
        if let Some(own) = players.get_mut(game as usize % pairings.max(1)) {
            own.note(won, drawn);
        }
    }
    told(plan, arm, all, &scenarios, &players)
}

fn told(
    plan: &Plan,
    arm: usize,
    all: Count,
    scenarios: &[Count],
    players: &[Count],
) -> Vec<Balance> {
    let name = &plan.arms[arm].name;
    let scenario = |(n, count): (usize, &Count)| {
        let scenario = Some(plan.scenarios[n].name.clone());
        Some(Balance { scenario, ..count.told(name)? })
    };
    let pairing = |(n, count): (usize, &Count)| {
        let (attacker, defender) = names(plan, n);
        let players = Some((attacker.to_owned(), defender.to_owned()));
        Some(Balance { players, ..count.told(name)? })
    };
    let scenarios = scenarios.iter().enumerate().filter_map(scenario);
    let players = players.iter().enumerate().filter_map(pairing);
    all.told(name).into_iter().chain(scenarios).chain(players).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn wins_are_counted_by_scenario_and_by_pairing() {
        let games = vec![(0, 0, 1.0), (0, 1, -1.0), (0, 2, 2.0), (1, 0, 3.0), (7, 0, 1.0)];
        let mut run = sample::run(&[games, vec![]]);
        let told = |run: &RunRecord| -> Vec<(Option<String>, Option<String>, u32, u32)> {
            let of = |b: Balance| (b.scenario, b.players.map(|p| p.1), b.wins, b.games);
            balance(run).into_iter().map(of).collect()
        };
        let [hill, meeting] = ["hill", "meeting"].map(|name| Some(name.to_owned()));
        let alone = [(None, None, 3, 4), (hill, None, 2, 3), (meeting, None, 1, 1)];
        assert_eq!(told(&run), alone);
        run.plan.pairings = vec![sample::pairing("bold", "bold"), sample::pairing("bold", "rash")];
        let [bold, rash] = ["bold", "rash"].map(|name| Some(name.to_owned()));
        assert_eq!(told(&run)[3..], [(None, bold, 3, 3), (None, rash, 0, 1)]);
    }

    #[test]
    fn the_interval_of_a_share_is_that_of_wilson() {
        // 81 of 263: 0.2553 to 0.3662 (Newcombe 1998, Statistics in Medicine 17:857-872, table I).
        let games = (0..263).map(|g| (0, g, if g < 81 { 1.0 } else { -1.0 })).collect();
        let all = balance(&sample::run(&[games])).remove(0);
        let rounded = [all.share, all.low, all.high].map(|v| (v * 1e4).round() / 1e4);
        assert_eq!((all.drawn, rounded), (0, [0.3080, 0.2553, 0.3662]));
    }
}
