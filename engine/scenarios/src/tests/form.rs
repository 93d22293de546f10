//! Starts, features, batteries, points for leaving, and works.

use ruleshift_game::{Cell, Cover, Ground, Side, Start};

use super::{attack, read};
use crate::load::Scenario;

const GROUPS: &str = "
    (name: \"A\", list: \"us-rifle-squad\"),
    (name: \"B\", list: \"us-rifle-squad\", start: feature),
    (name: \"C\", list: \"us-rifle-squad\", start: reserve(turn: 3, entries: [(0, 25), (0, 30)]))";

const FIELDS: &str = "
    features: [(name: \"the barn\", at: (20, 20))],
    batteries: [
        (name: \"field guns\", response: 2, missions: 3, smoke: true, registered: [(30, 12)]),
        (name: \"mortars\", response: 1, missions: 2)],";

fn cell(x: i32, y: i32) -> Cell {
    Cell::new(x, y).unwrap()
}

#[test]
fn groups_start_on_spots_in_features_or_in_reserve() {
    let scenario = read(GROUPS, FIELDS).unwrap_or_else(|error| panic!("{error}"));
    let side = &scenario.arena.setup().sides[Side::Attacker];
    let starts: Vec<&Start> = side.groups.iter().map(|group| &group.start).collect();
    let entries = vec![cell(0, 25), cell(0, 30)];
    assert_eq!(starts, [&Start::Spot, &Start::Feature, &Start::Reserve { turn: 3, entries }]);
    let features: Vec<_> = side.features.iter().map(|f| (f.name.as_str(), f.at)).collect();
    assert_eq!(features, [("the barn", cell(20, 20))]);
}

#[test]
fn batteries_are_read() {
    let scenario = read(GROUPS, FIELDS).unwrap();
    let batteries = &scenario.arena.setup().sides[Side::Attacker].batteries;
    let [guns, mortars] = batteries.as_slice() else { panic!("{batteries:?}") };
    assert_eq!(
        (guns.name.as_str(), guns.response, guns.missions, guns.smoke),
        ("field guns", 2, 3, true)
    );
    assert_eq!(guns.registered, [cell(30, 12)]);
    assert!(!mortars.smoke && mortars.registered.is_empty());
}

#[test]
fn objectives_may_give_points_for_leaving() {
    let text = attack(GROUPS, FIELDS)
        .replace("at: (36, 24)", "at: (36, 24), leaving: (attacker: 2), holder: defender");
    let scenario = Scenario::from_ron("test", &text).unwrap();
    let objective = &scenario.arena.objectives()[0];
    assert_eq!(objective.leaving.0, [2, 0]);
    assert_eq!(objective.holder, Some(Side::Defender));
}

#[test]
fn works_are_ground() {
    let text = attack(GROUPS, FIELDS).replace(
        "terrain: []",
        "terrain: [
            (kind: trench, line: [(10, 10), (14, 10)]),
            (kind: wire, line: [(10, 20), (14, 20)]),
            (kind: minefield, area: [(10, 30), (14, 30), (14, 34), (10, 34)])]",
    );
    let arena = Scenario::from_ron("test", &text).unwrap().arena;
    let grounds = [cell(12, 10), cell(12, 20), cell(12, 32)].map(|cell| arena.ground(cell));
    assert_eq!(grounds, [Ground::Trench, Ground::Wire, Ground::Minefield]);
    assert_eq!(arena.cover(cell(12, 10)), Cover::DugIn);
}

#[test]
fn the_example_of_the_guide_can_be_played() {
    let guide = include_str!("../../README.md");
    let example = guide.split("```ron\n").nth(1).and_then(|rest| rest.split("```").next());
    if let Err(error) = Scenario::from_ron("guide", example.unwrap()) {
        panic!("{error}");
    }
}
