//! Paragraphs 13.1 to 13.4: facing, arcs, costs, sticking.

use ruleshift_game::{
    Cell, Choice, Event, Gait, Ground, Heading, Hook, Kind, Player, STEPS, Side, State,
};

use crate::support::{
    Odds, PLATE, Scene, Watch, ask_scene, battle, drill, eighths, idle, unit, vehicle, watch_scene,
    way,
};

fn faces(kind: Kind) -> bool {
    use Kind::{AntiTankGun, AssaultGun, Carrier, Tank, Truck};
    matches!(kind, Tank | AssaultGun | Carrier | Truck | AntiTankGun)
}

/// RULES 13.1: they face the way of their last step, a way they turn to, and when placed the
/// nearest enemy; nobody else turns, and nothing else turns them.
#[test]
fn vehicles_face_where_they_last_went_or_turned() {
    let (mut turned, mut moved, mut placed) = (0, 0, 0);
    watch_scene(battle(), 60, |ready, before, event, now| match *event {
        Event::UnitTurned { unit, way } => {
            let (was, is) = (&before.units()[unit as usize], &now.units()[unit as usize]);
            assert!(faces(is.kind) && is.facing == way && was.facing != way);
            assert!(is.at == was.at && is.actions + 1 == was.actions);
            turned += 1;
        }
        Event::UnitMoved { unit, heading, to, .. } => {
            let (was, is) = (&before.units()[unit as usize], &now.units()[unit as usize]);
            if was.at == to || !faces(is.kind) {
                return;
            }
            let (mut at, mut last) = (was.at, was.at);
            while at != to {
                last = at;
                at = ready.paths.step(at, heading, Gait::of(is.kind)).unwrap().0;
            }
            assert_eq!(i32::from(is.facing), way(last, to));
            moved += 1;
        }
        Event::UnitPlaced { unit, at } if faces(now.units()[unit as usize].kind) => {
            let side = now.units()[unit as usize].side;
            let units = now.on_table().filter(|(_, u)| u.side != side).map(|(_, u)| u.at);
            let shown = now.markers().iter().filter(|m| m.shows() && m.side != side);
            let foes: Vec<Cell> = units.chain(shown.map(|m| m.at)).collect();
            let nearest = foes.iter().map(|foe| foe.range(at)).min();
            let near = foes.iter().filter(|foe| Some(foe.range(at)) == nearest);
            let facing = i32::from(now.units()[unit as usize].facing);
            let middle = [Cell { x: 36, y: 24 }];
            let mut ways = if foes.is_empty() {
                middle.iter().map(|&to| way(at, to)).collect()
            } else {
                near.map(|&foe| way(at, foe)).collect::<Vec<_>>()
            };
            ways.retain(|&way| way == facing);
            assert!(!ways.is_empty(), "faces {facing} at {at:?}");
            placed += 1;
        }
        _ => {
            for (was, is) in before.units().iter().zip(now.units()) {
                let left = matches!(event, Event::Charged { .. } | Event::FellBack { .. });
                let same = was.facing == is.facing;
                assert!(same || left || !faces(is.kind), "{event:?}");
            }
        }
    });
    let seen = [turned, moved, placed];
    assert!(seen.iter().all(|&n| n > 100), "turned, moved, placed: {seen:?}");
}

/// RULES 13.2: an assault gun and an anti-tank gun fire up to one eighth off their front, all
/// others all round.
#[test]
fn guns_fire_within_their_arc() {
    let (mut inside, mut outside, mut behind) = (0, 0, 0);
    ask_scene(battle(), 80, |view, choices| {
        let doing = view.doing();
        let asked = doing.placing == 0 && doing.moving.is_none();
        let Some(unit) = doing.unit.filter(|_| asked).and_then(|id| view.unit(id)) else { return };
        let rules = view.rules();
        if unit.shots == 0 || unit.suppressed(rules) || unit.place != ruleshift_game::Place::Table {
            return;
        }
        for (id, target) in view.enemy_units() {
            let plain = !matches!(target.kind, Kind::Leader)
                && view.sees(unit.at, target.at)
                && rules.range_band(unit.kind, unit.at.range(target.at)) < 3
                && (target.armour[0] == 0 && rules.fire_dice(unit.kind, unit.men, unit.pins) > 0
                    || target.armour[0] > 0 && unit.gun.is_some());
            let off = eighths(unit.at, unit.facing, target.at);
            let narrow = matches!(unit.kind, Kind::AssaultGun | Kind::AntiTankGun);
            let expected = plain && (!narrow || off <= 1);
            assert!(
                plain
                    || matches!(target.kind, Kind::Leader)
                    || !choices.contains(&Choice::Fire(id))
            );
            if plain {
                assert_eq!(choices.contains(&Choice::Fire(id)), expected);
                inside += u32::from(narrow && expected);
                outside += u32::from(!expected);
                behind += u32::from(unit.kind == Kind::Tank && off == 4);
            }
        }
    });
    let seen = [inside, outside, behind];
    assert!(seen.iter().all(|&n| n > 50), "inside, outside, behind: {seen:?}");
}

