//! One game played out.

use ruleshift_game::{Choice, EventScript, Game, State, View};

use crate::weighing::Weighing;

use super::worth::worth;

/// What games are played out with.
pub(super) struct Playout {
    /// Plays the side that looks.
    pub(super) own: Box<dyn Weighing>,
    /// Plays the other side.
    pub(super) other: Box<dyn Weighing>,
    pub(super) script: Option<Box<dyn EventScript>>,
    pub(super) turns: u16,
}

impl Playout {
    /// What the game is worth to the side that looks, a while after it has chosen so in that state.
    pub(super) fn play(&mut self, view: &View<'_>, state: &State, choice: Choice) -> i64 {
        let last = view.turn() + self.turns;
        let script: Option<&mut dyn EventScript> = match &mut self.script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        let mut nobody = ();
        let mut game = Game::resume(view.table(), *state, script, &mut nobody);
        if game.advance().is_some() {
            let place = game.choices().iter().position(|other| *other == choice);
            game.apply(place.unwrap_or_default());
        }
        while let Some(side) = game.advance() {
            if game.state().turn() > last {
                break;
            }
            let player = if side == view.side() { &mut self.own } else { &mut self.other };
            let place = player.choose(&game.view(side), game.choices());
            game.apply(place);
        }
        worth(&game, view)
    }
}
