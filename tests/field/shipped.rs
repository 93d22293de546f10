//! Games of the shipped scenarios between equal doctrines, watched once for all checks.

use std::sync::OnceLock;
use std::thread;

use ruleshift_batch::Collector;
use ruleshift_game::luck::game_seed;
use ruleshift_game::{Event, Observer, State};
use ruleshift_record::{Metric, Timing, Values};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::batteries::Calls;
use super::cards::Draws;
use super::course::Course;
use super::flanks::Fights;
use super::sighting::Sighting;
use super::surely_above;
use super::table::{Row, row};
use super::uses::Uses;
use super::will::Will;
use crate::support::stage::Stage;
use crate::support::stats::{Sample, quantile};

const SEED: u64 = 1944;

/// Doctrines, each of which plays itself, and games of each scenario.
pub(super) const DOCTRINES: [(&str, u32); 3] =
    [("steady", 2_000), ("cautious", 500), ("bold", 500)];

/// What was seen of one scenario.
pub(super) struct Seen {
    pub(super) scenario: &'static str,
    /// Metrics of each game.
    pub(super) values: Vec<Values>,
    pub(super) sighting: Sighting,
    pub(super) will: Will,
    pub(super) fights: Fights,
    pub(super) calls: Calls,
    pub(super) draws: Draws,
    pub(super) course: Course,
    pub(super) uses: Uses,
}

impl Seen {
    /// One metric of all games.
    pub(super) fn all(&self, metric: Metric) -> Vec<f64> {
        self.values.iter().map(|values| values[metric as usize]).collect()
    }

    pub(super) fn sample(&self, metric: Metric) -> Sample {
        self.all(metric).into_iter().collect()
    }

    pub(super) fn mean(&self, metric: Metric) -> f64 {
        self.sample(metric).mean()
    }
}

struct Watch<'a> {
    collector: Collector<'a>,
    seen: &'a mut Seen,
}

impl Observer for Watch<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.collector.event(event, state);
        self.seen.sighting.see(event, state);
        self.seen.will.see(event, state);
        self.seen.fights.see(event, state);
        self.seen.calls.see(event, state);
        self.seen.draws.see(event, state);
        self.seen.course.see(event, state);
        self.seen.uses.see(event, state);
    }
}

/// All scenarios between steady players.
pub(super) fn seen() -> &'static [Seen] {
    played(0)
}

/// All scenarios between players of one doctrine, played at the first call.
pub(super) fn played(doctrine: usize) -> &'static [Seen] {
    static PLAYED: [OnceLock<Vec<Seen>>; DOCTRINES.len()] = [const { OnceLock::new() }; 3];
    PLAYED[doctrine].get_or_init(|| {
        thread::scope(|scope| {
            let start = |(place, &(scenario, _))| {
                scope.spawn(move || watch(place as u32, scenario, DOCTRINES[doctrine]))
            };
            let running: Vec<_> = SCENARIOS.iter().enumerate().map(start).collect();
            running.into_iter().map(|game| game.join().expect("games end")).collect()
        })
    })
}

/// Each scenario has seeds of its own: with the same ones its dice would be those of the others,
/// and all together no more certain than one.
fn watch(place: u32, scenario: &'static str, (doctrine, games): (&str, u32)) -> Seen {
    let (stage, timing) = (Stage::shipped(scenario), Timing::default());
    let mut seen = Seen {
        scenario,
        values: vec![],
        sighting: Sighting::new(&stage),
        will: Will::default(),
        fights: Fights::default(),
        calls: Calls::default(),
        draws: Draws::new(&stage),
        course: Course::default(),
        uses: Uses::new(&stage),
    };
    for seed in (0..games).map(|game| game_seed(SEED, place, game)) {
        let collector = Collector::new(&timing, stage.table());
        let mut watch = Watch { collector, seen: &mut seen };
        stage.doctrines(seed, [doctrine, doctrine], &mut watch);
        let values = *watch.collector.values();
        seen.values.push(values);
    }
    seen
}

