//! Games of the shipped scenarios between steady players, watched once for all checks.

use std::sync::OnceLock;

use ruleshift_batch::Collector;
use ruleshift_game::{EndCause, Event, Observer, State};
use ruleshift_record::{Metric, Timing, Values};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use super::sighting::Sighting;
use super::surely_above;
use super::table::Row;
use super::will::Will;
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Games of each scenario.
const GAMES: u64 = 3_000;

/// What was seen.
pub(super) struct Seen {
    /// Metrics of each game, by scenario.
    pub(super) values: Vec<Vec<Values>>,
    pub(super) causes: [u32; 3],
    pub(super) sighting: Sighting,
    pub(super) will: Will,
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
        if let Event::GameEnded { cause, .. } = *event {
            self.seen.causes[cause as usize] += 1;
        }
    }
}

/// The games, played at the first call.
pub(super) fn seen() -> &'static Seen {
    static SEEN: OnceLock<Seen> = OnceLock::new();
    SEEN.get_or_init(|| {
        let mut seen = Seen {
            values: vec![],
            causes: [0; 3],
            sighting: Sighting::default(),
            will: Will::default(),
        };
        for (scenario, _) in SCENARIOS {
            let values = watch(&Stage::shipped(scenario), &mut seen);
            seen.values.push(values);
        }
        seen
    })
}

fn watch(stage: &Stage, seen: &mut Seen) -> Vec<Values> {
    let timing = Timing::default();
    let mut games = Vec::new();
    seen.sighting.on(stage);
    for seed in 0..GAMES {
        let collector = Collector::new(&timing, &stage.rules);
        let mut watch = Watch { collector, seen: &mut *seen };
        stage.doctrines(seed, ["steady", "steady"], &mut watch);
        games.push(*watch.collector.values());
    }
    games
}

/// One metric of all games, in rising order.
fn sorted(metric: Metric) -> Vec<f64> {
    let all = seen().values.iter().flatten();
    let mut values: Vec<f64> = all.map(|values| values[metric as usize]).collect();
    values.sort_by(f64::total_cmp);
    values
}

fn quantile(values: &[f64], share: f64) -> f64 {
    values[((values.len() - 1) as f64 * share).round() as usize]
}

fn mean(metric: Metric) -> f64 {
    sorted(metric).into_iter().collect::<Sample>().mean()
}

/// Row 17: the loser loses the larger share (Dupuy's verity 3, S). Draws are left out.
#[test]
fn losers_lose_more() {
    let all = seen().values.iter().flatten();
    let decided: Vec<_> = all.filter(|v| v[Metric::Drawn as usize] == 0.0).collect();
    let of = |metric: Metric| decided.iter().map(|v| v[metric as usize]).collect::<Sample>();
    surely_above(
        "loser's share over winner's",
        &of(Metric::LoserLosses),
        &of(Metric::WinnerLosses),
    );
}

pub(super) fn rows() -> Vec<Row> {
    let (loser, winner) = (sorted(Metric::LoserLosses), sorted(Metric::WinnerLosses));
    let causes = seen().causes;
    let wiped_out = f64::from(causes[EndCause::NobodyLeft as usize]);
    let other = 1.0 - wiped_out / f64::from(causes.iter().sum::<u32>());
    let width = quantile(&loser, 0.9) - quantile(&loser, 0.1);
    let row = |number, what, value, range, source| Row { number, what, value, range, source };
    vec![
        row("26", "games not ended by the loss of a whole side", other, (0.5, 1.0), "McQuie, S"),
        row("27", "loser's losses, median", quantile(&loser, 0.5), (0.20, 0.45), "M"),
        row("28", "winner's losses, median", quantile(&winner, 0.5), (0.05, 0.25), "M"),
        row("29", "loser's losses, 10 % to 90 % width", width, (0.15, 1.0), "M"),
        row("47", "draws", mean(Metric::Drawn), (0.0, 0.1), "P"),
        row("48", "lead changes in a game", mean(Metric::LeadChanges), (0.5, 5.0), "P"),
        row(
            "49",
            "game left after the last change of lead",
            1.0 - mean(Metric::NoReturn),
            (0.0, 0.3),
            "P",
        ),
        row("51", "minutes at the table", mean(Metric::Minutes), (150.0, 240.0), "P"),
        row("51", "turns", mean(Metric::Turns), (6.0, 10.0), "P"),
    ]
}
