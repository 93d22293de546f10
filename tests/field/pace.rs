//! Men and vehicles across the open: how far an action takes them.

use ruleshift_game::{Cell, Event, Kind, Observer, Rules, State};

use super::crossing::{Still, Walker};
use super::table::{Row, row};
use crate::support::stage::{Stage, group, plain, side};
use crate::support::stats::Sample;

const GAMES: u64 = 2_000;

/// Inches of the first move action of each game: there is room for all of it.
#[derive(Default)]
struct Pace {
    from: Option<Cell>,
    inches: Sample,
}

impl Observer for Pace {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::UnitPlaced { unit: 0, at } => self.from = Some(at),
            Event::UnitMoved { unit: 0, to, .. } => {
                if let Some(from) = self.from.take() {
                    self.inches.add(from.range(to).into());
                }
            }
            _ => {}
        }
    }
}

fn pace(kind: Kind, men: u8) -> Sample {
    let mut setup = plain(3);
    setup.sides.0[0] = side(&[(8, 12)], vec![group(&[(kind, men)])]);
    setup.sides.0[1] = side(&[(70, 46)], vec![group(&[(Kind::Section, 10)])]);
    let stage = Stage::new(setup, Rules::base());
    let mut pace = Pace::default();
    for seed in 0..GAMES {
        stage.play(seed, &mut Walker, &mut Still, &mut pace);
    }
    pace.inches
}

pub(super) fn rows() -> Vec<Row> {
    let section = pace(Kind::Section, 10).mean();
    let [tank, carrier] = [Kind::Tank, Kind::Carrier].map(|kind| pace(kind, 3).mean() / section);
    vec![
        row(36, "inches of a section's action in the open", section, (3.4, 3.6), "C: 3.5"),
        row(36, "tank / section, an action in the open", tank, (3.0, 5.0), "M"),
        row(36, "carrier / section, an action in the open", carrier, (3.0, 5.0), "M"),
    ]
}
