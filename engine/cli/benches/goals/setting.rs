//! What is played: a rule stack on a scenario, with players and event hooks made once.

use ruleshift_batch::{Collector, GameEnd, GameId, play_one};
use ruleshift_game::luck::game_seed;
use ruleshift_game::{
    Arena, EVENT_HOOKS, Event, EventScript, HOOKS, Observer, Paths, Player, Rules, State, Table,
};
use ruleshift_hooks::{Overrides, Source, Stack, Variant};
use ruleshift_players::{Doctrine, PlayerSpec, Strategy, player};
use ruleshift_record::Timing;

use crate::rounds::nanos;

/// A rule stack on a scenario.
pub(crate) struct Setting {
    pub(crate) arena: Arena,
    pub(crate) rules: Rules,
    paths: Paths,
    stack: Stack,
}

impl Setting {
    pub(crate) fn new(arena: &Arena, stack: Stack) -> Setting {
        let rules = stack.rules().expect("the stacks of a bench fold");
        Setting { arena: arena.clone(), paths: Paths::new(arena, &rules), rules, stack }
    }

    pub(crate) fn table(&self) -> Table<'_> {
        Table { arena: &self.arena, rules: &self.rules, paths: &self.paths }
    }
}

/// The ground of the reference game.
pub(crate) fn reference() -> Arena {
    ruleshift_scenarios::shipped("hasty-attack").expect("a shipped scenario").arena
}

/// A shipped doctrine.
pub(crate) fn doctrine(name: &str) -> Doctrine {
    let mut shipped = ruleshift_players::shipped().into_iter();
    shipped.find(|doctrine| doctrine.name == name).expect("a shipped doctrine")
}

/// The player of that text under `rules`.
pub(crate) fn named(text: &str, rules: &Rules) -> Box<dyn Player> {
    let spec: PlayerSpec = text.parse().expect("the text of a player");
    let strategy = Strategy::new::<String>(&spec, &mut |name| Ok(doctrine(name)));
    strategy.expect("a shipped player").player(rules, None)
}

/// A variant of a script's hooks.
pub(crate) fn script(hooks: &str) -> Variant {
    let text =
        format!("fn about() {{ #{{ title: \"A bench\", summary: \"For a bench.\" }} }}\n{hooks}");
    let loaded = Variant::load(&Source::new("bench", text), &Overrides::none());
    loaded.unwrap_or_else(|faults| panic!("{faults}"))
}

/// Every value hook defined, each answering what it is given: the same game, from a script.
pub(crate) fn value_hooks() -> Stack {
    let hook = |hook: &ruleshift_game::HookSpec| format!("fn {} {{ now }}\n", hook.signature());
    Stack::new(vec![script(&HOOKS.iter().map(hook).collect::<String>())])
}

/// An event hook that looks at every card and hardly ever acts.
pub(crate) fn card_hook() -> Stack {
    let hook = "fn on_card_drawn(game, card, owner) { \
                if card == LEADER_CARD && game.turn > 30 { game.note(\"late\"); } }";
    Stack::new(vec![script(hook)])
}

/// Every event hook defined, each looking at the turn: what being told of everything costs.
pub(crate) fn listener() -> Stack {
    let hook = |hook: &ruleshift_game::EventSpec| {
        format!("fn {} {{ let t = game.turn; }}\n", hook.signature())
    };
    Stack::new(vec![script(&EVENT_HOOKS.iter().map(hook).collect::<String>())])
}

/// Keeps every event, in room that is used again.
#[derive(Default)]
pub(crate) struct Log(pub(crate) Vec<Event>);

impl Observer for Log {
    fn event(&mut self, event: &Event, _: &State) {
        self.0.push(*event);
    }
}

/// Players and event hooks of a setting, ready for any number of games.
pub(crate) struct Crew<'a> {
    setting: &'a Setting,
    attacker: Box<dyn Player>,
    defender: Box<dyn Player>,
    script: Option<Box<dyn EventScript>>,
    timing: Timing,
}

impl<'a> Crew<'a> {
    /// Steady on both sides.
    pub(crate) fn new(setting: &'a Setting) -> Crew<'a> {
        Crew::with(setting, player(&doctrine("steady"), &setting.rules))
    }

    /// Steady against another attacker.
    pub(crate) fn with(setting: &'a Setting, attacker: Box<dyn Player>) -> Crew<'a> {
        let defender = player(&doctrine("steady"), &setting.rules);
        let script = setting.stack.script();
        Crew { setting, attacker, defender, script, timing: Timing::default() }
    }

    /// Plays one game to its end.
    pub(crate) fn game(&mut self, number: u32, observer: &mut dyn Observer) {
        let script: Option<&mut dyn EventScript> = match &mut self.script {
            Some(script) => Some(&mut **script),
            None => None,
        };
        let id = GameId { table: self.setting.table(), seed: game_seed(1, 0, number) };
        let end = play_one(id, script, &mut *self.attacker, &mut *self.defender, observer);
        assert!(matches!(end, GameEnd::Finished(_)), "a bench times whole games: {end:?}");
    }

    /// Plays the first games as a run does, with their metrics.
    pub(crate) fn games(&mut self, count: u32) {
        let timing = self.timing.clone();
        for number in 0..count {
            let mut collector = Collector::new(&timing, self.setting.table());
            self.game(number, &mut collector);
        }
    }

    /// Nanoseconds of a game, played as a run does.
    pub(crate) fn time(&mut self, count: u32) -> f64 {
        nanos(|| self.games(count)) / f64::from(count)
    }
}
