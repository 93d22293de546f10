//! Paragraphs 4.8 and 4.11: troops come on the table.

use std::collections::BTreeSet;

use ruleshift_game::{Card, Cell, Choice, Event, Game, Hook, Kind, Quality, RevealCause, Side};

use crate::support::{Scene, ask, battle, idle, leader, opener, unit, watch, wish};

/// RULES 4.8: units are placed around their marker, in squares free of their side, out of touch.
#[test]
fn units_are_placed_around_their_marker() {
    let (mut marker_at, mut placed, mut fallen_back) = ([Cell::default(); 24], 0, 0);
    watch(120, |_, before, event, _| match *event {
        Event::MarkerRevealed { marker, group: Some(group), .. } => {
            marker_at[group as usize] = before.markers()[marker as usize].at;
        }
        Event::UnitPlaced { unit, at } => {
            let (side, group) =
                (before.units()[unit as usize].side, before.units()[unit as usize].group);
            let centre = marker_at[group as usize];
            placed += 1;
            if at == centre {
                fallen_back += 1;
                return;
            }
            assert!(at.x.abs_diff(centre.x) <= 5 && at.y.abs_diff(centre.y) <= 4);
            for (_, other) in before.on_table() {
                assert!(if other.side == side { other.at != at } else { other.at.range(at) > 1 });
            }
        }
        _ => {}
    });
    assert!(placed > 500 && fallen_back * 20 < placed, "{placed}, {fallen_back} fell back");
}

/// RULES 4.8: the squares offered to the first unit far from everybody and every edge.
#[test]
fn every_other_square_of_the_area_is_offered() {
    let offered = |deploy: i32| {
        let mut offered = BTreeSet::new();
        let scene = Scene::new()
            .group(Side::Attacker, (30, 24), &[leader(1), unit(Kind::Section, 8)])
            .group(Side::Defender, (65, 24), &[unit(Kind::Section, 8)])
            .turns(1)
            .all_cards()
            .rule(Hook::DeployDistance, |_, _| deploy);
        let mut opens = wish(|view, choice| match choice {
            Choice::OpenFire => Some(1),
            Choice::PlaceAt(at) if view.own_units().next().is_none() => {
                offered.insert((i32::from(at.x) - 30, i32::from(at.y) - 24));
                None
            }
            _ => None,
        });
        scene.play(1, &mut opens, &mut idle());
        offered
    };
    let grid = |xs: &[i32], ys: &[i32]| -> BTreeSet<(i32, i32)> {
        xs.iter().flat_map(|&x| ys.iter().map(move |&y| (x, y))).collect()
    };
    assert_eq!(offered(2), grid(&[-5, -3, -1, 1, 3, 5], &[-4, -2, 0, 2, 4]));
    assert_eq!(offered(0), grid(&[-3, -1, 1, 3], &[-2, 0, 2]));
}

/// RULES 4.8: with no square left a unit goes to the marker's own.
#[test]
fn a_crowd_is_put_in_the_markers_square() {
    let crowd: Vec<_> = (0..14).map(|_| unit(Kind::Section, 5)).collect();
    let scene = Scene::new()
        .group(Side::Attacker, (0, 0), &crowd)
        .group(Side::Defender, (65, 24), &[unit(Kind::Section, 8)])
        .turns(1)
        .all_cards();
    let record = scene.play(1, &mut opener(), &mut idle());
    let at = |corner| {
        record.count(|event| matches!(event, Event::UnitPlaced { at, .. } if (*at == Cell::default()) == corner))
    };
    assert_eq!([at(false), at(true)], [9, 5], "squares 1, 3, 5 by 0, 2, 4");
}

/// RULES 4.8: units are placed in the order of the list, the attacker's groups first.
#[test]
fn placing_goes_by_the_list() {
    let mut waiting: BTreeSet<u8> = BTreeSet::new();
    let mut both = 0;
    watch(120, |_, before, event, _| match *event {
        Event::MarkerRevealed { group: Some(group), .. } => {
            let units = (0..).zip(before.units()).filter(|(_, unit)| unit.group == group);
            both += u32::from(!waiting.is_empty());
            waiting.extend(units.map(|(id, _)| id));
        }
        Event::UnitPlaced { unit, .. } => assert_eq!(waiting.pop_first(), Some(unit)),
        _ => {}
    });
    assert!(both > 5, "{both} times two groups at once");
}

/// RULES 2.2, 4.11: until its card joins, a group acts on the marker card; it opens fire with all
/// its actions.
#[test]
fn troops_in_ambush_act_at_once() {
    let scene = Scene::new()
        .group(Side::Attacker, (30, 24), &[unit(Kind::Section, 8)])
        .group(Side::Defender, (52, 24), &[unit(Kind::Section, 8)])
        .turns(2)
        .all_cards();
    let record = scene.play(5, &mut opener(), &mut idle());
    let (mut card, mut turns) = (None, vec![]);
    for (event, state) in &record.0 {
        match *event {
            Event::CardDrawn { card: drawn } => card = Some(drawn),
            Event::UnitActivated { unit: 0, actions } => turns.push((state.turn(), card, actions)),
            _ => {}
        }
    }
    let expected = [(1, Some(Card::Marker(Side::Attacker, 0)), 3), (2, Some(Card::Group(0, 0)), 3)];
    assert_eq!(turns, expected);
    let opened =
        |e: &Event| matches!(e, Event::MarkerRevealed { cause: RevealCause::OpenedFire, .. });
    assert_eq!(record.count(opened), 1);
}

/// RULES 4.11: the marker card offers units without a card and without an activation.
#[test]
fn the_marker_card_is_for_units_without_a_card() {
    let mut offered = 0;
    ask(80, |view, choices| {
        if view.doing().marker_card.is_none() || view.doing().group.is_some() {
            return;
        }
        for choice in choices {
            if let Choice::PickUnit(id) = *choice {
                let unit = view.unit(id).expect("a unit of one's own");
                assert!(!unit.activated && unit.side == view.side());
                offered += 1;
            }
        }
    });
    assert!(offered > 100, "{offered}");
}

/// Units are numbered as the scenario lists them, the attacker's first, and are what it says they are.
#[test]
fn units_are_as_the_scenario_lists_them() {
    let mut scene = battle();
    for (n, group) in scene.setup.sides.0.iter_mut().flat_map(|side| &mut side.groups).enumerate() {
        group.units.iter_mut().for_each(|unit| unit.quality = Quality::ALL[n % Quality::ALL.len()]);
    }
    let ready = scene.ready();
    let mut observer = ();
    let game = Game::new(ready.table(), 3, None, &mut observer);
    let (mut units, mut groups) = (game.state().units().iter().zip(0..), 0);
    for side in Side::ALL {
        for group in &ready.arena.setup().sides[*side].groups {
            for listed in &group.units {
                let (unit, number) = units.next().expect("as many units as listed");
                assert_eq!((unit.side, unit.group), (*side, groups));
                assert_eq!(
                    (unit.kind, unit.quality, unit.grade),
                    (listed.kind, listed.quality, listed.grade)
                );
                assert_eq!((unit.men, unit.first_men), (listed.men, listed.men));
                assert_eq!((unit.armour, unit.gun), (listed.armour, listed.gun));
                assert_eq!(ready.arena.unit_name(number), Some((&*listed.name, &*group.name)));
            }
            groups += 1;
        }
    }
    assert!(
        units.next().is_none() && ready.arena.unit_name(game.state().units().len() as u8).is_none()
    );
}
