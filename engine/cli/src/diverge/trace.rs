//! A game with everything that happened and everything that was chosen, in order.

use std::cell::RefCell;

use ruleshift_batch::{Collector, GameEnd};
use ruleshift_game::{Choice, Event, Observer, Paths, Player, State, View};
use ruleshift_record::{Timing, Values};

use crate::again::{Again, plain};
use crate::film::{Camera, Take};

/// Something that happened, or that a player chose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Item {
    Event(Event),
    Choice(Choice),
}

/// A game from its first event to its last.
pub(crate) struct Trace {
    pub(crate) items: Vec<Item>,
    /// What each item says, and the turn it is in.
    pub(crate) words: Vec<(u16, String)>,
    pub(crate) take: Take,
    pub(crate) end: GameEnd,
    pub(crate) values: Values,
}

impl Trace {
    /// Plays a game and notes everything; times are by `timing`.
    pub(crate) fn of(again: &Again, timing: &Timing) -> Trace {
        let paths = Paths::new(&again.scenario.arena, &again.rules.rules);
        let table = again.table(&paths);
        let tracer = Tracer(RefCell::new(Tracing {
            camera: Camera::new(again.story(false)),
            collector: Collector::new(timing, table),
            items: vec![],
            words: vec![],
        }));
        let [attacker, defender] = again.players().map(plain);
        let (mut attacker, mut defender) = (tracer.ask(attacker), tracer.ask(defender));
        let end = again.play_on(&table, [&mut attacker, &mut defender], &mut Listener(&tracer));
        let Tracing { camera, collector, items, words } = tracer.0.into_inner();
        Trace { items, words, take: camera.into_take(), end, values: *collector.values() }
    }

    /// How many of the first `items` are events: the step of a film that comes next.
    pub(crate) fn events_in(&self, items: usize) -> usize {
        self.items[..items].iter().filter(|item| matches!(item, Item::Event(_))).count()
    }
}

/// The first place at which two games differ; none when they never do.
pub(crate) fn parting(one: &[Item], other: &[Item]) -> Option<usize> {
    let same = one.iter().zip(other).take_while(|(a, b)| a == b).count();
    (same < one.len().max(other.len())).then_some(same)
}

struct Tracing<'a> {
    camera: Camera<'a>,
    collector: Collector<'a>,
    items: Vec<Item>,
    words: Vec<(u16, String)>,
}

struct Tracer<'a>(RefCell<Tracing<'a>>);

impl<'a> Tracer<'a> {
    fn ask(&self, player: Box<dyn Player>) -> Asked<'_, 'a> {
        Asked { player, tracer: self }
    }
}

/// A player whose choices are noted.
struct Asked<'t, 'a> {
    player: Box<dyn Player>,
    tracer: &'t Tracer<'a>,
}

impl Player for Asked<'_, '_> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let place = self.player.choose(view, choices);
        let choice = choices[place.min(choices.len() - 1)];
        let tracing = &mut *self.tracer.0.borrow_mut();
        let story = tracing.camera.story();
        let words = format!("{} chooses: {}", story.chooser(view), story.choice(choice, view));
        let turn = tracing.words.last().map_or(0, |(turn, _)| *turn);
        tracing.items.push(Item::Choice(choice));
        tracing.words.push((turn, words));
        place
    }
}

struct Listener<'t, 'a>(&'t Tracer<'a>);

impl Observer for Listener<'_, '_> {
    fn event(&mut self, event: &Event, state: &State) {
        let tracing = &mut *self.0.0.borrow_mut();
        tracing.camera.event(event, state);
        tracing.collector.event(event, state);
        tracing.items.push(Item::Event(*event));
        tracing.words.push((state.turn(), tracing.camera.last().to_owned()));
    }

    fn note(&mut self, line: &str) {
        let tracing = &mut *self.0.0.borrow_mut();
        tracing.camera.note(line);
        if let Some((_, words)) = tracing.words.last_mut() {
            *words = tracing.camera.last().to_owned();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(turns: &[u16]) -> Vec<Item> {
        turns.iter().map(|&turn| Item::Event(Event::TurnEnded { turn })).collect()
    }

    #[test]
    fn games_part_at_the_first_item_that_differs_or_is_missing() {
        assert_eq!(parting(&drawn(&[1, 2, 3]), &drawn(&[1, 2, 3])), None);
        assert_eq!(parting(&drawn(&[1, 2, 3]), &drawn(&[1, 5, 3])), Some(1));
        assert_eq!(parting(&drawn(&[1, 2]), &drawn(&[1, 2, 3])), Some(2));
        assert_eq!(parting(&drawn(&[1]), &[Item::Choice(Choice::Done)]), Some(0));
    }
}
