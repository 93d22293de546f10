//! Scenarios with support that their names add.

use ruleshift_game::{Cell, Side};

use super::attack;
use crate::choices::choices;
use crate::form::{ScenarioForm, StartForm};
use crate::library::Library;
use crate::load::Scenario;
use crate::reinforce::reinforce;
use crate::shipped::{SHIPPED, shipped};
use crate::sketch::{Board, range};
use crate::support::{Support, What};
use crate::text::read;

fn supported(name: &str, text: &str, added: &str) -> Scenario {
    let support = Support::several(added).unwrap();
    Scenario::supported(name, text, &support).unwrap_or_else(|error| panic!("{error}"))
}

fn is_driven(support: &Support) -> bool {
    matches!(&support.what, What::Group(piece) if piece.is_driven())
}

fn fault(text: &str, added: &str) -> Vec<String> {
    let support = Support::several(added).unwrap();
    Scenario::supported("test", text, &support).err().expect("it cannot be played").faults
}

#[test]
fn support_is_one_more_group_with_a_spot_and_leaves_the_rest() {
    let (name, text) = SHIPPED[0];
    let plain = shipped(name).unwrap();
    let added = "defender:german-machine-gun-section+defender:german-anti-tank-platoon:1";
    let with = supported(name, text, added);
    assert_ne!(plain.digest, with.digest);
    let [before, after] = [&plain, &with].map(|scenario| scenario.arena.setup());
    assert_eq!(
        after.title,
        format!(
            "{}; defender with machine gun section; defender with anti-tank platoon",
            before.title
        )
    );
    assert_eq!(before.sides[Side::Attacker].spots, after.sides[Side::Attacker].spots);
    let [before, after] = [before, after].map(|setup| &setup.sides[Side::Defender]);
    let names =
        |n: usize| after.groups[n].units.iter().map(|u| u.name.as_str()).collect::<Vec<_>>();
    assert_eq!(after.groups.len(), before.groups.len() + 2);
    assert_eq!(
        names(2),
        [
            "Machine gun section leader",
            "Machine gun section tripod machine gun 1",
            "Machine gun section tripod machine gun 2",
        ]
    );
    assert_eq!(names(3), ["Anti-tank platoon 7.5 cm gun 1"]);
    // Two groups and a dummy took its three spots.
    assert_eq!((before.spots.len(), after.spots.len()), (3, 5));
    assert_eq!(after.spots[..3], before.spots[..]);
}

#[test]
fn a_spot_is_added_only_where_none_is_left() {
    let (name, text) = SHIPPED[3];
    let spots = |side: Side, added: &str| {
        supported(name, text, added).arena.setup().sides[side].spots.len()
    };
    // Three groups and two dummies on six spots.
    assert_eq!(spots(Side::Attacker, "attacker:us-rifle-squad"), 6);
    assert_eq!(spots(Side::Attacker, "attacker:us-rifle-squad+attacker:us-rifle-squad"), 7);
    assert_eq!(spots(Side::Defender, "attacker:us-rifle-squad"), 6);
}

/// Every list, for either side, in every scenario: the spot it may bring is fit to start on, and
/// nobody loses one.
#[test]
fn every_list_can_be_added_or_is_refused_for_a_building() {
    let lists = Library::shipped().lists.iter().filter(|list| list.parts.is_empty());
    let lists: Vec<&str> = lists.map(|list| list.name.as_str()).collect();
    let (mut refused, mut further) = (0, 0);
    for (name, text) in SHIPPED {
        let plain: ScenarioForm = read(text).unwrap();
        let board = Board::new(&plain.terrain);
        for added in
            lists.iter().flat_map(|list| ["attacker", "defender"].map(|s| format!("{s}:{list}")))
        {
            let mut form = plain.clone();
            let support = Support::several(&added).unwrap();
            if let Err(faults) = reinforce(&mut form, &support) {
                let driven = is_driven(&support[0]) && faults[0].contains("is in a building");
                assert!(driven && faults.len() == 1, "{name}+{added}: {faults:?}");
                refused += 1;
                continue;
            }
            let (before, side, enemy) = match support[0].side_word() {
                "attacker" => (&plain.attacker, &form.attacker, &form.defender),
                _ => (&plain.defender, &form.defender, &form.attacker),
            };
            let starting = side.groups.iter().filter(|g| g.start == StartForm::Spot).count();
            assert!(side.spots.len() >= starting + usize::from(side.dummies), "{name}+{added}");
            let places =
                || before.spots.iter().copied().chain(before.features.iter().map(|f| f.at));
            let away = |from| enemy.spots.iter().map(|&spot| range(from, spot)).min();
            for &spot in &side.spots[before.spots.len()..] {
                let at = Cell::new(spot.0, spot.1).unwrap();
                assert!(board.is_sound_for_vehicles(at), "{name}+{added}: {spot:?}");
                assert!(places().all(|place| range(spot, place) >= 3), "{name}+{added}: {spot:?}");
                let least = before.spots.iter().map(|&spot| away(spot)).min().unwrap();
                assert!(away(spot) >= least, "{name}+{added}: {spot:?} is nearer to the enemy");
                further += 1;
            }
        }
    }
    assert!(refused > 0 && further > 0, "some start in houses, some have no spot to spare");
}

