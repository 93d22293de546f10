//! The collector, fed by hand and by whole games with some of everything.

mod acts;
mod armour;
mod clock;
mod games;
mod harm;
mod laws;
mod stage;

use ruleshift_game::{EndCause, Event, Observer, State};
use ruleshift_record::{Metric, Timing, Values};

use super::Collector;
use stage::{STAGE, start};

/// The metrics of a game in which these events are all that happens, at the start.
fn fed(events: &[Event]) -> Values {
    fed_at(&start(), events)
}

/// The metrics when these events happen with the game in that state.
fn fed_at(state: &State, events: &[Event]) -> Values {
    let timing = Timing::default();
    let mut collector = Collector::new(&timing, STAGE.table());
    for event in events {
        collector.event(event, state);
    }
    collector.event(&ended(EndCause::TurnLimit), state);
    *collector.values()
}

fn ended(cause: EndCause) -> Event {
    Event::GameEnded { winner: None, margin: 0, cause, dice: 0, throws: 0, decisions: 0 }
}

fn of(values: &Values, metric: Metric) -> f64 {
    values[metric as usize]
}

/// Asserts that one more event adds `by` to a metric.
#[track_caller]
fn adds(event: Event, metric: Metric, by: f64) {
    assert_eq!(of(&fed(&[event]), metric), by, "{metric:?} after {event:?}");
}
