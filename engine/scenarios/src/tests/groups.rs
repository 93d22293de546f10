//! Groups from lists, and units with vehicles and guns.

use ruleshift_game::{Kind, Quality, Side};

use super::{read, units};

fn names(groups: &str) -> Vec<String> {
    units(groups).into_iter().map(|unit| unit.name).collect()
}

#[test]
fn a_list_gives_a_group_its_units_with_numbers() {
    assert_eq!(
        names("(name: \"1 Platoon\", list: \"british-rifle-platoon\")"),
        [
            "1 Platoon leader",
            "1 Platoon section 1",
            "1 Platoon section 2",
            "1 Platoon section 3",
            "1 Platoon light mortar",
            "1 Platoon anti-tank team",
        ]
    );
}

#[test]
fn a_group_may_go_without_one_unit_or_all_of_a_name() {
    let group = "(name: \"P\", list: \"british-rifle-platoon\", without: [\"light mortar\", \"section 2\"])";
    let left = ["P leader", "P section 1", "P section 3", "P anti-tank team"];
    assert_eq!(names(group), left);
    let group = "(name: \"P\", list: \"british-rifle-platoon\", without: [\"section\"])";
    assert_eq!(names(group), ["P leader", "P light mortar", "P anti-tank team"]);
}

#[test]
fn units_of_its_own_come_after_those_of_the_list() {
    let group = "(name: \"P\", list: \"british-rifle-section\", units: [
        (kind: section, men: 8), (kind: tripod_gun, name: \"the gun\", men: 4, count: 2),
        (kind: observer, men: 2)])";
    let expected = ["P section 1", "P section 2", "the gun 1", "the gun 2", "P observer"];
    assert_eq!(names(group), expected);
}

#[test]
fn quality_is_the_groups_unless_a_unit_has_its_own() {
    let group = "(name: \"P\", list: \"us-rifle-squad\", quality: veteran, units: [
        (kind: section, men: 8, quality: green), (kind: section, men: 8)])";
    let qualities: Vec<Quality> = units(group).iter().map(|unit| unit.quality).collect();
    assert_eq!(qualities, [Quality::Veteran, Quality::Green, Quality::Veteran]);
}

#[test]
fn a_vehicle_brings_its_kind_crew_armour_and_gun() {
    let scenario = read(
        "(name: \"Tanks\", units: [(vehicle: \"Pz IV late\", count: 2), (vehicle: \"Panther G\", men: 4)])",
        "",
    );
    let scenario = scenario.unwrap();
    let setup = scenario.arena.setup();
    let units = &setup.sides[Side::Attacker].groups[0].units;
    let names: Vec<&str> = units.iter().map(|unit| unit.name.as_str()).collect();
    assert_eq!(names, ["Tanks Pz IV late 1", "Tanks Pz IV late 2", "Tanks Panther G"]);
    assert_eq!((units[0].kind, units[0].men, units[2].men), (Kind::Tank, 5, 4));
    assert_eq!((units[0].armour, units[2].armour), ([81, 30, 20], [139, 45, 40]));
    assert_eq!((units[0].gun, units[1].gun, units[2].gun), (Some(0), Some(0), Some(1)));
    let guns: Vec<&str> = setup.guns.iter().map(|gun| gun.name.as_str()).collect();
    assert_eq!(guns, ["7.5 cm L/48", "7.5 cm L/70"]);
}

#[test]
fn guns_on_wheels_and_hand_held_weapons_are_named() {
    let scenario = read(
        "(name: \"G\", units: [
            (kind: anti_tank_gun, men: 6, gun: \"6-pounder\"),
            (kind: anti_tank_team, men: 2, gun: \"8.8 cm shoulder launcher\"),
            (vehicle: \"truck\")])",
        "",
    );
    let scenario = scenario.unwrap();
    let setup = scenario.arena.setup();
    let units = &setup.sides[Side::Attacker].groups[0].units;
    assert_eq!(units[0].name, "G 6-pounder");
    assert_eq!(units[1].name, "G anti-tank team");
    assert_eq!((units[2].gun, units[2].armour), (None, [0; 3]));
    assert_eq!(setup.guns.iter().map(|gun| gun.shaped).collect::<Vec<_>>(), [false, true]);
}

#[test]
fn a_scenario_without_guns_has_none() {
    let scenario = read("(name: \"P\", list: \"us-rifle-platoon\")", "").unwrap();
    assert!(scenario.arena.setup().guns.is_empty());
}
