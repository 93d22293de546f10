//! A small made-up fight with some of everything, for tests.

use std::sync::LazyLock;

use ruleshift_game::cell::CELLS;
use ruleshift_game::{
    Arena, BatterySetup, BySide, Cell, Event, Feature, Game, Ground, GroupSetup, Gun, Hook, Kind,
    Objective, Observer, Paths, Quality, Rules, Setup, SideSetup, Start, State, Table, UnitId,
    UnitSetup,
};
use ruleshift_players::Chance;

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
    let arena = Arena::new(setup()).expect("the setup is sound");
    let mut rules = Rules::base();
    // Players who choose by chance do not dig six times in one place.
    let changed = rules.change(Hook::DigActions, |_, _| Ok::<_, ()>(1));
    changed.expect("no error is made").expect("the answer is in range");
    Stage { paths: Paths::new(&arena, &rules), arena, rules }
});

impl Stage {
    fn table(&self) -> Table<'_> {
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

struct Watch<F>(F);

impl<F: FnMut(&Event, &State)> Observer for Watch<F> {
    fn event(&mut self, event: &Event, state: &State) {
        (self.0)(event, state);
    }
}

fn unit(kind: Kind, men: u8) -> UnitSetup {
    let armour = match kind {
        Kind::Tank => [80, 50, 40],
        Kind::Carrier => [15, 10, 10],
        _ => [0; 3],
    };
    let gun = matches!(kind, Kind::Tank | Kind::AntiTankGun | Kind::AntiTankTeam).then_some(0);
    let grade = if kind == Kind::Leader { 2 } else { 0 };
    let name = kind.label().to_owned();
    UnitSetup { name, kind, quality: Quality::Regular, men, grade, armour, gun }
}

fn group(name: &str, start: Start, units: &[(Kind, u8)]) -> GroupSetup {
    let units = units.iter().map(|&(kind, men)| unit(kind, men)).collect();
    GroupSetup { name: name.to_owned(), units, start }
}

fn cell(x: u8, y: u8) -> Cell {
    Cell { x, y }
}

fn battery(at: Cell) -> BatterySetup {
    let name = "battery".to_owned();
    BatterySetup { name, response: 1, missions: 3, smoke: true, registered: vec![at] }
}

fn attacker() -> SideSetup {
    let first = [
        (Kind::Leader, 2),
        (Kind::Section, 10),
        (Kind::LightMortar, 3),
        (Kind::Tank, 5),
        (Kind::Observer, 2),
    ];
    let reserve = Start::Reserve { turn: 2, entries: vec![cell(2, 20), cell(2, 30)] };
    let second = [(Kind::Carrier, 2), (Kind::Section, 8)];
    SideSetup {
        groups: vec![group("First", Start::Spot, &first), group("Second", reserve, &second)],
        spots: vec![cell(24, 24)],
        batteries: vec![battery(cell(44, 24))],
        break_point: 60,
        ..SideSetup::default()
    }
}

fn defender() -> SideSetup {
    let units = [
        (Kind::Leader, 2),
        (Kind::Section, 9),
        (Kind::TripodGun, 4),
        (Kind::FlameTeam, 2),
        (Kind::AntiTankGun, 5),
        (Kind::AntiTankTeam, 2),
    ];
    let feature = |x, y| Feature { name: "copse".to_owned(), at: cell(x, y) };
    SideSetup {
        groups: vec![group("Third", Start::Feature, &units)],
        features: vec![feature(36, 22), feature(40, 30)],
        batteries: vec![battery(cell(24, 24))],
        break_point: 60,
        ..SideSetup::default()
    }
}

fn setup() -> Setup {
    let mut ground = vec![Ground::Open; CELLS];
    for cell in Cell::all().filter(|cell| (30..42).contains(&cell.x)) {
        ground[cell.index()] = match cell.y {
            20..24 => Ground::Wood,
            28..32 => Ground::Minefield,
            _ => Ground::Open,
        };
    }
    let gun = Gun { name: "gun".to_owned(), penetration: [100, 90, 80], shaped: false };
    let objective = Objective {
        name: "the mill".to_owned(),
        at: cell(44, 24),
        each_turn: BySide([1, 1]),
        at_end: BySide([3, 3]),
        leaving: BySide([1, 0]),
        holder: None,
    };
    Setup {
        title: "Trial ground".to_owned(),
        ground,
        sides: BySide([attacker(), defender()]),
        guns: vec![gun],
        objectives: vec![objective],
        turn_limit: 8,
    }
}