/// RULES 13.3, 3.2: what a vehicle pays on each ground, a slanting step 141 for 100; a building is
/// closed to it. The crew of a gun pushes it on foot.
#[test]
fn vehicles_pay_their_own_price() {
    use Ground::*;
    let price = |ground: Ground| match ground {
        Road | Bridge => Some(40),
        Open | Hill | Crops | Minefield => Some(60),
        Ford | Scrub | Wire => Some(120),
        Hedge | Wall | Trench => Some(200),
        Wood | Rubble | Stream => Some(300),
        Building => None,
    };
    let ready = battle().ready();
    let mut closed = 0;
    for cell in Cell::all() {
        for (step, (dx, dy)) in (0u8..).zip(STEPS) {
            let Some(to) = cell.step(dx, dy) else { continue };
            let cost = ready.paths.step(cell, Heading::Straight(step), Gait::Vehicle);
            let slant = |cost: u16| if step % 2 == 0 { cost } else { cost * 141 / 100 };
            assert_eq!(cost, price(ready.arena.ground(to)).map(|cost| (to, slant(cost))));
            closed += u32::from(cost.is_none());
        }
    }
    assert!(closed > 50, "{closed}");
    assert_eq!(Gait::of(Kind::AntiTankGun), Gait::Foot);
    assert_eq!(
        [Kind::Tank, Kind::AssaultGun, Kind::Carrier, Kind::Truck].map(Gait::of),
        [Gait::Vehicle; 4]
    );
}

/// RULES 5.3: the dice of a move by kind: no move is longer, and the longest and shortest occur.
#[test]
fn moves_have_the_dice_of_their_kind() {
    let mut seen = [(u8::MAX, 0u8, 0u32); Kind::ALL.len()];
    watch_scene(battle(), 150, |_, _, event, now| {
        let Event::UnitMoved { unit, inches, .. } = *event else { return };
        let unit = &now.units()[unit as usize];
        let (least, most, count) = &mut seen[unit.kind as usize];
        if unit.pins < 2 {
            (*least, *most, *count) = (inches.min(*least), inches.max(*most), *count + 1);
        }
    });
    for (kind, (least, most, count)) in Kind::ALL.iter().zip(seen) {
        let dice = match kind {
            Kind::Battery => continue,
            Kind::Leader | Kind::Tank | Kind::AssaultGun => 2,
            Kind::Carrier | Kind::Truck => 3,
            _ => 1,
        };
        assert!(count > 100, "{kind}: {count}");
        assert!(least >= dice && most <= 6 * dice, "{kind}: {least} to {most}");
        // The extremes of three dice are rare: 17 or 18 are 4 of 216.
        assert!(least <= dice + 1 && most >= 6 * dice - 1, "{kind}: {least} to {most}");
    }
}

/// A lone vehicle that drives to the right over a belt of ground.
fn drive(ground: Ground) -> Scene {
    Scene::new()
        .gun([90, 70, 50], false)
        .ground(ground, 12..70, 0..48)
        .stand(Side::Attacker, (10, 24), vehicle(Kind::Carrier, 4, PLATE))
        .stand(Side::Defender, (68, 2), unit(Kind::Section, 8))
        .all_cards()
        .turns(6)
        .rule(Hook::MineNumber, |_, _| 7)
}

/// Drives to the right as far as every roll allows.
fn driver() -> impl Player {
    drill(&[(10, 24)], |_, choice| match choice {
        Choice::Move(Heading::Straight(0)) => Some(9),
        Choice::Stop(steps) => Some(i32::from(steps)),
        _ => None,
    })
}

/// RULES 13.4: for each square of wood, stream, rubble, wall or trench a die, 1 sticks, and a stuck
/// vehicle is free again on a 4 of its next move's die; in other ground none sticks.
#[test]
fn vehicles_stick_in_bad_ground() {
    let (mut stuck, mut free) = (Odds::default(), Odds::default());
    for &ground in Ground::ALL.iter().filter(|&&ground| ground != Ground::Building) {
        use Ground::{Rubble, Stream, Trench, Wall, Wood};
        let bad = matches!(ground, Wood | Stream | Rubble | Wall | Trench);
        let ready = drive(ground).ready();
        let mut entered = 0;
        for seed in 0..if bad { 80 } else { 6 } {
            let mut squares = 0;
            let check = |before: &State, event: &Event, now: &State| {
                if *event == (Event::Bogged { unit: 0 }) {
                    assert!(bad && now.units()[0].bogged, "{ground}");
                    stuck.add(true, 1.0 / 6.0);
                    squares -= 1;
                }
                (0..squares).for_each(|_| stuck.add(false, if bad { 1.0 / 6.0 } else { 0.0 }));
                squares = 0;
                match *event {
                    Event::UnitMoved { unit: 0, to, .. } => {
                        assert!(!before.units()[0].bogged, "stuck vehicles stay");
                        squares = (12.max(before.units()[0].at.x + 1)..=to.x).count();
                        entered += squares;
                    }
                    Event::BogTried { rolled, needed, .. } => {
                        assert!(needed == 4 && before.units()[0].bogged);
                        assert_eq!(now.units()[0].bogged, rolled < 4);
                        free.add(rolled >= 4, 0.5);
                    }
                    _ => {}
                }
            };
            let mut watch = Watch { before: None, check };
            ready.play(seed, &mut driver(), &mut idle(), &mut watch);
        }
        assert!(entered > 20, "{ground}: {entered} squares");
    }
    stuck.hold(500);
    free.hold(200);
}
