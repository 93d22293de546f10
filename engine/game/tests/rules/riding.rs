//! Paragraph 13.9: getting in and out, and what becomes of riders.

use std::collections::BTreeMap;

use ruleshift_game::{BreakCause, Choice, Damage, Event, Hook, Kind, Place, Side, State, Unit};

use crate::support::{
    Scene, ask_scene, battle, drill, fixed, tank, unit, vehicle, watch_scene, with_gun,
};

/// Many carriers and trucks with men to ride in them, under fire.
fn columns() -> Scene {
    let mut scene = battle();
    for side in &mut scene.setup.sides.0 {
        (side.groups, side.spots, side.batteries) = (vec![], vec![], vec![]);
    }
    for (&side, x) in Side::ALL.iter().zip([26, 38]) {
        for y in [12, 24, 36] {
            scene = scene.group(
                side,
                (x, y),
                &[
                    vehicle(Kind::Carrier, 1 + y / 24, [14, 12, 8]),
                    unit(Kind::Section, 7),
                    unit(Kind::LightGun, 4),
                    unit(Kind::Truck, 1),
                    with_gun(0, unit(Kind::AntiTankGun, 6)),
                    unit(Kind::Section, 9),
                    with_gun(1, unit(Kind::AntiTankTeam, 2)),
                    tank(),
                ],
            );
        }
    }
    scene.turns(10)
}

fn riders(state: &State, vehicle: u8) -> impl Iterator<Item = (usize, &Unit)> {
    let rides = move |(_, unit): &(usize, &Unit)| {
        unit.place == Place::Carried && unit.carrier == Some(vehicle)
    };
    state.units().iter().enumerate().filter(rides)
}

/// RULES 13.9: a carrier takes 12 men and a truck 20, from within 2 in, of its own side; guns cost
/// two actions, men one. All such vehicles are offered.
#[test]
fn getting_in_is_offered_as_the_text_says() {
    let (mut offered, mut full, mut gun_short) = (0, 0, 0);
    ask_scene(columns(), 120, |view, choices| {
        let doing = view.doing();
        let asked = doing.placing == 0 && doing.moving.is_none();
        let Some(unit) = doing.unit.filter(|_| asked).and_then(|id| view.unit(id)) else { return };
        if unit.place != Place::Table || unit.suppressed(view.rules()) {
            return;
        }
        for (id, vehicle) in view.own_units() {
            let most = match vehicle.kind {
                Kind::Carrier => 12,
                Kind::Truck => 20,
                _ => 0,
            };
            let aboard = (0..96).filter_map(|n| view.unit(n)).filter(|u| {
                u.side == unit.side && u.place == Place::Carried && u.carrier == Some(id)
            });
            let room = most - aboard.map(|u| i32::from(u.men)).sum::<i32>();
            let near =
                vehicle.at.range(unit.at) <= fixed::ABOARD && !unit.kind.is_vehicle() && most > 0;
            let cost = if unit.kind == Kind::AntiTankGun { 2 } else { 1 };
            let fits = i32::from(unit.men) <= room;
            let expected = near && fits && unit.actions >= cost;
            assert_eq!(choices.contains(&Choice::Mount(id)), expected);
            offered += u32::from(expected);
            full += u32::from(near && !fits);
            gun_short += u32::from(near && fits && unit.actions < cost);
        }
    });
    let seen = [offered, full, gun_short];
    assert!(seen.iter().all(|&n| n > 10), "offered, full, too few actions: {seen:?}");
}

/// RULES 13.9: getting in or out costs the actions, counts as moving, and leads into the vehicle's
/// square or one next to it; riders may do nothing but get out.
#[test]
fn riders_get_in_and_out() {
    let (mut got_in, mut got_out) = (0, 0);
    watch_scene(columns(), 60, |_, before, event, now| match *event {
        Event::Mounted { unit: id, carrier } => {
            let (was, is) = (&before.units()[id as usize], &now.units()[id as usize]);
            let cost = if is.kind == Kind::AntiTankGun { 2 } else { 1 };
            assert_eq!((was.actions - is.actions, is.moved), (cost, true));
            assert_eq!((is.place, is.carrier), (Place::Carried, Some(carrier)));
            assert_eq!(is.at, now.units()[carrier as usize].at);
            got_in += 1;
        }
        Event::Dismounted { unit: id, at } => {
            let (was, is) = (&before.units()[id as usize], &now.units()[id as usize]);
            assert_eq!(
                (was.place, is.place, is.carrier, is.at),
                (Place::Carried, Place::Table, None, at)
            );
            let vehicle = &before.units()[was.carrier.unwrap() as usize];
            assert!(at.range(vehicle.at) <= 1);
            if vehicle.place == Place::Table {
                let cost = if is.kind == Kind::AntiTankGun { 2 } else { 1 };
                assert_eq!((was.actions - is.actions, is.moved), (cost, true));
                let near = |(_, u): (u8, &Unit)| u.side != is.side && u.at.range(at) <= 1;
                assert!(!before.on_table().any(near), "in touch with the enemy");
                assert!(before.on_table().all(|(_, u)| u.at != at || u.kind == Kind::Leader));
                got_out += 1;
            }
        }
        Event::Fired { unit, target, .. } => {
            for id in [unit, target] {
                assert_ne!(before.units()[id as usize].place, Place::Carried);
            }
        }
        _ => {}
    });
    assert!(got_in > 100 && got_out > 50, "{got_in} in, {got_out} out");
    ask_scene(columns(), 20, |view, choices| {
        let rides = |id: u8| view.unit(id).is_some_and(|unit| unit.place == Place::Carried);
        if view.doing().placing == 0 && view.doing().unit.is_some_and(rides) {
            let out = |c: &Choice| matches!(c, Choice::Done | Choice::Dismount(_));
            assert!(choices.iter().all(out), "{choices:?}");
        }
    });
}

