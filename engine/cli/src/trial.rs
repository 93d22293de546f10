//! A small made-up fight with some of everything, for tests.

use std::sync::LazyLock;

use ruleshift_game::{
    Arena, Choice, Event, Game, Hook, Observer, Paths, Player, Rules, State, Table, UnitId, View,
};
use ruleshift_players::Chance;
use ruleshift_scenarios::Scenario;

const TRIAL_GROUND: &str = include_str!("../../scenarios/trial-ground.ron");

pub(crate) const LEADER: UnitId = 0;
pub(crate) const SECTION: UnitId = 1;
pub(crate) const TANK: UnitId = 3;
pub(crate) const CARRIER: UnitId = 5;
pub(crate) const RIDER: UnitId = 6;
pub(crate) const ENEMY_SECTION: UnitId = 8;
pub(crate) const ENEMY_GUN: UnitId = 11;

/// The arena with the base rules, but for quick digging.
pub(crate) struct Stage {
    pub(crate) arena: Arena,
    pub(crate) rules: Rules,
    paths: Paths,
}

pub(crate) static STAGE: LazyLock<Stage> = LazyLock::new(|| {
    let scenario = Scenario::from_ron("trial-ground", TRIAL_GROUND);
    let arena = scenario.unwrap_or_else(|error| panic!("{error}")).arena;
    let mut rules = Rules::base();
    // Players who choose by chance do not dig six times in one place.
    let changed = rules.change(Hook::DigActions, |_, _| Ok::<_, ()>(1));
    changed.expect("no error is made").expect("the answer is in range");
    Stage { paths: Paths::new(&arena, &rules), arena, rules }
});

impl Stage {
    pub(crate) fn table(&self) -> Table<'_> {
        Table { arena: &self.arena, rules: &self.rules, paths: &self.paths }
    }
}

/// The state at the start: everyone is hidden, but is what he is.
pub(crate) fn start() -> State {
    *Game::new(STAGE.table(), 1, None, &mut ()).state()
}

/// Shows every event of a few games between players who choose by chance.
pub(crate) fn watch(see: impl FnMut(&Event, &State)) {
    let mut watch = Watch(see);
    for seed in 0..150 {
        let game = Game::new(STAGE.table(), seed, None, &mut watch);
        game.play(&mut Chance, &mut Chance).expect("the game is played out");
    }
}

/// Shows every decision of a few such games, before it is made.
pub(crate) fn decisions(see: impl FnMut(&View<'_>, &[Choice])) {
    let mut asked = Asked(see);
    for seed in 0..150 {
        let mut nobody = ();
        let game = Game::new(STAGE.table(), seed, None, &mut nobody);
        game.play(&mut asked, &mut Chance).expect("the game is played out");
    }
}

struct Asked<F>(F);

impl<F: FnMut(&View<'_>, &[Choice])> Player for Asked<F> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        (self.0)(view, choices);
        Chance.choose(view, choices)
    }
}

struct Watch<F>(F);

impl<F: FnMut(&Event, &State)> Observer for Watch<F> {
    fn event(&mut self, event: &Event, state: &State) {
        (self.0)(event, state);
    }
}
