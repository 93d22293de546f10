//! Event hooks within a game: calling them and carrying out what they did.

use crate::event::Event;
use crate::game::Game;
use crate::limits::MAX_SCRIPT_CALLS;
use crate::script::{Act, Fault, Happening};
use crate::state::Place;

impl Game<'_> {
    /// Tells the event hooks of the rule stack that something happened.
    pub(crate) fn happen(&mut self, happening: Happening) {
        let Some(script) =
            self.script.as_deref_mut().filter(|script| script.listens(happening.index()))
        else {
            return;
        };
        self.state.tally.script_calls += 1;
        if self.state.tally.script_calls > MAX_SCRIPT_CALLS {
            let message = format!("event hooks ran more than {MAX_SCRIPT_CALLS} times in one game");
            self.fault.get_or_insert(Fault { message });
            return;
        }
        let mut handle = self.handle.take().unwrap_or_default();
        *handle.state = self.state;
        handle.acts.clear();
        let result = script.call(happening, &mut handle);
        // Pins change through the acts below, which say so; only luck and counts come back.
        let units = self.state.units;
        self.state = *handle.state;
        self.state.units = units;
        match result {
            Ok(()) => handle.acts.drain(..).for_each(|act| self.carry_out_act(act)),
            Err(fault) => self.fault = self.fault.take().or(Some(fault)),
        }
        self.handle = Some(handle);
    }

    fn carry_out_act(&mut self, act: Act) {
        match act {
            Act::AddPins { unit, pins } => {
                if self.state.units[unit as usize].place == Place::Table {
                    self.emit(Event::ScriptActed { unit, pins: pins.into() });
                    self.add_pins(unit, pins);
                }
            }
            Act::RemovePins { unit, pins } => {
                let now = &mut self.state.units[unit as usize].pins;
                *now = now.saturating_sub(pins);
                self.emit(Event::ScriptActed { unit, pins: -i16::from(pins) });
            }
            Act::GrantAction { unit } => {
                let acting = self.state.doing.unit == Some(unit);
                let granted = &mut self.state.units[unit as usize];
                let actions = if acting { &mut granted.actions } else { &mut granted.granted };
                *actions = actions.saturating_add(1).min(12);
                self.emit(Event::ScriptActed { unit, pins: 0 });
            }
            Act::Note(line) => self.emit_note(&line),
        }
    }
}
