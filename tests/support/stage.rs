//! Games played in the test itself, with any map, forces, rules and players.

use ruleshift_game::cell::{CELLS, HEIGHT, WIDTH};
use ruleshift_game::{
    Arena, BySide, Cell, Game, Ground, GroupSetup, Kind, Objective, Observer, Outcome, Paths,
    Player, Quality, Rules, Setup, SideSetup, Start, Table, UnitSetup,
};
use ruleshift_hooks::{Overrides, Source, Stack, StackSpec, Variant, shipped};
use ruleshift_players::{Doctrine, PlayerSpec, Strategy, player};

/// A map with forces under some rules, ready for games.
pub(crate) struct Stage {
    pub(crate) arena: Arena,
    pub(crate) rules: Rules,
    paths: Paths,
}

impl Stage {
    /// A stage for a setup, which must be sound.
    #[track_caller]
    pub(crate) fn new(setup: Setup, rules: Rules) -> Stage {
        let arena = Arena::new(setup).unwrap_or_else(|faults| panic!("{faults:?}"));
        Stage { paths: Paths::new(&arena, &rules), arena, rules }
    }

    /// A shipped scenario under the base rules.
    pub(crate) fn shipped(name: &str) -> Stage {
        let arena = ruleshift_scenarios::shipped(name).expect("a shipped name").arena;
        let rules = Rules::base();
        Stage { paths: Paths::new(&arena, &rules), arena, rules }
    }

    /// A shipped scenario changed before the game, under some rules.
    #[track_caller]
    pub(crate) fn changed(name: &str, rules: Rules, change: impl FnOnce(&mut Setup)) -> Stage {
        let mut setup = Stage::shipped(name).arena.setup().clone();
        change(&mut setup);
        Stage::new(setup, rules)
    }

    pub(crate) fn table(&self) -> Table<'_> {
        Table { arena: &self.arena, rules: &self.rules, paths: &self.paths }
    }

    /// Plays one game to its end.
    pub(crate) fn play(
        &self,
        seed: u64,
        attacker: &mut dyn Player,
        defender: &mut dyn Player,
        observer: &mut dyn Observer,
    ) -> Outcome {
        let game = Game::new(self.table(), seed, None, observer);
        game.play(attacker, defender).expect("the base rules have no fault")
    }

    /// Plays one game between two doctrines.
    pub(crate) fn doctrines(
        &self,
        seed: u64,
        [attacker, defender]: [&str; 2],
        observer: &mut dyn Observer,
    ) -> Outcome {
        let make = |name| player(&doctrine(name), &self.rules);
        self.play(seed, &mut *make(attacker), &mut *make(defender), observer)
    }
}

/// A shipped doctrine.
#[track_caller]
pub(crate) fn doctrine(name: &str) -> Doctrine {
    let found = ruleshift_players::shipped().into_iter().find(|doctrine| doctrine.name == name);
    found.unwrap_or_else(|| panic!("no doctrine {name}"))
}

/// A shipped player as it is typed.
#[track_caller]
pub(crate) fn strategy(typed: &str) -> Strategy {
    let spec: PlayerSpec = typed.parse().unwrap();
    Strategy::new::<String>(&spec, &mut |name| Ok(doctrine(name))).unwrap()
}

/// A rule stack of shipped variants, as it is typed.
#[track_caller]
pub(crate) fn stack(typed: &str) -> Stack {
    let spec: StackSpec = typed.parse().unwrap();
    let load = |name: &str, overrides: &Overrides| {
        let script = shipped(name).unwrap_or_else(|| panic!("no variant {name}"));
        Variant::load(&Source::new(name, script.text), overrides).unwrap()
    };
    Stack::new(spec.variants.iter().map(|v| load(&v.name, &v.overrides)).collect())
}

/// The rules a script makes of the base rules.
#[track_caller]
pub(crate) fn rules(hooks: &str) -> Rules {
    let text = format!("fn about() {{ #{{ title: \"T\", summary: \"S.\" }} }}\n{hooks}");
    let variant = Variant::load(&Source::new("test", text), &Overrides::none());
    Stack::new(vec![variant.unwrap_or_else(|e| panic!("{e}"))]).rules().unwrap()
}

/// Open ground everywhere, no forces yet, one worthless objective in a corner.
pub(crate) fn plain(turn_limit: u8) -> Setup {
    Setup {
        title: "Proving ground".to_owned(),
        ground: vec![Ground::Open; CELLS],
        sides: BySide([side(&[], vec![]), side(&[], vec![])]),
        objectives: vec![objective(cell(0, 0), 0)],
        guns: vec![],
        turn_limit,
    }
}

/// A side that never breaks, with a spot for each group.
pub(crate) fn side(spots: &[(i32, i32)], groups: Vec<GroupSetup>) -> SideSetup {
    SideSetup {
        name: "Side".to_owned(),
        groups,
        spots: spots.iter().map(|&(x, y)| cell(x, y)).collect(),
        break_point: 100,
        ..SideSetup::default()
    }
}

/// A group of units of these kinds and men; leaders are of grade 2.
pub(crate) fn group(units: &[(Kind, u8)]) -> GroupSetup {
    let unit = |&(kind, men): &(Kind, u8)| UnitSetup {
        name: kind.label().to_owned(),
        kind,
        quality: Quality::Regular,
        men,
        grade: if kind == Kind::Leader { 2 } else { 0 },
        armour: [0; 3],
        gun: None,
    };
    GroupSetup {
        name: "Group".to_owned(),
        units: units.iter().map(unit).collect(),
        start: Start::Spot,
    }
}

/// An objective worth so many points at the end to either side.
pub(crate) fn objective(at: Cell, points: u8) -> Objective {
    Objective {
        name: "objective".to_owned(),
        at,
        each_turn: BySide([0, 0]),
        at_end: BySide([points, points]),
        leaving: BySide([0, 0]),
        holder: None,
    }
}

/// Fills a rectangle, both corners included.
pub(crate) fn fill(setup: &mut Setup, ground: Ground, from: (i32, i32), to: (i32, i32)) {
    for x in from.0..=to.0 {
        for y in from.1..=to.1 {
            setup.ground[cell(x, y).index()] = ground;
        }
    }
}

/// A square of the table.
#[track_caller]
pub(crate) fn cell(x: i32, y: i32) -> Cell {
    Cell::new(x, y).unwrap_or_else(|| panic!("{x}, {y} is off {WIDTH} by {HEIGHT}"))
}
