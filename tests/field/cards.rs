//! Cards and dice of the watched games, against exact chances.

use ruleshift_game::{Card, Cell, Cover, Digest, Event, Kind, Observer, State, Unit};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::crossing::{self, Waits};
use super::shipped::seen;
use super::table::{Row, exact, row};
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Dice thrown and cards drawn.
#[derive(Default)]
pub(super) struct Draws {
    one: Sample,
    two: Sample,
    /// Hits beyond the mean of the binomial, in its standard deviations.
    hits: Sample,
    /// Squares whose cover stops no hit.
    bare: Vec<bool>,
    turn: Vec<Card>,
    /// Whether a card drawn had been drawn in the turn before.
    again: Sample,
}

impl Draws {
    /// For games of this stage.
    pub(super) fn new(stage: &Stage) -> Draws {
        let bare = Cell::all().map(|cell| stage.arena.cover(cell) <= Cover::Light).collect();
        Draws { bare, ..Draws::default() }
    }

    pub(super) fn see(&mut self, event: &Event, state: &State) {
        match *event {
            Event::MarkerMoved { inches, .. } => self.one.add(inches.into()),
            Event::UnitMoved { unit, inches, .. } => {
                let unit = &state.units()[unit as usize];
                if unit.kind == Kind::Leader && unit.pins == 0 {
                    self.two.add(inches.into());
                }
            }
            // Hits that cover stops are not told (RULES 7.7).
            Event::Fired { target, dice, needed, hits, .. }
                if needed < 7 && self.is_bare(&state.units()[target as usize]) =>
            {
                let (p, n) = (f64::from(7 - needed) / 6.0, f64::from(dice));
                self.hits.add((f64::from(hits) - n * p) / (n * p * (1.0 - p)).sqrt());
            }
            Event::TurnStarted { .. } => self.turn.clear(),
            Event::CardDrawn { card } => {
                self.again.add(f64::from(u8::from(self.turn.contains(&card))));
                self.turn.push(card);
            }
            _ => {}
        }
    }
}

impl Draws {
    fn is_bare(&self, unit: &Unit) -> bool {
        self.bare[unit.at.index()] && !unit.dug_in
    }
}

/// Digest of a game's events.
struct Told(Digest);

impl Observer for Told {
    fn event(&mut self, event: &Event, _: &State) {
        event.digest(&mut self.0);
    }
}

/// Share of games that come out otherwise when they are played again.
fn differing() -> f64 {
    let digest = |stage: &Stage, seed| {
        let mut told = Told(Digest::new());
        stage.doctrines(seed, ["steady", "bold"], &mut told);
        told.0.value()
    };
    let differs = |seed: u64| {
        SCENARIOS.iter().map(move |(scenario, _)| {
            let stage = Stage::shipped(scenario);
            f64::from(u8::from(digest(&stage, seed) != digest(&stage, seed)))
        })
    };
    (0..4).flat_map(differs).collect::<Sample>().mean()
}

fn all(part: impl Fn(&Draws) -> Sample) -> Sample {
    let mut all = Sample::default();
    seen().iter().for_each(|seen| all.merge(&part(&seen.draws)));
    all
}

pub(super) fn rows() -> Vec<Row> {
    let [one, two] = [all(|draws| draws.one), all(|draws| draws.two)];
    let deviation = |sample: &Sample| sample.variance().sqrt();
    let Waits { drawn, number, empty, three, .. } = crossing::waits(ruleshift_game::Rules::base());
    vec![
        exact(1, "one die, mean", &one, 3.5),
        row(1, "one die, deviation", deviation(&one), (1.69, 1.73), "C"),
        exact(2, "two dice, mean", &two, 7.0),
        row(2, "two dice, deviation", deviation(&two), (2.37, 2.46), "C"),
        exact(3, "a card comes, one end card", &drawn, 0.5),
        exact(4, "cards of two that come, mean", &number, 1.0),
        row(4, "the same, variance", number.variance(), (0.65, 0.68), "C: 2/3"),
        exact(5, "no card of two comes", &empty, 1.0 / 3.0),
        exact(6, "idle in three given turns", &three, 1.0 / 8.0),
        row(8, "games that differ when played again", differing(), (0.0, 0.0), "none may"),
        exact(9, "hits beyond the binomial, deviations", &all(|draws| draws.hits), 0.0),
        row(10, "cards drawn twice in a turn", all(|d| d.again).mean(), (0.0, 0.0), "RULES 2.4"),
    ]
}
