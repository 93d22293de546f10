//! Event hooks within a game: calling them, at once or when the thing that happened is over.

use crate::ask::Prospects;
use crate::event::Event;
use crate::game::{Game, Table};
use crate::handle::{Ground, Handle};
use crate::happening::Happening;
use crate::kinds::Side;
use crate::limits::MAX_SCRIPT_CALLS;
use crate::script::{EventScript, Fault};
use crate::state::Place;

/// The event hooks of a game's rule stack, and what is under way with them.
pub(crate) struct House<'a> {
    pub(crate) script: Option<&'a mut dyn EventScript>,
    /// Lent to the script in each call; none without one.
    pub(crate) handle: Option<Handle>,
    /// What hooks are to be told of when it is over.
    aside: Vec<Happening>,
    /// Whether what hooks did is being carried out.
    acting: bool,
    /// The extra card being played and the side it is for.
    pub(crate) extra_card: Option<(u8, Option<Side>)>,
    /// What has become of the card just drawn.
    pub(crate) card: Drawn,
    /// What the answers to the question asked might bring about.
    pub(crate) prospects: Prospects,
}

/// What becomes of a card when it is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Drawn {
    /// It has its effect.
    Played,
    /// It has none.
    Skipped,
    /// It went back into the deck.
    PutBack,
}

impl<'a> House<'a> {
    /// The house rules of a game that begins, or goes on from a copy.
    pub(crate) fn new(mut script: Option<&'a mut dyn EventScript>, table: &Table<'a>) -> House<'a> {
        let handle = script.as_mut().map(|script| {
            script.begin();
            Handle { ground: Some(Ground::of(table)), ..Handle::default() }
        });
        House {
            script,
            handle,
            aside: Vec::new(),
            acting: false,
            extra_card: None,
            card: Drawn::Played,
            prospects: Prospects::default(),
        }
    }

    /// The script, if it wants to know of such a thing.
    pub(crate) fn listener(
        &mut self,
        happening: Happening,
    ) -> Option<&mut &'a mut dyn EventScript> {
        self.script.as_mut().filter(|script| script.listens(happening.index()))
    }
}

impl Game<'_> {
    /// Puts an event aside for the event hooks that want to know of it. What hooks themselves
    /// bring about calls no hook, so they cannot go round in circles (RULES 18.6).
    pub(crate) fn put_aside(&mut self, event: &Event) {
        if let Some(script) = &self.house.script
            && !self.house.acting
            && let Some(happening) = Happening::after(event, &self.state)
            && script.listens(happening.index())
        {
            self.house.aside.push(happening);
        }
    }

    /// Tells the event hooks of what was put aside, in the order in which it happened.
    pub(crate) fn tell_aside(&mut self) {
        if self.house.aside.is_empty() {
            return;
        }
        let mut aside = std::mem::take(&mut self.house.aside);
        for happening in aside.drain(..) {
            let there = |unit: u8| self.state.units[unit as usize].place == Place::Table;
            if happening.needs().is_none_or(there) {
                self.tell(happening);
            }
        }
        self.house.aside = aside;
    }

    /// Tells the event hooks of something at once, after all that was put aside.
    pub(crate) fn happen(&mut self, happening: Happening) {
        self.tell_aside();
        self.tell(happening);
    }

    fn tell(&mut self, happening: Happening) {
        if self.fault.is_some() || self.house.listener(happening).is_none() {
            return;
        }
        self.state.tally.script_calls += 1;
        if self.state.tally.script_calls > MAX_SCRIPT_CALLS {
            let message = format!("event hooks ran more than {MAX_SCRIPT_CALLS} times in one game");
            self.fault = Some(Fault { message });
            return;
        }
        let Some(mut handle) = self.house.handle.take() else { return };
        handle.begin(happening, &self.state);
        let script = self.house.listener(happening);
        let result = script.map_or(Ok(()), |script| script.call(happening, &mut handle));
        // Everything else changes through the acts below, which say so.
        self.state.take_rolls(&handle.state);
        match result {
            Ok(()) => {
                self.house.acting = true;
                handle.acts.drain(..).for_each(|act| self.carry_out_act(act));
                self.house.acting = false;
            }
            Err(fault) => self.fault = Some(fault),
        }
        self.house.handle = Some(handle);
    }
}

mod carry;
