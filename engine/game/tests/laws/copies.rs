//! A copied state goes on as the game it was copied from.

use ruleshift_game::{Choice, Event, Game, Player, Side, State, View};

use crate::support::{By, Record, skirmish};

/// Decides by nothing but the state, so that two games in the same state go on alike.
fn whimsical() -> impl Player {
    By(|view: &View<'_>, choices: &[Choice]| (view.whim() % choices.len() as u64) as usize)
}

fn choose(game: &Game<'_>, side: Side) -> usize {
    whimsical().choose(&game.view(side), game.choices())
}

/// Plays on to the end, for at most `most` choices.
fn play_on(game: &mut Game<'_>, most: usize) -> usize {
    for made in 0..most {
        let Some(side) = game.advance() else { return made };
        let place = choose(game, side);
        game.apply(place);
    }
    most
}

/// From every 37th choice of a game on.
#[test]
fn copies_go_on_alike() {
    let ready = skirmish().ready();
    for seed in 0..6 {
        let mut whole = Record::default();
        ready.play(seed, &mut whimsical(), &mut whimsical(), &mut whole);
        let events: Vec<Event> = whole.events().collect();
        let mut compared = 0;
        for stop in (0..).step_by(37) {
            let mut head = Record::default();
            let state: State = {
                let mut game = Game::new(ready.table(), seed, None, &mut head);
                if play_on(&mut game, stop) < stop {
                    break;
                }
                *game.state()
            };
            let mut tail = Record::default();
            play_on(&mut Game::resume(ready.table(), state, None, &mut tail), usize::MAX);
            let joined: Vec<Event> = head.events().chain(tail.events()).collect();
            assert_eq!(joined, events, "seed {seed} from choice {stop}");
            compared += 1;
        }
        assert!(compared > 3, "{compared}");
    }
}

/// A game that is played choice by choice has no result before its end, and then that of one played at once.
#[test]
fn the_result_is_known_at_the_end() {
    let ready = skirmish().ready();
    for seed in 0..8 {
        let outcome = ready.play(seed, &mut whimsical(), &mut whimsical(), &mut ());
        let mut observer = ();
        let mut game = Game::new(ready.table(), seed, None, &mut observer);
        while let Some(side) = game.advance() {
            assert_eq!(game.result(), None);
            let place = choose(&game, side);
            game.apply(place);
        }
        assert_eq!(game.result(), Some((outcome.winner, outcome.margin)));
    }
}

/// Playing a copy leaves the original as it was.
#[test]
fn a_copy_is_a_copy() {
    let ready = skirmish().ready();
    let digest = |meddle: bool| {
        let mut record = Record::default();
        let mut game = Game::new(ready.table(), 4, None, &mut record);
        play_on(&mut game, 60);
        if meddle {
            let mut other = ();
            play_on(&mut Game::resume(ready.table(), *game.state(), None, &mut other), usize::MAX);
        }
        play_on(&mut game, usize::MAX);
        drop(game);
        record.events().collect::<Vec<_>>()
    };
    assert_eq!(digest(false), digest(true));
}
