//! Batteries: how long a call takes to tell, and whose the losses are without them.

use std::sync::OnceLock;

use ruleshift_batch::Collector;
use ruleshift_game::limits::MAX_BATTERIES;
use ruleshift_game::{Event, Rules, State};
use ruleshift_record::{Metric, Timing};

use super::shipped::seen;
use super::surely_above;
use super::table::{Row, row};
use crate::support::stage::Stage;
use crate::support::stats::Sample;

/// Games of each scenario without its batteries.
const GAMES: u64 = 400;

/// A call that has not told yet.
#[derive(Clone, Copy, Default)]
struct Call {
    turn: u16,
    fires: u32,
    corrections: u32,
}

/// Calls for shells that came to hit a place with enemies.
#[derive(Default)]
pub(super) struct Calls {
    open: [Option<Call>; MAX_BATTERIES],
    /// Fires and corrections before the first fire on an enemy, and turns from the call to it.
    fires: Sample,
    corrections: Sample,
    turns: Sample,
}

impl Calls {
    pub(super) fn see(&mut self, event: &Event, state: &State) {
        match *event {
            Event::BatteryCalled { battery, smoke, .. } => {
                let call = Call { turn: state.turn(), ..Call::default() };
                self.open[battery as usize] = (!smoke).then_some(call);
            }
            Event::BatteryAdjusted { battery, .. } => {
                if let Some(call) = &mut self.open[battery as usize] {
                    call.corrections += 1;
                }
            }
            Event::BatteryFired { battery, .. } => {
                if let Some(call) = &mut self.open[battery as usize] {
                    call.fires += 1;
                }
            }
            Event::Shelled { battery, target, .. } => {
                let enemy =
                    state.units()[target as usize].side != state.batteries()[battery as usize].side;
                let Some(call) = self.open[battery as usize].filter(|_| enemy) else { return };
                self.fires.add(f64::from(call.fires - 1));
                self.corrections.add(call.corrections.into());
                self.turns.add(f64::from(state.turn() - call.turn));
                self.open[battery as usize] = None;
            }
            Event::GameEnded { .. } => self.open = [None; MAX_BATTERIES],
            _ => {}
        }
    }
}

/// Small arms' share of the losses of each scenario that has batteries: with them, without.
fn shares() -> &'static [(&'static str, Sample, Sample)] {
    static SHARES: OnceLock<Vec<(&str, Sample, Sample)>> = OnceLock::new();
    SHARES.get_or_init(|| {
        let with = seen().iter().filter(|seen| seen.uses.batteries);
        let both = with.map(|seen| {
            let share = seen.sample(Metric::SmallArmsShare);
            (seen.scenario, share, without(seen.scenario))
        });
        both.collect()
    })
}

fn without(scenario: &str) -> Sample {
    let stage = Stage::changed(scenario, Rules::base(), |setup| {
        setup.sides.0.iter_mut().for_each(|side| side.batteries.clear());
    });
    let timing = Timing::default();
    let share = |seed| {
        let mut collector = Collector::new(&timing, stage.table());
        stage.doctrines(seed, ["steady", "steady"], &mut collector);
        collector.values()[Metric::SmallArmsShare as usize]
    };
    (0..GAMES).map(share).collect()
}

/// Row 32: small arms take a larger share when there is no fire from off the table (C).
#[test]
fn without_batteries_small_arms_take_the_larger_share() {
    assert!(shares().len() >= 2, "{} scenarios have batteries", shares().len());
    for (scenario, with, without) in shares() {
        surely_above(&format!("small arms without batteries, {scenario}"), without, with);
    }
}

pub(super) fn rows() -> Vec<Row> {
    let [mut fires, mut corrections, mut turns] = [Sample::default(); 3];
    for seen in seen() {
        fires.merge(&seen.calls.fires);
        corrections.merge(&seen.calls.corrections);
        turns.merge(&seen.calls.turns);
    }
    let mut rows = vec![
        // Guns find their range by rounds that tell nobody; here a battery that strays has fired.
        row(43, "fires that fall wide before the first that tells", fires.mean(), (2.0, 5.0), "M"),
        row(43, "corrections before it", corrections.mean(), (2.0, 5.0), "M"),
        row(44, "turns from call to effect", turns.mean(), (1.0, 4.0), "M"),
    ];
    for (scenario, with, without) in shares() {
        let what = format!("small arms' share, without / with, {scenario}");
        rows.push(row(32, what, without.mean() / with.mean(), (1.0, 5.0), "C sign"));
    }
    rows
}
