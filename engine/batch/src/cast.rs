//! What a run needs besides its plan: scenarios, rules and players, made by the caller.

use ruleshift_game::{Arena, EventScript, Player, Rules, Side};

/// Makes the event hooks of a rule stack, once for each worker.
pub type ScriptMaker = Box<dyn Fn() -> Box<dyn EventScript> + Send + Sync>;

/// Makes the player of a seat under the rules of an arm, once for each worker.
pub type PlayerMaker<'a> = Box<dyn Fn(Seat, &ArmCast) -> Box<dyn Player> + Send + Sync + 'a>;

/// Whom a player plays for.
#[derive(Clone, Copy, Debug)]
pub struct Seat {
    /// The arm, by its place in the plan.
    pub arm: usize,
    /// The pairing, by its place in the plan.
    pub pairing: usize,
    /// The side.
    pub side: Side,
}

/// One arm, ready to play.
pub struct ArmCast {
    /// The arm's rules.
    pub rules: Rules,
    /// Makes its event hooks; none when its variants have none.
    pub script: Option<ScriptMaker>,
}

impl ArmCast {
    /// Makes the event hooks, for players that play games out.
    pub fn make(&self) -> Option<&dyn Fn() -> Box<dyn EventScript>> {
        self.script.as_ref().map(|make| &**make as _)
    }
}

/// Everything a run plays with, in the order of its plan.
pub struct Cast<'a> {
    /// The scenarios.
    pub arenas: Vec<&'a Arena>,
    /// The arms.
    pub arms: Vec<ArmCast>,
    /// Makes the player of a seat.
    pub player: PlayerMaker<'a>,
}

/// Is told how a run goes on; calls come from any thread.
pub trait Progress: Sync {
    /// So many more games are finished.
    fn played(&self, games: u64);

    /// Whether to stop early: games under way are finished, no other is begun.
    fn stopped(&self) -> bool {
        false
    }
}

impl Progress for () {
    fn played(&self, _: u64) {}
}
