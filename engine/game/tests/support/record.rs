//! Observers for tests.

use ruleshift_game::{Event, Observer, State};

/// Keeps every event with the state just after it.
#[derive(Default)]
pub(crate) struct Record(pub(crate) Vec<(Event, State)>);

impl Observer for Record {
    fn event(&mut self, event: &Event, state: &State) {
        self.0.push((*event, *state));
    }
}

impl Record {
    pub(crate) fn events(&self) -> impl Iterator<Item = Event> + '_ {
        self.0.iter().map(|(event, _)| *event)
    }

    /// The state at the end.
    pub(crate) fn last(&self) -> &State {
        &self.0.last().expect("a game has events").1
    }

    pub(crate) fn count(&self, wanted: impl Fn(&Event) -> bool) -> usize {
        self.events().filter(|event| wanted(event)).count()
    }
}

/// Shows each event to a function: the state after the event before it, the event, the state now.
pub(crate) struct Watch<F> {
    pub(crate) before: Option<State>,
    pub(crate) check: F,
}

impl<F: FnMut(&State, &Event, &State)> Observer for Watch<F> {
    fn event(&mut self, event: &Event, state: &State) {
        (self.check)(self.before.as_ref().unwrap_or(state), event, state);
        self.before = Some(*state);
    }
}
