//! One game of a run, with whatever goes wrong in it contained.

use std::panic::{AssertUnwindSafe, catch_unwind};

use ruleshift_game::{EventScript, Fault, Game, Observer, Player, Table};

/// Which game to play.
#[derive(Clone, Copy)]
pub struct GameId<'a> {
    /// Scenario, rules and ways.
    pub table: Table<'a>,
    /// Seed of its luck.
    pub seed: u64,
}

/// How one game ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GameEnd {
    /// It was played out: the digest of its events.
    Finished(u64),
    /// A fault stopped it.
    Faulted {
        /// The fault.
        fault: Fault,
        /// Digest of the events until then; 0 when they are lost.
        digest: u64,
    },
}

/// Plays one game. A panic in rules, script or player becomes a fault: it must not take the other
/// games of a run with it.
pub fn play_one<'a>(
    game: GameId<'a>,
    script: Option<&'a mut dyn EventScript>,
    attacker: &mut dyn Player,
    defender: &mut dyn Player,
    observer: &'a mut dyn Observer,
) -> GameEnd {
    let play = AssertUnwindSafe(|| {
        Game::new(game.table, game.seed, script, observer).play(attacker, defender)
    });
    match catch_unwind(play) {
        Ok(Ok(outcome)) => GameEnd::Finished(outcome.digest),
        Ok(Err(broken)) => {
            let message = format!("turn {}: {}", broken.turn, broken.fault);
            GameEnd::Faulted { fault: Fault { message }, digest: broken.digest }
        }
        Err(panic) => {
            let what = panic.downcast_ref::<String>().map(String::as_str);
            let what =
                what.or_else(|| panic.downcast_ref::<&str>().copied()).unwrap_or("no message");
            let message =
                format!("the engine stopped by an error of its own, please report it: {what}");
            GameEnd::Faulted { fault: Fault { message }, digest: 0 }
        }
    }
}
