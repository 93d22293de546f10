//! Pins come off, sides give way.

use ruleshift_game::{Event, Kind, Rules, Side, State};

use super::shipped::seen;
use super::surely_above;
use super::table::{Row, row};
use crate::support::stats::Sample;

/// What the watched games say about will.
#[derive(Default)]
pub(super) struct Will {
    rules: Rules,
    recovered: Vec<(u8, u8)>,
    /// Whether a pinned unit lost a pin at turn end: without a leader, by whether it was fired at.
    unled: [Sample; 2],
    /// The same of units that were not fired at, by whether a leader was near.
    quiet: [Sample; 2],
    /// Whether a tested side broke, by losses: to 44, 49, 54, 59 percent and beyond.
    tests: [Sample; 5],
    /// Inches of a section's move: without pins, with two or more.
    pub(super) moves: [Sample; 2],
}

impl Will {
    pub(super) fn see(&mut self, event: &Event, state: &State) {
        match *event {
            Event::Recovered { unit, pins } => self.recovered.push((unit, pins)),
            Event::TurnEnded { .. } => {
                self.turn_over(state);
                self.recovered.clear();
            }
            Event::SideTested { side, rolled, needed } => self.tested(side, rolled < needed, state),
            Event::UnitMoved { unit, inches, .. } => {
                let unit = &state.units()[unit as usize];
                if unit.kind == Kind::Section && unit.pins != 1 {
                    self.moves[usize::from(unit.pins > 1)].add(inches.into());
                }
            }
            _ => {}
        }
    }

    fn turn_over(&mut self, state: &State) {
        for (id, unit) in state.on_table() {
            let off = self.recovered.iter().find(|(other, _)| *other == id).map_or(0, |(_, p)| *p);
            if unit.pins + off == 0 {
                continue;
            }
            let led = state.on_table().any(|(_, leader)| {
                let radius = |grade| self.rules.leader_radius(grade);
                leader.kind == Kind::Leader
                    && leader.side == unit.side
                    && i32::from(leader.at.range(unit.at)) <= radius(leader.grade)
            });
            let cleared = f64::from(u8::from(off > 0));
            if !led {
                self.unled[usize::from(unit.under_fire)].add(cleared);
            }
            if !unit.under_fire {
                self.quiet[usize::from(led)].add(off.into());
            }
        }
    }

    fn tested(&mut self, side: Side, broke: bool, state: &State) {
        let (lost, first) = state.losses(side);
        let percent = lost * 100 / first;
        let bin = (percent.saturating_sub(40) / 5).min(4) as usize;
        self.tests[bin].add(f64::from(u8::from(broke)));
    }
}

/// What all scenarios say.
fn all() -> Will {
    let mut all = Will::default();
    for Will { unled, quiet, tests, moves, .. } in seen().iter().map(|seen| &seen.will) {
        let parts = unled.iter().chain(quiet).chain(tests).chain(moves);
        let Will { unled, quiet, tests, moves, .. } = &mut all;
        let sums = unled.iter_mut().chain(quiet).chain(tests).chain(moves);
        sums.zip(parts).for_each(|(sum, part)| sum.merge(part));
    }
    all
}

/// Row 23: pins come off faster without fire (Dupuy, p. 251, S).
#[test]
fn pins_come_off_without_fire() {
    let [quiet, under_fire] = &all().unled;
    surely_above("quiet over under fire", quiet, under_fire);
}

/// Row 24: a leader near raises recovery (doctrine, P; the rule exists to say so).
#[test]
fn leaders_take_pins_off() {
    let [alone, led] = &all().quiet;
    surely_above("led over alone", led, alone);
}

/// Row 30: the more a side has lost, the sooner it breaks, but at no one value (two studies, S).
#[test]
fn sides_break_by_chance_not_at_a_line() {
    let all = all();
    let tests: Vec<&Sample> = all.tests.iter().filter(|test| test.count > 50.0).collect();
    assert!(tests.len() >= 3, "{} bins", tests.len());
    surely_above("heaviest losses over lightest", tests[tests.len() - 1], tests[0]);
    let middle = &tests[..tests.len() - 1];
    assert!(middle.iter().all(|test| (0.02..0.98).contains(&test.mean())), "no line decides");
}

pub(super) fn rows() -> Vec<Row> {
    let will = all();
    vec![
        row(
            23,
            "pinned unit alone clears a pin, quiet",
            will.unled[0].mean(),
            (0.3, 1.0),
            "S sign",
        ),
        row(23, "the same, fired at", will.unled[1].mean(), (0.0, 0.3), "S sign"),
        row(
            24,
            "pins off, led / alone",
            will.quiet[1].mean() / will.quiet[0].mean(),
            (1.0, 4.0),
            "P sign",
        ),
        row(30, "side breaks at 40 to 44 % lost", will.tests[0].mean(), (0.02, 0.98), "S sign"),
        row(30, "side breaks at 50 to 54 % lost", will.tests[2].mean(), (0.02, 0.98), "S sign"),
        row(
            33,
            "move with two pins or more / without",
            will.moves[1].mean() / will.moves[0].mean(),
            (0.2, 0.99),
            "M sign",
        ),
    ]
}
