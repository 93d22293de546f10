//! House rules that step in at events (RULES 18), written in Rust: what they are told, what they may
//! do, and what comes of it.

mod acts;
mod cards;
mod chaos;
mod choices;
mod told;
mod trial;

use ruleshift_game::{
    EVENT_HOOKS, EventScript, Fault, Game, Handle, Happening, Illegal, Observer, Outcome, Part,
    Player,
};

use crate::support::{Ready, Record};

/// A house rule that does as a function says, with two cards and two counters of its own.
pub(crate) struct House<F> {
    act: F,
    /// Whether it listens to this hook.
    ears: Vec<bool>,
}

pub(crate) const OWN: Part = Part { first_card: 0, cards: 2, first_counter: 0, counters: 2 };

/// A house rule that listens to these hooks.
pub(crate) fn house<F>(hooks: &[&str], act: F) -> House<F>
where
    F: FnMut(Happening, &mut Handle) -> Result<(), Illegal>,
{
    for name in hooks {
        assert!(EVENT_HOOKS.iter().any(|hook| hook.name == *name), "{name}");
    }
    House { act, ears: EVENT_HOOKS.iter().map(|hook| hooks.contains(&hook.name)).collect() }
}

/// A house rule that listens to everything.
pub(crate) fn house_of_all<F>(act: F) -> House<F>
where
    F: FnMut(Happening, &mut Handle) -> Result<(), Illegal>,
{
    House { act, ears: vec![true; EVENT_HOOKS.len()] }
}

impl<F: FnMut(Happening, &mut Handle) -> Result<(), Illegal>> EventScript for House<F> {
    fn listens(&self, index: usize) -> bool {
        self.ears[index]
    }

    fn call(&mut self, happening: Happening, handle: &mut Handle) -> Result<(), Fault> {
        handle.serve(OWN);
        (self.act)(happening, handle).map_err(|Illegal(message)| Fault { message })
    }
}

/// Plays one game under a house rule.
pub(crate) fn play_under(
    ready: &Ready,
    seed: u64,
    rule: &mut dyn EventScript,
    players: [&mut dyn Player; 2],
    observer: &mut dyn Observer,
) -> Outcome {
    let [attacker, defender] = players;
    let game = Game::new(ready.table(), seed, Some(rule), observer);
    game.play(attacker, defender).unwrap_or_else(|broken| panic!("seed {seed}: {broken:?}"))
}

/// Plays one game under a house rule and keeps all of it.
pub(crate) fn record_under(
    ready: &Ready,
    seed: u64,
    rule: &mut dyn EventScript,
    players: [&mut dyn Player; 2],
) -> Record {
    let mut record = Record::default();
    play_under(ready, seed, rule, players, &mut record);
    record
}
