//! A small made-up fight with some of everything.

use std::sync::LazyLock;

use ruleshift_game::cell::CELLS;
use ruleshift_game::{
    Arena, BatterySetup, BySide, Cell, Feature, Game, Ground, GroupSetup, Gun, Hook, Kind,
    Objective, Observer, Outcome, Paths, Player, Quality, Rules, Setup, SideSetup, Start, State,
    Table, UnitId, UnitSetup,
};

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
    let arena = Arena::new(setup()).expect("the setup is sound");
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
    let objective = |name: &str, at, leaving| Objective {
        name: name.to_owned(),
        at,
        each_turn: BySide([1, 1]),
        at_end: BySide([3, 3]),
        leaving: BySide(leaving),
        holder: None,
    };
    Setup {
        title: "Trial ground".to_owned(),
        ground,
        sides: BySide([attacker(), defender()]),
        guns: vec![gun],
        objectives: vec![
            objective("the mill", cell(44, 24), [0, 0]),
            objective("the lane", cell(30, 26), [1, 1]),
        ],
        turn_limit: 8,
    }
}