/// One metric of all games of all scenarios.
pub(super) fn every(metric: Metric) -> Vec<f64> {
    seen().iter().flat_map(|seen| seen.all(metric)).collect()
}

pub(super) fn mean(metric: Metric) -> f64 {
    every(metric).into_iter().collect::<Sample>().mean()
}

/// Row 17: the loser loses the larger share (Dupuy's verity 3, S). Draws are left out.
#[test]
fn losers_lose_more() {
    let all = seen().iter().flat_map(|seen| &seen.values);
    let decided: Vec<_> = all.filter(|v| v[Metric::Drawn as usize] == 0.0).collect();
    let of = |metric: Metric| decided.iter().map(|v| v[metric as usize]).collect::<Sample>();
    surely_above(
        "loser's share over winner's",
        &of(Metric::LoserLosses),
        &of(Metric::WinnerLosses),
    );
}

/// Inches of a section's move without pins, over yards a minute: what an action stands for.
fn minutes_of_a_move(yards_a_minute: f64) -> f64 {
    let mut moves = Sample::default();
    seen().iter().for_each(|seen| moves.merge(&seen.will.moves[0]));
    let yards_an_inch = 10.0;
    moves.mean() * yards_an_inch / yards_a_minute
}

/// Minutes of the games that are meant for a whole evening.
fn without_first() -> f64 {
    let evening = seen().iter().filter(|seen| !seen.scenario.starts_with("first-"));
    evening.map(|seen| seen.mean(Metric::Minutes)).collect::<Sample>().mean()
}

pub(super) fn rows() -> Vec<Row> {
    let (loser, winner) = (every(Metric::LoserLosses), every(Metric::WinnerLosses));
    let other = 1.0 - mean(Metric::EndedByAnnihilation);
    let width = quantile(&loser, 0.9) - quantile(&loser, 0.1);
    let more = mean(Metric::LoserLosses) / mean(Metric::WinnerLosses);
    let mut rows = vec![
        row(17, "losses, loser / winner", more, (1.0, 5.0), "Dupuy, S sign"),
        row(26, "games not ended by the loss of a whole side", other, (0.5, 1.0), "McQuie 1987, S"),
        row(26, "games ended on points", mean(Metric::EndedByObjective), (0.0, 1.0), "show"),
        row(26, "games ended by a break", mean(Metric::EndedByBreak), (0.0, 1.0), "show"),
        row(27, "loser's losses, median", quantile(&loser, 0.5), (0.20, 0.45), "M"),
        row(28, "winner's losses, median", quantile(&winner, 0.5), (0.05, 0.25), "M"),
        row(29, "loser's losses, 10 % to 90 % width", width, (0.15, 1.0), "M"),
        row(34, "minutes of a move at 44 yd/min", minutes_of_a_move(44.0), (0.5, 2.0), "C of M"),
        row(34, "minutes of a move at 27 yd/min", minutes_of_a_move(27.0), (0.5, 2.0), "C of M"),
        row(47, "draws", mean(Metric::Drawn), (0.0, 0.1), "P"),
        row(48, "lead changes in a game", mean(Metric::LeadChanges), (0.5, 5.0), "P"),
        row(51, "minutes at the table", mean(Metric::Minutes), (150.0, 240.0), "P"),
        row(51, "the same, without the first games", without_first(), (150.0, 240.0), "P"),
        row(51, "turns", mean(Metric::Turns), (6.0, 10.0), "P"),
        row(52, "longest wait of a unit, turns", mean(Metric::LongestWait), (0.0, 3.0), "P"),
        row(53, "longest run of enemy cards", mean(Metric::PlayerWait), (0.0, 8.0), "P"),
        row(
            53,
            "the same, 90 % of games",
            quantile(&every(Metric::PlayerWait), 0.9),
            (0.0, 8.0),
            "P",
        ),
    ];
    rows.extend(seen().iter().filter(|seen| seen.uses.batteries).map(|seen| {
        let what = format!("small arms' share of losses, {}", seen.scenario);
        let source = "US Medical Department, S (low end); M";
        row(31, what, seen.mean(Metric::SmallArmsShare), (0.14, 0.7), source)
    }));
    rows
}
