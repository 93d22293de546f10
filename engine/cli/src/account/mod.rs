//! The account of a game: who did what to whom, in one screen. Everything in it comes from the events
//! of the game and from the state they left; nothing is guessed.

mod blow;
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
mod things;
mod turns;

use ruleshift_game::{Arena, Event, Observer, Rules, Side, State};

use crate::story::Story;
use blow::Blow;
use deeds::Deeds;
use ending::Ending;
use house::House;
use losses::Losses;
use luck::Luck;
use opening::Opening;
use page::fold;
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

    /// The account in lines of at most eighty columns: `players` are the names of who played, the
    /// attacker's first, `stack` that of the rules.
    pub(crate) fn text(&self, players: [&str; 2], stack: &str) -> String {
        let (arena, rules) = (self.things.arena, self.things.rules);
        let mut lines = vec![arena.setup().title.clone(), format!("Rules: {stack}")];
        let turns = rules.turn_limit(arena.setup().turn_limit);
        lines.push(format!("The situation, with {turns} turns at most"));
        lines.extend(forces::situation(arena, rules));
        let force = |(&side, player)| forces::force(arena, side, player);
        lines.extend(Side::ALL.iter().zip(players).map(force));
        if let Some(state) = &self.last {
            self.tell(&mut lines, state);
        }
        lines.iter().map(|line| fold(line) + "\n").collect()
    }

    fn tell(&self, lines: &mut Vec<String>, state: &State) {
        lines.push("How it opened".to_owned());
        lines.extend(self.opening.lines(&self.things, state));
        lines.push(course::RULE.to_owned());
        lines.extend(course::lines(&self.turns, &self.things, state));
        lines.push("Who did the harm: men hit, men driven off or taken, vehicles, pins".to_owned());
        lines.extend(self.deeds.lines(&self.things, state));
        lines.push("Men and vehicles lost".to_owned());
        lines.extend(self.losses.lines(state));
        let dice =
            self.ending.map_or_else(String::new, |end| format!("{} dice in all; ", end.dice));
        lines.push(format!("How luck fell ({dice}± as chance has it in two games of three)"));
        lines.extend(self.luck.lines());
        lines.push("The end".to_owned());
        match &self.ending {
            Some(ending) => {
                let told = ending.lines(&self.turns, self.field, state);
                lines.extend(told.iter().map(|line| format!("  {line}")));
            }
            None => lines.push("  The game was stopped before it was over.".to_owned()),
        }
        lines.extend(self.house.line().map(|line| format!("  {line}.")));
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
