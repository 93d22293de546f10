//! The account of a game: who did what to whom, and why it mattered. Everything in it comes from the events
//! of the game and from the state they left; nothing is guessed.

mod course;
mod deeds;
mod ending;
mod forces;
mod house;
mod losses;
mod luck;
mod opening;
pub(crate) mod page;
#[cfg(test)]
mod tests;
mod text;
mod things;
mod turns;

use ruleshift_batch::Blow;
use ruleshift_game::{Arena, Event, Observer, Rules, Side, State};

pub(crate) use text::Length;

use crate::story::Story;
use deeds::Deeds;
use ending::Ending;
use house::House;
use losses::Losses;
use luck::Luck;
use opening::Opening;
use things::Things;
use turns::Turns;

/// Takes down what a game's account is made of.
pub(crate) struct Account<'a> {
    things: Things<'a>,
    blow: Blow,
    opening: Opening,
    turns: Turns,
    deeds: Deeds,
    losses: Losses,
    luck: Luck,
    house: House,
    field: Option<(Side, u8)>,
    ending: Option<Ending>,
    /// As it was after the last event.
    last: Option<State>,
}

impl<'a> Account<'a> {
    /// An account of a game that is to be played; the story lends its words.
    pub(crate) fn new(arena: &'a Arena, rules: &'a Rules, story: Story<'a>) -> Account<'a> {
        Account {
            things: Things { arena, rules, story },
            blow: Blow::default(),
            opening: Opening::default(),
            turns: Turns::default(),
            deeds: Deeds::default(),
            losses: Losses::default(),
            luck: Luck::none(),
            house: House::default(),
            field: None,
            ending: None,
            last: None,
        }
    }
}

impl Observer for Account<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.blow = self.blow.after(event);
        self.opening.event(event, state);
        self.turns.event(event, self.blow, state);
        self.deeds.event(event, self.blow, state);
        self.losses.event(event, self.blow, state);
        self.luck.event(event, &self.things, state);
        self.house.event(event);
        if let Event::FieldHeld { side, points } = *event {
            self.field = Some((side, points));
        }
        if let Some(ending) = Ending::of(event, &self.things, state) {
            self.ending = Some(ending);
        }
        self.last = Some(*state);
    }
}

/// Two who watch the same game.
pub(crate) struct Both<'a>(pub(crate) &'a mut dyn Observer, pub(crate) &'a mut dyn Observer);

impl Observer for Both<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.0.event(event, state);
        self.1.event(event, state);
    }

    fn note(&mut self, line: &str) {
        self.0.note(line);
        self.1.note(line);
    }
}
