//! The course of a game: when it is settled, and how many options its length leaves.

use ruleshift_game::{Choice, Event, Observer, Player, Side, State, View};
use ruleshift_players::player;
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::shipped::seen;
use super::table::{Row, row};
use crate::support::stage::{Stage, doctrine};
use crate::support::stats::Sample;

/// Leads on points, and tenths of strength lost more than the enemy, that count; beyond, as these.
const POINTS: i16 = 4;
const TENTHS: i16 = 3;
/// Pairs of them.
const PLACES: usize = (2 * POINTS as usize + 1) * (2 * TENTHS as usize + 1);
/// A game is settled while the chance to win lies outside these.
const OPEN: std::ops::RangeInclusive<f64> = 0.1..=0.9;

/// How the attacker stands after each turn, and his score, of each game.
#[derive(Default)]
pub(super) struct Course {
    leads: Vec<usize>,
    games: Vec<(Vec<usize>, f64)>,
}

impl Course {
    pub(super) fn see(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Scored { attacker, defender } => {
                self.leads.push(place(attacker - defender, state));
            }
            Event::GameEnded { winner, .. } => {
                let score = winner.map_or(0.5, |side| f64::from(u8::from(side == Side::Attacker)));
                self.games.push((std::mem::take(&mut self.leads), score));
            }
            _ => {}
        }
    }

    /// Share of each game that is played when the chance to win, as the other games with the same
    /// lead and losses after the same turn have it, has left the open range for good.
    fn settled(&self) -> Sample {
        let turns = self.games.iter().map(|(leads, _)| leads.len()).max().unwrap_or(0);
        let mut chances = vec![[Sample::default(); PLACES]; turns];
        for (leads, score) in &self.games {
            for (turn, &lead) in leads.iter().enumerate() {
                chances[turn][lead].add(*score);
            }
        }
        let settled = |(leads, _): &(Vec<usize>, f64)| {
            let open = leads.iter().enumerate().rposition(|(turn, &lead)| {
                let chance = &chances[turn][lead];
                // Half a case each way, so that a rare lead does not seem certain.
                OPEN.contains(&((chance.mean() * chance.count + 0.5) / (chance.count + 1.0)))
            });
            let after = leads.len() - open.map_or(0, |turn| turn + 1);
            after as f64 / leads.len().max(1) as f64
        };
        self.games.iter().map(settled).collect()
    }
}

/// A number for the lead on points and in losses.
fn place(lead: i16, state: &State) -> usize {
    let tenths = |side| {
        let (lost, first) = state.losses(side);
        (10 * lost / first.max(1)) as i16
    };
    let ahead = tenths(Side::Defender) - tenths(Side::Attacker);
    let (points, losses) = (lead.clamp(-POINTS, POINTS), ahead.clamp(-TENTHS, TENTHS));
    ((points + POINTS) * (2 * TENTHS + 1) + losses + TENTHS) as usize
}

/// A player whose options are counted.
struct Counted<'a> {
    player: Box<dyn Player>,
    options: &'a std::cell::RefCell<Sample>,
}

impl Player for Counted<'_> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        self.options.borrow_mut().add(choices.len() as f64);
        self.player.choose(view, choices)
    }
}

/// Decisions of a game.
#[derive(Default)]
struct Length(Sample);

impl Observer for Length {
    fn event(&mut self, event: &Event, _: &State) {
        if let Event::GameEnded { decisions, .. } = *event {
            self.0.add(decisions.into());
        }
    }
}

/// Options of a decision and decisions of a game, over all scenarios.
fn options() -> (f64, f64) {
    let (options, mut length) = (std::cell::RefCell::default(), Length::default());
    for (scenario, _) in SCENARIOS {
        let stage = Stage::shipped(scenario);
        let make =
            || Counted { player: player(&doctrine("steady"), &stage.rules), options: &options };
        for seed in 0..20 {
            stage.play(seed, &mut make(), &mut make(), &mut length);
        }
    }
    (options.into_inner().mean(), length.0.mean())
}

pub(super) fn rows() -> Vec<Row> {
    let mut settled = Sample::default();
    seen().iter().for_each(|seen| settled.merge(&seen.course.settled()));
    let (options, length) = options();
    let [du_sautoy, iida] = ["du Sautoy S idea, P", "Iida, S formula, talk 2013"];
    vec![
        row(49, "share of a game played when it is settled", settled.mean(), (0.0, 0.3), du_sautoy),
        row(
            50,
            "root of options / decisions of a game",
            options.sqrt() / length,
            (0.07, 0.08),
            iida,
        ),
        row(50, "options of a decision", options, (2.0, 40.0), "show"),
    ]
}
