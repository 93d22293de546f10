//! What is told about mistakes: all of them at once, with the nearest name and what is expected.

use super::{faults, read};

fn told(groups: &str) -> String {
    faults(groups).join("\n")
}

#[test]
fn a_mistyped_list_gives_the_nearest_and_all() {
    let told = faults("(name: \"1 Platoon\", list: \"brittish-rifle-platon\")");
    assert_eq!(told.len(), 1, "{told:?}");
    let start = "attacker, group 1 Platoon: there is no force list called `brittish-rifle-platon`; \
        did you mean `british-rifle-platoon`? There are: us-rifle-squad, ";
    assert!(told[0].starts_with(start), "{told:?}");
    assert!(told[0].contains("soviet-rifle-platoon"), "{told:?}");
}

#[test]
fn a_company_is_no_group() {
    let told = told("(name: \"A\", list: \"british-rifle-company\")");
    let part = "`british-rifle-company` is several groups; make one of each of: \
        british-company-headquarters, british-rifle-platoon";
    assert!(told.contains(part), "{told}");
    assert!(!told.contains("0 units"), "{told}");
}

#[test]
fn a_mistyped_vehicle_or_gun_gives_what_fits() {
    let told = faults(
        "(name: \"A\", units: [
            (vehicle: \"Panter G\"),
            (kind: anti_tank_gun, men: 5, gun: \"17-ponder\"),
            (kind: anti_tank_team, men: 2, gun: \"17-pounder\")])",
    );
    let parts = [
        "attacker, group A, unit Panter G: there is no vehicle called `Panter G`; did you mean `Panther G`?",
        "attacker, group A, unit anti-tank gun: there is no gun called `17-ponder`; did you mean `17-pounder`?",
        "attacker, group A, unit anti-tank team: there is no hand-held weapon called `17-pounder`. There are: 14.5 mm",
    ];
    assert_eq!(told.len(), parts.len(), "{told:?}");
    for (told, part) in told.iter().zip(parts) {
        assert!(told.starts_with(part), "{told}");
    }
}

#[test]
fn what_a_unit_lacks_or_has_too_much_is_told_at_once() {
    let told = told(
        "(name: \"A\", units: [
            (name: \"nobody\"),
            (kind: tank),
            (kind: anti_tank_gun, men: 5),
            (kind: section, men: 9, gun: \"6-pounder\"),
            (kind: tank, vehicle: \"T-34\"),
            (kind: battery, men: 3),
            (kind: section, men: 40, count: 13)])",
    );
    for part in [
        "unit nobody: no `men`, expected 1 to 13",
        "unit nobody: expected a `kind` or a `vehicle`",
        "unit tank: no `vehicle`, expected one of M4 medium tank, ",
        "unit anti-tank gun: no `gun`, expected one of 5 cm",
        "unit section: the gun `6-pounder`, expected none for a section",
        "unit T-34: a vehicle brings its kind and its gun",
        "a battery is not on the table: list it under `batteries`",
        "count 13, expected 1 to 12",
    ] {
        assert!(told.contains(part), "{part} is not in:\n{told}");
    }
}

#[test]
fn without_needs_a_list_and_names_that_are_in_it() {
    let told = told(
        "(name: \"A\", list: \"us-rifle-platoon\", without: [\"sergant\", \"cook\"]),
         (name: \"B\", without: [\"cook\"], units: [(kind: section, men: 9)])",
    );
    for part in [
        "group A: there is no unit of us-rifle-platoon called `sergant`; did you mean `sergeant`? \
         There are: leader, sergeant, section 1, section 2, section 3",
        "group A: there is no unit of us-rifle-platoon called `cook`. There are: leader",
        "group B: `without` takes units out of a `list`, but there is no list",
    ] {
        assert!(told.contains(part), "{part} is not in:\n{told}");
    }
}

#[test]
fn a_group_left_without_units_is_told() {
    let told = told("(name: \"A\", list: \"us-rifle-squad\", without: [\"section\"])");
    assert!(told.contains("0 units, expected 1 to 24"), "{told}");
}

#[test]
fn places_off_the_table_are_told_wherever_they_are() {
    let error = read(
        "(name: \"A\", start: reserve(turn: 3, entries: [(0, 99)]), units: [(kind: section, men: 9)])",
        "features: [(name: \"barn\", at: (-1, 3))],
         batteries: [(name: \"guns\", response: 9, missions: 1, registered: [(72, 1)])],",
    );
    let told = error.err().unwrap().to_string();
    for part in [
        "attacker, group A, entries: (0, 99) is off the table",
        "attacker, feature barn: (-1, 3) is off the table",
        "attacker, battery guns, registered: (72, 1) is off the table",
        "response 9, expected 0 to 6",
    ] {
        assert!(told.contains(part), "{part} is not in:\n{told}");
    }
}
