//! Failing light: how far is seen and fired.

use ruleshift_game::{Event, Observer, Rules, State};

use super::table::{Row, row};
use crate::support::stage::{Stage, stack};
use crate::support::stats::Sample;

const GAMES: u64 = 150;
/// Full light to here, as the variant has it.
const BRIGHT: u16 = 4;

/// Inches of shots, in full light and after.
#[derive(Default)]
struct Shots([Sample; 2]);

impl Observer for Shots {
    fn event(&mut self, event: &Event, state: &State) {
        if let Event::Fired { unit, target, blast: false, .. } = *event {
            let [from, to] = [unit, target].map(|unit| state.units()[unit as usize].at);
            self.0[usize::from(state.turn() > BRIGHT)].add(from.range(to).into());
        }
    }
}

fn shots(rules: Rules) -> [Sample; 2] {
    let stage = Stage::changed("hasty-attack", rules, |_| {});
    let mut shots = Shots::default();
    for seed in 0..GAMES {
        stage.doctrines(seed, ["steady", "steady"], &mut shots);
    }
    shots.0
}

pub(super) fn rows() -> Vec<Row> {
    let dusk = stack("dusk").rules().unwrap();
    let limit = |turn| f64::from(dusk.sight_limit(turn));
    let sight = limit(7) / limit(4);
    let [[_, day], [_, late]] = [shots(Rules::base()), shots(dusk)];
    let manual = "FM 21-18, M sign";
    vec![
        row(33, "sight with the variant dusk, turn 7 / turn 4", sight, (0.0, 0.99), manual),
        row(
            33,
            "inches of late shots, dusk / light",
            late.mean() / day.mean(),
            (0.0, 0.99),
            manual,
        ),
    ]
}
