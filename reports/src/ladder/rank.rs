//! From the games of a ladder to its answer.

use ruleshift_record::{
    FORMAT, LadderFit, LadderPairing, LadderPlayer, LadderScenario, LadderShare, LadderStrength,
    LadderSummary,
};
use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::caveats::caveats;
use super::games::{LadderGames, Sorted};
use super::headline::headline;
use super::places::Places;
use super::rivals::rivals;
use super::shares::Question;
use crate::stats::{
    CONFIDENCE, LogOdds, NoStrengths, Pairing, SideTerm, Strengths, chance, strengths,
};

/// Ranks the players of a ladder.
///
/// Strengths come from who beat whom, with one advantage for the attacker; their errors, and those
/// of all shares, from how much games of different seeds differ within a scenario. Games that do
/// not connect all players give shares but no strengths, and a caveat that says why.
pub fn rank(games: &LadderGames) -> LadderSummary {
    let ladder = Ladder::of(games);
    let mut summary = LadderSummary {
        format: FORMAT,
        rules: games.rules,
        arm: games.arm.clone(),
        headline: vec![],
        players: ladder.players(),
        reference: games.players.get(games.reference).cloned().unwrap_or_default(),
        advantage: ladder.fit().and_then(Strengths::advantage).map(strength),
        attacker: Question::default().answer(&ladder.sorted),
        rivals: rivals(games, &ladder.sorted, &ladder.places.order),
        pairings: ladder.pairings(),
        scenarios: ladder.scenarios(),
        fit: ladder.fit().map(fit),
        seed: games.seed,
        games_per_pairing: games.games_per_pairing,
        caveats: vec![],
        tickets: games.tickets.clone(),
    };
    summary.headline = headline(&summary);
    summary.caveats = caveats(&summary, ladder.fit.as_ref().err(), &games.players);
    summary
}

/// The games, the strengths they make and the order that makes.
struct Ladder<'a> {
    games: &'a LadderGames,
    sorted: Sorted,
    met: Vec<Pairing>,
    fit: Result<Strengths, NoStrengths>,
    places: Places,
}

impl<'a> Ladder<'a> {
    fn of(games: &'a LadderGames) -> Ladder<'a> {
        let sorted = Sorted::of(games);
        let count = games.players.len();
        let met = sorted.pairings(count);
        let fit = strengths(count, &met, games.reference, SideTerm::Attacker)
            .map(|fit| fit.with_luck(&sorted.played()));
        let share = |p| Question::of(p).answer(&sorted).map_or(0.0, |s| s.share);
        let shares: Vec<f64> = (0..count).map(share).collect();
        let places = Places::of(count, fit.as_ref().ok(), &shares);
        Ladder { games, sorted, met, fit, places }
    }

    fn fit(&self) -> Option<&Strengths> {
        self.fit.as_ref().ok()
    }

    fn name(&self, player: usize) -> String {
        self.games.players[player].clone()
    }

    fn players(&self) -> Vec<LadderPlayer> {
        let player = |(rank, &number): (usize, &usize)| {
            let (place, place_last) = self.places.places(rank);
            let asked = Question::of(number);
            LadderPlayer {
                name: self.name(number),
                wins: asked.answer(&self.sorted),
                attacking: asked.attacking(true).answer(&self.sorted),
                defending: asked.attacking(false).answer(&self.sorted),
                strength: self.fit().map(|fit| strength(fit.of(number))),
                place,
                place_last,
            }
        };
        self.places.order.iter().enumerate().map(player).collect()
    }

    fn pairings(&self) -> Vec<LadderPairing> {
        let rank = |player: usize| self.places.order.iter().position(|o| *o == player);
        let mut met = self.met.clone();
        met.sort_by_key(|p| (rank(p.attacker), rank(p.defender)));
        let pairing = |p: &Pairing| {
            let asked = Question::of(p.attacker).against(p.defender).attacking(true);
            Some(LadderPairing {
                attacker: self.name(p.attacker),
                defender: self.name(p.defender),
                wins: p.wins,
                draws: p.draws,
                losses: p.losses,
                share: asked.answer(&self.sorted)?,
                foreseen: self.fit().map(|fit| fit.attacker_chance(p.attacker, p.defender)),
            })
        };
        met.iter().filter_map(pairing).collect()
    }

    fn scenarios(&self) -> Vec<LadderScenario> {
        let scenario = |(number, name): (usize, &String)| {
            let player = |p: &usize| -> Option<LadderShare> {
                Question::of(*p).within(number).answer(&self.sorted)
            };
            LadderScenario {
                name: name.clone(),
                attacker: Question::default().within(number).answer(&self.sorted),
                players: self.places.order.iter().map(player).collect(),
            }
        };
        self.games.scenarios.iter().enumerate().map(scenario).collect()
    }
}

fn strength(odds: LogOdds) -> LadderStrength {
    let interval = odds.interval(CONFIDENCE);
    LadderStrength {
        strength: odds.value,
        low: interval.low,
        high: interval.high,
        chance: chance(odds.value),
        chance_low: chance(interval.low),
        chance_high: chance(interval.high),
    }
}

fn fit(strengths: &Strengths) -> LadderFit {
    let tail = ChiSquared::new(strengths.df as f64).map(|chi| chi.sf(strengths.deviance));
    LadderFit {
        deviance: strengths.deviance,
        df: strengths.df as u32,
        p: tail.unwrap_or(1.0),
        added: strengths.added,
    }
}