/// RULES 13.9: riders go where their vehicle goes.
#[test]
fn riders_go_along() {
    let mut along = 0;
    watch_scene(columns(), 60, |_, before, event, now| {
        let Event::UnitMoved { unit, to, .. } = *event else { return };
        for (id, _) in riders(before, unit) {
            assert_eq!((now.units()[id].place, now.units()[id].at), (Place::Carried, to));
            along += 1;
        }
    });
    assert!(along > 20, "{along}");
}

/// RULES 13.8, 13.9: riders of a vehicle that is knocked out get out at once with 4 pins, even when
/// its whole crew is lost; when a crew breaks they get out with none. (A crew of one once spared
/// its riders the pins.)
#[test]
fn riders_of_a_wreck_are_shaken() {
    let scene = columns()
        .rule(Hook::BreakThreshold, |_, args| if args[0] <= 2 { 3 } else { 60 })
        .rule(Hook::GunHitNumber, |_, _| 2)
        .rule(Hook::PenetrationNumber, |_, _| 2);
    let (mut wrecks, mut lone, mut broken) = (0, 0, 0);
    // Who has to get out, with how many pins; who has just done so.
    let (mut due, mut out): (BTreeMap<u8, u8>, Option<(u8, u8)>) = (BTreeMap::new(), None);
    watch_scene(scene, 120, |_, before, event, _| {
        if let Some((rider, pins)) = out.take() {
            let pinned = matches!(*event, Event::PinsAdded { unit, pins: 4, .. } if unit == rider);
            assert_eq!(pinned, pins == 4, "{event:?}");
        }
        match *event {
            Event::VehicleDamaged { unit, damage: Damage::KnockedOut } => {
                due.extend(riders(before, unit).map(|(id, _)| (id as u8, 4)));
                wrecks += due.len();
                lone += usize::from(before.units()[unit as usize].men == 1 && !due.is_empty());
            }
            Event::UnitBroke { unit, cause: BreakCause::Pins, .. } => {
                due.extend(riders(before, unit).map(|(id, _)| (id as u8, 0)));
                broken += due.len();
            }
            Event::Dismounted { unit, .. } => out = due.remove(&unit).map(|pins| (unit, pins)),
            Event::CardDrawn { .. } => assert!(due.is_empty(), "{due:?} stay"),
            _ => {}
        }
    });
    let seen = [wrecks, lone, broken];
    assert!(seen.iter().all(|&n| n > 3), "wrecks, lone crews, broken: {seen:?}");
}

/// RULES 13.9: a side's men are carried where its vehicle stands, in the order they got in.
#[test]
fn a_section_rides_a_carrier() {
    let scene = Scene::new()
        .stand(Side::Attacker, (10, 24), vehicle(Kind::Carrier, 2, [14, 12, 8]))
        .stand(Side::Attacker, (12, 24), unit(Kind::Section, 8))
        .stand(Side::Defender, (60, 24), unit(Kind::Section, 8))
        .all_cards()
        .turns(4);
    let mut squad = drill(&[(10, 24), (12, 24)], |view, choice| match choice {
        Choice::Mount(_) => Some(30),
        Choice::Dismount(0) if view.turn() == 4 => Some(20),
        _ => None,
    });
    let record = scene.play(1, &mut squad, &mut crate::support::idle());
    let carried = |turn: u16| {
        let at_end = |(event, _): &&(Event, State)| *event == (Event::TurnEnded { turn });
        record.0.iter().find(at_end).map(|(_, state)| state.units()[1].place)
    };
    let places = [carried(1), carried(2), carried(3), carried(4)];
    use Place::{Carried, Table};
    assert_eq!(places, [Some(Table), Some(Carried), Some(Carried), Some(Table)]);
}