#[test]
fn what_keeps_support_away_is_told_with_all_else() {
    let text = attack("(name: \"A\", list: \"us-rifle-squd\")", "");
    let hidden = text
        .replace("spots: [(60, 5)], groups", "features: [(name: \"wood\", at: (60, 5))], groups");
    let hidden = hidden.replace("(name: \"Post\",", "(name: \"Post\", start: feature,");
    let told = fault(&hidden, "defender:us-machine-gun-section").join("\n");
    for part in [
        "attacker, group A: there is no force list called `us-rifle-squd`",
        "defender, support Machine gun section: this side has no `spots`",
    ] {
        assert!(told.contains(part), "{part} is not in:\n{told}");
    }
    let house = "terrain: [(kind: building, area: [(59, 4), (62, 4), (62, 7), (59, 7)])]";
    let housed =
        attack("(name: \"A\", list: \"us-rifle-squad\")", "").replace("terrain: []", house);
    let told = fault(&housed, "defender:german-panther-platoon:1");
    assert_eq!(
        told,
        [
            "defender, support Panther platoon: its vehicles might start on any spot of this side, and \
         (60, 5) is in a building"
        ]
    );
}

#[test]
fn too_much_support_is_told_by_what_a_scenario_may_hold() {
    let (_, text) = SHIPPED[0];
    let added = vec!["attacker:german-shoulder-launcher-section"; 13].join("+");
    let told = fault(text, &added).join("\n");
    assert!(told.contains("units, expected at most 96"), "{told}");
}

#[test]
fn another_break_point_changes_that_alone() {
    let (name, text) = SHIPPED[0];
    let (plain, with) = (shipped(name).unwrap(), supported(name, text, "defender:break-point:60"));
    assert_ne!(plain.digest, with.digest);
    let [before, after] = [&plain, &with].map(|s| s.arena.setup().sides.clone());
    assert_eq!((before[Side::Defender].break_point, after[Side::Defender].break_point), (27, 60));
    assert_eq!(before[Side::Attacker].break_point, after[Side::Attacker].break_point);
    assert_eq!(before[Side::Defender].groups.len(), after[Side::Defender].groups.len());
}

/// Forces written out unit by unit tell no nation, so nothing of one can be offered.
#[test]
fn choices_without_a_nation_are_break_points_alone() {
    let (_, text) = SHIPPED[0];
    let found = choices("f", text, "defender", None).unwrap();
    assert_eq!(found[0].name, "f");
    assert!(found.len() > 2, "there are higher break points than that of the scenario");
    for found in &found[1..] {
        assert!(found.name.starts_with("f+defender:break-point:"), "{}", found.name);
    }
}

#[test]
fn choices_are_higher_break_points_and_pieces_of_the_nation() {
    let (_, text) = SHIPPED[3];
    let names = |found: Vec<Scenario>| found.into_iter().map(|s| s.name).collect::<Vec<_>>();
    let found = names(choices("m", text, "defender", None).unwrap());
    assert_eq!(found[..2], ["m", "m+defender:break-point:35"]);
    for name in ["m+defender:german-machine-gun-section:1", "m+defender:german-panther-platoon"] {
        assert!(found.iter().any(|found| found == name), "{name} is not in {found:?}");
    }
    assert!(found[1..].iter().all(|name| name.contains("german") || name.contains("break-point")));
    let soviet = names(choices("m", text, "defender", Some("soviet")).unwrap());
    assert!(
        soviet.iter().any(|name| name.contains("soviet-")) && !soviet.concat().contains("german")
    );
    let (_, text) = SHIPPED[0];
    let told = choices("f", text, "defender", Some("germn")).err().unwrap();
    assert!(
        told.contains("did you mean `german`? There are: us, british, german, soviet"),
        "{told}"
    );
}
