//! What a planner does most: copy a state and play on from it.

use std::cell::Cell;
use std::hint::black_box;

use ruleshift_game::{Event, Game, Observer, Player, Side, State};
use ruleshift_hooks::Stack;
use ruleshift_players::player;

use crate::rounds::{Rounds, nanos};
use crate::row::{Row, verdict};
use crate::setting::{Setting, doctrine, reference};

const ROUNDS: usize = 15;
/// Moments of games from which is played on.
const MOMENTS: usize = 400;
/// Activations of units that a playout is long.
const ACTIVATIONS: u32 = 6;

/// Counts activations while a game goes on.
struct Counter<'a>(&'a Cell<u32>);

impl Observer for Counter<'_> {
    fn event(&mut self, event: &Event, _: &State) {
        if let Event::UnitActivated { .. } = event {
            self.0.set(self.0.get() + 1);
        }
    }
}

type Players = [Box<dyn Player>; 2];

fn choose(players: &mut Players, side: Side, game: &mut Game<'_>) {
    let place = players[side as usize].choose(&game.view(side), game.choices());
    game.apply(place);
}

/// States of some games, at every tenth choice of a unit that acts: what a planner is asked at.
fn moments(setting: &Setting, players: &mut Players) -> Vec<State> {
    let mut states = Vec::new();
    let mut seed = 0;
    while states.len() < MOMENTS {
        let mut nobody = ();
        let mut game = Game::new(setting.table(), seed, None, &mut nobody);
        let mut choices = 0;
        while let Some(side) = game.advance() {
            let acts = game.view(side).doing().unit.is_some();
            choices += u32::from(acts);
            if acts && choices % 10 == 0 {
                states.push(*game.state());
            }
            choose(players, side, &mut game);
        }
        seed += 1;
    }
    states.truncate(MOMENTS);
    states
}

/// Plays on from a state for some activations, or to the end of the game.
fn playout(setting: &Setting, state: &State, players: &mut Players) {
    let count = Cell::new(0);
    let mut counter = Counter(&count);
    let mut game = Game::resume(setting.table(), *state, None, &mut counter);
    while let Some(side) = game.advance() {
        if count.get() > ACTIVATIONS {
            break;
        }
        choose(players, side, &mut game);
    }
    black_box(game.state().points());
}

/// As a planner does by default: to the end of the turn.
fn to_turn_end(setting: &Setting, state: &State, players: &mut Players) {
    let mut nobody = ();
    let mut game = Game::resume(setting.table(), *state, None, &mut nobody);
    while let Some(side) = game.advance() {
        if game.state().turn() > state.turn() {
            break;
        }
        choose(players, side, &mut game);
    }
    black_box(game.state().points());
}

pub(crate) fn row() -> Row {
    let setting = Setting::new(&reference(), Stack::default());
    let steady = doctrine("steady");
    let make = || -> Players { [player(&steady, &setting.rules), player(&steady, &setting.rules)] };
    let (mut players, mut others) = (make(), make());
    let states = moments(&setting, &mut players);
    let each = |time: f64| time / (MOMENTS as f64 * 1e3);
    let mut room = states[0];
    let rounds = Rounds::of(
        ROUNDS,
        &mut [
            &mut || each(nanos(|| states.iter().for_each(|s| playout(&setting, s, &mut players)))),
            &mut || {
                each(nanos(|| {
                    for state in &states {
                        room = black_box(*state);
                        black_box(&mut room);
                    }
                }))
            },
            &mut || {
                each(nanos(|| states.iter().for_each(|s| to_turn_end(&setting, s, &mut others))))
            },
        ],
    );
    let (time, share) = (rounds.least(0), rounds.ratio(1, 0));
    Row {
        what: "a planner playout of 6 activations; state copy",
        goal: "<= 4 us; <= 5 % of it",
        measured: format!("{time:.1} us; {:.1} %", share * 100.0),
        verdict: format!("{}; {}", verdict(time <= 4.0), verdict(share <= 0.05)),
        how: format!(
            "from {MOMENTS} moments of games on, 6 activations of units with steady on both sides; a copy of the state, {} bytes, takes {:.0} ns; a playout to the end of the turn, as the planner's are, {:.1} us",
            size_of::<State>(),
            rounds.least(1) * 1e3,
            rounds.least(2)
        ),
    }
}
