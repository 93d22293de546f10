//! What is hidden from a side does not show through its view.

use super::*;
use crate::arena::{Arena, Objective, Setup};
use crate::cell::CELLS;
use crate::forces::{BatterySetup, Feature, GroupSetup, SideSetup, Start, UnitSetup};
use crate::game::{Game, Table};
use crate::kinds::{Ground, Kind, Quality};
use crate::legal::Choices;
use crate::luck::Stream;

/// Two sides around a wood, each of three groups and three dummies, two groups hidden in features, a
/// reserve and a battery.
fn arena() -> Arena {
    let unit = |kind, men, grade| UnitSetup {
        name: "unit".to_owned(),
        kind,
        quality: Quality::Regular,
        men,
        grade,
        armour: [0; 3],
        gun: None,
    };
    let group = |units: &[UnitSetup], start| GroupSetup {
        name: "group".to_owned(),
        units: units.to_vec(),
        start,
    };
    let feature = |at| Feature { name: "a barn".to_owned(), at };
    let reserve =
        |x| Start::Reserve { turn: 2, entries: vec![Cell { x, y: 46 }, Cell { x, y: 1 }] };
    let battery = BatterySetup {
        name: "the guns".to_owned(),
        response: 1,
        missions: 3,
        smoke: true,
        registered: vec![Cell { x: 31, y: 20 }],
    };
    let side = |x: u8| SideSetup {
        name: "side".to_owned(),
        groups: vec![
            group(&[unit(Kind::Leader, 2, 2), unit(Kind::Section, 9, 0)], Start::Spot),
            group(&[unit(Kind::TripodGun, 4, 0), unit(Kind::LightMortar, 3, 0)], Start::Spot),
            group(&[unit(Kind::Section, 7, 0), unit(Kind::LightGun, 3, 0)], Start::Spot),
            group(&[unit(Kind::Section, 8, 0)], Start::Feature),
            group(&[unit(Kind::AntiTankGun, 5, 0), unit(Kind::Observer, 2, 0)], Start::Feature),
            group(&[unit(Kind::Section, 9, 0), unit(Kind::Truck, 2, 0)], reserve(x)),
        ],
        dummies: 3,
        spots: (0..6).map(|n| Cell { x: x + 3 * (n % 2), y: 6 + 7 * n }).collect(),
        features: (0..5).map(|n| feature(Cell { x: x + 1, y: 5 + 8 * n })).collect(),
        batteries: vec![battery.clone()],
        break_point: 50,
        ..SideSetup::default()
    };
    let mut ground = vec![Ground::Open; CELLS];
    for cell in Cell::all().filter(|c| (30..34).contains(&c.x) && (10..30).contains(&c.y)) {
        ground[cell.index()] = Ground::Wood;
    }
    let setup = Setup {
        title: "Secrets".to_owned(),
        ground,
        sides: BySide([side(20), side(38)]),
        objectives: vec![Objective {
            name: "the wood".to_owned(),
            at: Cell { x: 31, y: 20 },
            each_turn: BySide([1; 2]),
            at_end: BySide([2; 2]),
            leaving: BySide([0; 2]),
            holder: None,
        }],
        guns: vec![],
        turn_limit: 8,
    };
    Arena::new(setup).expect("the scenario is sound")
}

/// All that a side can get to know, as text.
fn answers(view: &View<'_>) -> String {
    let numbers = || 0..=u8::MAX;
    let units: Vec<_> = numbers().map(|id| view.unit(id)).collect();
    let markers: Vec<_> = numbers().map(|id| view.own_marker(id)).collect();
    let groups: Vec<_> = numbers().map(|id| view.own_group(id)).collect();
    let batteries: Vec<_> = numbers().map(|id| view.own_battery(id)).collect();
    let lists = (
        view.own_units().collect::<Vec<_>>(),
        view.enemy_units().collect::<Vec<_>>(),
        view.own_markers().collect::<Vec<_>>(),
        view.enemy_markers().collect::<Vec<_>>(),
        view.enemy_features().collect::<Vec<_>>(),
    );
    let game = (view.turn(), view.turn_limit(), view.points(), view.holders());
    let deck = (view.cards_left().collect::<Vec<_>>(), view.turn_ends());
    let map = (view.side(), view.objectives(), view.doing());
    format!("{units:?} {markers:?} {groups:?} {batteries:?} {lists:?} {game:?} {deck:?} {map:?}")
}

/// RULES 4.1, 15.1, 15.2: only its owner knows what a marker hides, and which features and reserves
/// hide anyone. At every question of 30 random games the
/// side asked gets the same choices and the same answers with the enemy's secrets changed.
#[test]
fn hidden_things_do_not_show() {
    let (arena, rules) = (arena(), Rules::base());
    let paths = Paths::new(&arena, &rules);
    let table = Table { arena: &arena, rules: &rules, paths: &paths };
    let nothing = crate::Prospects::default();
    let (mut asked, mut changed, mut moved, mut waiting, mut dealt) = (0, 0, 0, 0, 0);
    for seed in 0..30 {
        let (mut luck, mut observer) = (Stream::new(seed), ());
        let mut game = Game::new(table, seed, None, &mut observer);
        while let Some(side) = game.advance() {
            let mut other = game.state().disguised(&arena, side, luck.next());
            other.deck.shuffle_left(luck.next(), other.turn);
            let view = View::new(side, &other, &table, &nothing);
            assert_eq!(answers(&game.view(side)), answers(&view));
            assert_eq!(game.view(side).whim(), view.whim());
            let mut choices = Choices::default();
            assert_eq!(crate::legal::list(&other, &table, &mut choices), Some(side));
            assert_eq!(choices.as_slice(), game.choices());
            // What a side imagines, it imagines from what it knows.
            let imagined = game.view(side).imagine(asked);
            assert!(imagined == view.imagine(asked), "turn {}", imagined.turn());
            let view = View::new(side, &imagined, &table, &nothing);
            assert_eq!(answers(&game.view(side)), answers(&view));
            assert_eq!(crate::legal::list(&imagined, &table, &mut choices), Some(side));
            dealt += u32::from(imagined.markers() != game.state().markers());
            asked += 1;
            changed += u32::from(other.markers() != game.state().markers());
            let features = |state: &State| -> Vec<_> {
                state.markers().iter().map(|marker| marker.feature).collect()
            };
            moved += u32::from(features(&other) != features(game.state()));
            let waits = |n: usize| {
                game.state().groups()[n].due > 0 && other.units() != game.state().units()
            };
            waiting += u32::from(waits(5) || waits(11));
            game.apply(luck.below(game.choices().len() as u32) as usize);
        }
    }
    let seen = [asked as u32, changed, moved, waiting, dealt];
    assert!(
        seen.iter().all(|&n| n > 1_000),
        "asked, secrets, features, reserves changed: {seen:?}"
    );
}
