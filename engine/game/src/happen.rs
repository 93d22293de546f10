//! Event hooks within a game: calling them, at once or when the thing that happened is over.

use crate::event::Event;
use crate::game::Game;
use crate::happening::Happening;
use crate::limits::MAX_SCRIPT_CALLS;
use crate::script::Fault;
use crate::state::Place;

impl Game<'_> {
    /// Puts an event aside for the event hooks that want to know of it. What hooks themselves
    /// bring about calls no hook, so they cannot go round in circles (RULES 18.6).
    pub(crate) fn put_aside(&mut self, event: &Event) {
        if let Some(script) = &self.script
            && !self.hooks_act
            && let Some(happening) = Happening::after(event, &self.state)
            && script.listens(happening.index())
        {
            self.aside.push(happening);
        }
    }

    /// Tells the event hooks of what was put aside, in the order in which it happened.
    pub(crate) fn tell_aside(&mut self) {
        if self.aside.is_empty() {
            return;
        }
        let mut aside = std::mem::take(&mut self.aside);
        for happening in aside.drain(..) {
            let there = |unit: u8| self.state.units[unit as usize].place == Place::Table;
            if happening.needs().is_none_or(there) {
                self.tell(happening);
            }
        }
        self.aside = aside;
    }

    /// Tells the event hooks of something at once, after all that was put aside.
    pub(crate) fn happen(&mut self, happening: Happening) {
        self.tell_aside();
        self.tell(happening);
    }

    fn tell(&mut self, happening: Happening) {
        let listens =
            |script: &&mut dyn crate::script::EventScript| script.listens(happening.index());
        let Some(script) = self.script.as_mut().filter(|script| listens(script)) else { return };
        if self.fault.is_some() {
            return;
        }
        self.state.tally.script_calls += 1;
        if self.state.tally.script_calls > MAX_SCRIPT_CALLS {
            let message = format!("event hooks ran more than {MAX_SCRIPT_CALLS} times in one game");
            self.fault = Some(Fault { message });
            return;
        }
        let Some(mut handle) = self.handle.take() else { return };
        handle.begin(happening, &self.state);
        let result = script.call(happening, &mut handle);
        // Everything else changes through the acts below, which say so.
        self.state.take_rolls(&handle.state);
        match result {
            Ok(()) => {
                self.hooks_act = true;
                handle.acts.drain(..).for_each(|act| self.carry_out_act(act));
                self.hooks_act = false;
            }
            Err(fault) => self.fault = Some(fault),
        }
        self.handle = Some(handle);
    }
}

mod carry;
