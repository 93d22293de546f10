//! Every list adds up to its published total.

use std::collections::BTreeSet;

use ruleshift_game::Kind;

use super::{read, units};
use crate::catalogue::{force_list, force_lists};
use crate::library::{Library, Tally};
use crate::lists::{ForceList, Published};

fn tally(name: &str) -> Tally {
    let library = Library::shipped();
    library.tally(library.list(name).unwrap())
}

fn men(name: &str) -> u16 {
    tally(name).on_table + tally(name).others
}

#[test]
fn every_list_adds_up_to_its_published_total() {
    for list in &Library::shipped().lists {
        let tally = tally(&list.name);
        let (counted, least, most) = match list.published {
            Published::Men(least, most) => (tally.on_table + tally.others, least, most),
            Published::Vehicles(least, most) => (tally.vehicles, least, most),
            Published::Weapons(least, most) => (tally.weapons, least, most),
        };
        let place = &list.name;
        assert!((least..=most).contains(&counted), "{place}: {counted}, not {least} to {most}");
    }
}

/// US T/O&E 7-17, 26 Feb 1944, the squad of 12 also read elsewhere; War Establishments 1943-44, the
/// section of 10 read on a living-history page. From memory but for these two.
#[test]
fn american_and_british_totals_are_exact() {
    let totals = [
        ("us-rifle-squad", 12),
        ("us-rifle-platoon", 41),
        ("us-rifle-company", 193),
        ("us-weapons-platoon", 35),
        ("us-company-headquarters", 35),
        ("british-rifle-section", 10),
        ("british-rifle-platoon", 37),
        ("british-rifle-company", 127),
    ];
    for (name, total) in totals {
        assert_eq!(men(name), total, "{name}");
    }
}

/// K.St.N. 131n and TM-E 30-451; Soviet table 04/551. From memory, so within 10 %.
#[test]
fn german_and_soviet_totals_are_near() {
    let totals = [
        ("german-rifle-group", 9),
        ("german-rifle-platoon", 33),
        ("german-rifle-company", 142),
        ("german-assault-company", 119),
        ("soviet-rifle-squad", 9),
        ("soviet-rifle-platoon", 39),
        ("soviet-rifle-company", 143),
    ];
    for (name, total) in totals {
        let off = 10 * men(name).abs_diff(total);
        assert!(off <= total, "{name}: {} men, published {total}", men(name));
    }
}

/// US T/O&E 17-27 and 18-27; War Establishments; K.St.N. 1177, 1176 and 446b; Soviet table
/// 010/501. All from memory.
#[test]
fn tank_units_have_their_vehicles() {
    let totals = [
        ("us-medium-tank-platoon", 5..=5),
        ("us-medium-tank-company", 17..=17),
        ("us-tank-destroyer-platoon", 4..=4),
        ("us-tank-destroyer-company", 12..=12),
        ("british-armoured-troop", 3..=4),
        ("british-armoured-squadron", 15..=19),
        ("british-infantry-tank-squadron", 15..=19),
        ("german-medium-tank-platoon", 4..=5),
        ("german-medium-tank-company", 14..=17),
        ("german-assault-gun-battery", 10..=14),
        ("soviet-medium-tank-platoon", 3..=3),
        ("soviet-medium-tank-company", 10..=10),
    ];
    for (name, span) in totals {
        assert!(span.contains(&tally(name).vehicles), "{name}: {}", tally(name).vehicles);
    }
}

/// 9 of 41 and 8 of 37 are 22 % both: officers and non-commissioned officers counted from the same
/// tables.
#[test]
fn every_fifth_man_of_a_platoon_leads() {
    for (name, leaders, total) in [("us-rifle-platoon", 9, 41), ("british-rifle-platoon", 8, 37)] {
        assert_eq!(force_list(name).unwrap().leaders, Some(leaders));
        assert_eq!(men(name), total);
        assert_eq!((100 * leaders + total / 2) / total, 22, "{name}");
    }
}

#[test]
fn names_are_unique_and_parts_exist() {
    let library = Library::shipped();
    let names: BTreeSet<&str> = library.lists.iter().map(|list| list.name.as_str()).collect();
    assert_eq!(names.len(), library.lists.len());
    for list in &library.lists {
        assert_ne!(list.units.is_empty(), list.parts.is_empty(), "{}", list.name);
        assert!(!list.source.is_empty() && !list.nation.is_empty(), "{}", list.name);
        for part in &list.parts {
            assert!(names.contains(part.list.as_str()), "{}: {}", list.name, part.list);
        }
    }
}

#[test]
fn every_list_without_parts_can_be_a_group() {
    for list in Library::shipped().lists.iter().filter(|list| list.parts.is_empty()) {
        let group = format!("(name: \"Group\", list: \"{}\")", list.name);
        if let Err(error) = read(&group, "") {
            panic!("{error}");
        }
    }
}

/// A platoon comes on the table as one or two leaders, its sections and its teams.
#[test]
fn rifle_platoons_have_one_or_two_leaders_of_two_men() {
    let platoon = |list: &&ForceList| list.name.ends_with("rifle-platoon");
    let platoons: Vec<&ForceList> = Library::shipped().lists.iter().filter(platoon).collect();
    assert_eq!(platoons.len(), 4);
    for list in platoons {
        let units = units(&format!("(name: \"P\", list: \"{}\")", list.name));
        let leaders: Vec<_> = units.iter().filter(|unit| unit.kind == Kind::Leader).collect();
        assert!((1..=2).contains(&leaders.len()), "{}", list.name);
        assert!(leaders.iter().all(|unit| unit.men == 2), "{}", list.name);
        assert!(units.iter().filter(|unit| unit.kind == Kind::Section).count() >= 3);
    }
}

#[test]
fn the_catalogue_has_a_row_for_each_list() {
    let rows = force_lists();
    assert_eq!(rows.len(), Library::shipped().lists.len());
    let platoon = rows.iter().find(|row| row.name == "us-rifle-platoon").unwrap();
    let row = platoon.row();
    assert_eq!(row, ["us-rifle-platoon", "5", "41", "40", "Three squads of twelve"]);
    let company = rows.iter().find(|row| row.name == "us-rifle-company").unwrap();
    assert!(platoon.one_group && !company.one_group);
    assert!(force_list("no-such-list").is_none());
}
