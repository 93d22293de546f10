//! Cards that ask a side to choose, and what a player may know of the answers (RULES 18.3).

use crate::choice::Choice;
use crate::game::Game;
use crate::happening::Happening;
use crate::legal::{Choices, Lister};
use crate::script::{Act, Offer};
use crate::stage::Asked;

/// What each answer to a card's question might bring about, found by trying it with luck that is
/// not the game's.
#[derive(Debug, Default)]
pub struct Prospects {
    acts: Vec<Act>,
    /// For each choice, where its acts end.
    ends: Vec<usize>,
}

impl Prospects {
    /// How often each answer is tried: the acts of all tries follow each other.
    pub const TRIES: i32 = 4;

    /// What the choice at that place brings about, in all tries.
    pub fn of(&self, place: usize) -> &[Act] {
        let end = |n: usize| self.ends.get(n).copied().unwrap_or(self.acts.len());
        let start = if place == 0 { 0 } else { end(place - 1) };
        &self.acts[start..end(place).max(start)]
    }

    fn clear(&mut self) {
        self.acts.clear();
        self.ends.clear();
    }
}

impl Lister<'_> {
    /// What a card offers, or nothing of it.
    pub(crate) fn answers(&self, asked: Asked, to: &mut Choices) {
        match asked.offer {
            Offer::Units(offered) => {
                let own = self.state.on_table().filter(|(_, unit)| unit.side == asked.side);
                let offered = own.filter(|(id, _)| offered >> id & 1 != 0);
                offered.for_each(|(id, _)| to.add(Choice::Answer(id)));
            }
            Offer::Options(count) => (1..=count).for_each(|n| to.add(Choice::Answer(n))),
        }
        if !to.as_slice().is_empty() {
            to.add(Choice::Done);
        }
    }
}

impl Game<'_> {
    /// Tries the answers to the question asked, before a player is asked it.
    pub(crate) fn look_ahead(&mut self) {
        self.house.prospects.clear();
        let doing = &self.state.doing;
        let Some(Asked { card, owner, .. }) = doing.asked.filter(|_| doing.placing == 0) else {
            return;
        };
        let Some(mut handle) = self.house.handle.take() else { return };
        for place in 0..self.choices.as_slice().len() {
            if let Choice::Answer(chosen) = self.choices.as_slice()[place] {
                let happening = Happening::Chosen { card, owner, chosen };
                (0..Prospects::TRIES).for_each(|nth| self.try_out(happening, nth, &mut handle));
            }
            self.house.prospects.ends.push(self.house.prospects.acts.len());
        }
        self.house.handle = Some(handle);
    }

    fn try_out(&mut self, happening: Happening, nth: i32, handle: &mut crate::handle::Handle) {
        if self.fault.is_some() {
            return;
        }
        handle.begin(happening, &self.state.with_other_luck(nth as u64));
        let Some(script) = self.house.listener(happening) else { return };
        match script.call(happening, handle) {
            Ok(()) => self.house.prospects.acts.append(&mut handle.acts),
            Err(fault) => self.fault = Some(fault),
        }
    }
}
