//! Section 16: digging, mines.

use ruleshift_game::{Choice, Cover, Event, Ground, Heading, Hook, Kind, Place, Side, State};

use crate::support::{
    Odds, Scene, Watch, ask_scene, battle, drill, idle, leader, unit, vehicle, watch_scene,
};

/// RULES 16.1: men on foot who do not lead may dig in soft ground, and nobody else; a unit that is
/// dug in digs no more.
#[test]
fn digging_is_for_men_on_soft_ground() {
    let (mut may, mut may_not) = (0, 0);
    ask_scene(battle(), 60, |view, choices| {
        let doing = view.doing();
        let asked = doing.placing == 0 && doing.moving.is_none();
        let Some(unit) = doing.unit.filter(|_| asked).and_then(|id| view.unit(id)) else { return };
        use Ground::{Crops, Hedge, Hill, Open, Scrub, Wood};
        let soft = [Open, Crops, Scrub, Wood, Hedge, Hill].contains(&view.ground(unit.at));
        let foot = !unit.kind.is_vehicle() && unit.kind != Kind::Leader;
        let able = unit.place == Place::Table && !unit.suppressed(view.rules());
        let expected = soft && foot && able && !unit.dug_in;
        assert_eq!(choices.contains(&Choice::DigIn), expected, "{unit:?}");
        may += u32::from(expected);
        may_not += u32::from(!expected);
    });
    assert!(may > 1_000 && may_not > 1_000, "{may} may, {may_not} may not");
}

/// RULES 16.1, 3.3: six actions dig a unit in, wherever their turns; then it has the cover of it,
/// until it steps out of the square.
#[test]
fn six_actions_dig_in_and_a_step_ends_it() {
    let scene = Scene::new()
        .stand(Side::Attacker, (10, 24), unit(Kind::Section, 8))
        .stand(Side::Defender, (60, 24), unit(Kind::Section, 8))
        .all_cards()
        .turns(6);
    let ready = scene.ready();
    let mut digger = drill(&[(10, 24)], |view, choice| match choice {
        Choice::DigIn if view.turn() < 5 => Some(20),
        Choice::Move(Heading::Straight(4)) if view.turn() == 5 => Some(10),
        Choice::Stop(_) => Some(10),
        _ => None,
    });
    let (mut dug, mut out) = (vec![], 0);
    let check = |before: &State, event: &Event, now: &State| {
        let unit = &now.units()[0];
        assert_eq!(now.cover(&ready.arena, unit) == Cover::DugIn, unit.dug_in);
        match *event {
            Event::Dug { done, .. } => dug.push(done),
            Event::UnitMoved { to, .. } if before.units()[0].dug_in => {
                assert!(to != before.units()[0].at && !unit.dug_in && unit.dug == 0);
                out += 1;
            }
            _ => {}
        }
    };
    ready.play(2, &mut digger, &mut idle(), &mut Watch { before: None, check });
    assert_eq!(dug, [false, false, false, false, false, true]);
    assert_eq!(out, 1);
}

/// RULES 16.3: for each square of a minefield a die, and a mine on a 6; men lose a man and take a
/// pin, a vehicle is immobile and takes one; nobody goes on. Markers set off nothing.
#[test]
fn mines_go_off_on_a_six() {
    let mut odds = Odds::default();
    for kind in [Kind::Section, Kind::Carrier] {
        let mover = match kind {
            Kind::Carrier => vehicle(kind, 4, [12, 10, 8]),
            _ => unit(kind, 13),
        };
        let ready = Scene::new()
            .ground(Ground::Minefield, 12..70, 0..48)
            .stand(Side::Attacker, (10, 24), mover)
            .stand(Side::Defender, (68, 2), leader(1))
            .rule(Hook::SideTestNumber, |_, _| 2)
            .all_cards()
            .turns(8)
            .ready();
        for seed in 0..100 {
            let mut squares = 0;
            let check = |before: &State, event: &Event, now: &State| {
                let struck = *event == (Event::MineStruck { unit: 0 });
                if struck {
                    squares -= 1;
                    odds.add(true, 1.0 / 6.0);
                    assert_eq!(now.units()[0].immobile, kind == Kind::Carrier);
                }
                (0..squares).for_each(|_| odds.add(false, 1.0 / 6.0));
                squares = 0;
                if let Event::UnitMoved { unit: 0, to, .. } = *event {
                    squares = (12.max(before.units()[0].at.x + 1)..=to.x).count();
                }
            };
            let mut driver = drill(&[(10, 24)], |_, choice| match choice {
                Choice::Move(Heading::Straight(0)) => Some(9),
                Choice::Stop(steps) => Some(i32::from(steps)),
                _ => None,
            });
            ready.play(seed, &mut driver, &mut idle(), &mut Watch { before: None, check });
        }
    }
    odds.hold(1_500);
}

/// RULES 16.3: what follows a mine at once.
#[test]
fn a_mine_takes_a_man_and_a_pin() {
    let mut scene = battle().rule(Hook::MineNumber, |_, _| 2);
    for ground in scene.setup.ground.iter_mut().filter(|ground| **ground == Ground::Scrub) {
        *ground = Ground::Minefield;
    }
    let (mut men, mut vehicles, mut struck) = (0, 0, None);
    watch_scene(scene, 120, |ready, before, event, now| {
        if let Some(unit) = struck.take() {
            let kind = now.units()[unit as usize].kind;
            if kind.is_vehicle() {
                assert!(matches!(*event, Event::PinsAdded { unit: u, pins: 1, .. } if u == unit));
                vehicles += 1;
            } else {
                assert!(matches!(*event, Event::MenLost { unit: u, men: 1, .. } if u == unit));
                men += 1;
            }
        }
        if let Event::MineStruck { unit } = *event {
            assert_eq!(ready.arena.ground(now.units()[unit as usize].at), Ground::Minefield);
            struck = Some(unit);
        }
        if let Event::MarkerMoved { marker, .. } = *event {
            assert!(before.units() == now.units(), "marker {marker} set off a mine");
        }
    });
    assert!(men > 30 && vehicles > 5, "{men} on foot, {vehicles} vehicles");
}
