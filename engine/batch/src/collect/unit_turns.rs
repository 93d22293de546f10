//! How units stand at the end of each turn: idle, pinned, suppressed, dug in.

use ruleshift_game::limits::MAX_UNITS;
use ruleshift_game::{Event, Rules, State};
use ruleshift_record::Metric;

use super::sheet::Sheet;

/// Units on the table, turn end by turn end.
///
/// - Idle, suppressed, dug in: unit-turns over all unit-turns; shares, 0 to 1, and 0 without any.
/// - Pins on a unit: the mean, from 0.
/// - Longest wait: turns in a row that one unit went without an activation; from 0 to turns played.
/// - Pins given, rallies, units broken: counts from 0.
///
/// Ruleshift's own, no published measure.
#[derive(Clone)]
pub(super) struct UnitTurns {
    all: u32,
    idle: u32,
    suppressed: u32,
    dug_in: u32,
    pins: u32,
    waits: [u8; MAX_UNITS],
    longest_wait: u8,
    pins_given: u32,
    rallies: u32,
    broken: u32,
}

impl UnitTurns {
    pub(super) const NONE: UnitTurns = UnitTurns {
        all: 0,
        idle: 0,
        suppressed: 0,
        dug_in: 0,
        pins: 0,
        waits: [0; MAX_UNITS],
        longest_wait: 0,
        pins_given: 0,
        rallies: 0,
        broken: 0,
    };

    pub(super) fn event(&mut self, event: &Event, state: &State, rules: &Rules) {
        match *event {
            Event::PinsAdded { pins, .. } => self.pins_given += u32::from(pins),
            Event::Rallied { .. } => self.rallies += 1,
            Event::UnitBroke { .. } => self.broken += 1,
            Event::TurnEnded { .. } => self.turn_end(state, rules),
            _ => {}
        }
    }

    fn turn_end(&mut self, state: &State, rules: &Rules) {
        for (id, unit) in state.on_table() {
            let idle = !unit.activated && state.groups()[unit.group as usize].used == 0;
            self.all += 1;
            self.idle += u32::from(idle);
            self.pins += u32::from(unit.pins);
            self.suppressed += u32::from(unit.suppressed(rules));
            self.dug_in += u32::from(unit.dug_in);
            let wait = &mut self.waits[id as usize];
            *wait = if idle { *wait + 1 } else { 0 };
            self.longest_wait = self.longest_wait.max(*wait);
        }
    }

    pub(super) fn report(&self, to: &mut Sheet) {
        to.ratio(Metric::IdleUnits, self.idle, self.all);
        to.ratio(Metric::MeanPins, self.pins, self.all);
        to.ratio(Metric::SuppressedUnits, self.suppressed, self.all);
        to.ratio(Metric::DugIn, self.dug_in, self.all);
        to.count(Metric::LongestWait, self.longest_wait.into());
        to.count(Metric::PinsGiven, self.pins_given);
        to.count(Metric::Rallies, self.rallies);
        to.count(Metric::UnitsBroken, self.broken);
    }
}
