//! A small made-up fight with some of everything.

use std::sync::LazyLock;

use ruleshift_game::{
    Arena, Game, Hook, Observer, Outcome, Paths, Player, Rules, State, Table, UnitId,
};
use ruleshift_scenarios::Scenario;

const TRIAL_GROUND: &str = include_str!("../../../../scenarios/trial-ground.ron");

pub(super) const LEADER: UnitId = 0;
pub(super) const SECTION: UnitId = 1;
pub(super) const MORTAR: UnitId = 2;
pub(super) const TANK: UnitId = 3;
pub(super) const CARRIER: UnitId = 5;
pub(super) const RIDER: UnitId = 6;
pub(super) const ENEMY_SECTION: UnitId = 8;
pub(super) const ENEMY_TRIPOD: UnitId = 9;
pub(super) const ENEMY_FLAME: UnitId = 10;
pub(super) const ENEMY_GUN: UnitId = 11;
pub(super) const ENEMY_TEAM: UnitId = 12;
/// The attacker's battery; the next is the defender's.
pub(super) const BATTERY: u8 = 0;
/// The attacker's reserve.
pub(super) const RESERVE: u8 = 1;

/// The arena with the base rules, but for quick digging.
pub(super) struct Stage {
    pub(super) arena: Arena,
    pub(super) rules: Rules,
    paths: Paths,
}

pub(super) static STAGE: LazyLock<Stage> = LazyLock::new(|| {
    let scenario = Scenario::from_ron("trial-ground", TRIAL_GROUND);
    let arena = scenario.unwrap_or_else(|error| panic!("{error}")).arena;
    let mut rules = Rules::base();
    // Players who choose by chance do not dig six times in one place.
    let changed = rules.change(Hook::DigActions, |_, _| Ok::<_, ()>(1));
    changed.expect("no error is made").expect("the answer is in range");
    Stage { paths: Paths::new(&arena, &rules), arena, rules }
});

impl Stage {
    pub(super) fn play(
        &self,
        seed: u64,
        players: [&mut dyn Player; 2],
        observer: &mut dyn Observer,
    ) -> Outcome {
        let [attacker, defender] = players;
        let game = Game::new(self.table(), seed, None, observer);
        game.play(attacker, defender).expect("the game is played out")
    }

    pub(super) fn table(&self) -> Table<'_> {
        Table { arena: &self.arena, rules: &self.rules, paths: &self.paths }
    }
}

/// The state at the start: everyone is hidden, but is what he is.
pub(super) fn start() -> State {
    *Game::new(STAGE.table(), 1, None, &mut ()).state()
}
