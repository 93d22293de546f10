//! Paragraphs 13.5 to 13.8: guns against armour.

use ruleshift_game::{
    BreakCause, Choice, Cover, Damage, Event, Face, Hook, Kind, Place, Side, State, Unit,
};

use crate::support::{
    Odds, Scene, ask_scene, battle, eighths, tank, two_dice, unit, vehicle, watch_scene, with_gun,
};

/// What the guns of the scenes below go through: two of shot, one of shaped charges.
const TABLES: [([u16; 3], bool); 3] =
    [([90, 70, 50], false), ([110, 110, 110], true), ([40, 30, 21], false)];

/// Armour of all sorts on open and covered ground, driven about by lively players.
fn tanks() -> Scene {
    let mut scene = battle();
    scene.setup.guns.clear();
    for side in &mut scene.setup.sides.0 {
        (side.groups, side.spots, side.batteries) = (vec![], vec![], vec![]);
    }
    for (table, shaped) in TABLES {
        scene = scene.gun(table, shaped);
    }
    for (&side, x) in Side::ALL.iter().zip([20, 44]) {
        for y in [10, 22, 34] {
            scene = scene.group(
                side,
                (x, y),
                &[
                    tank(),
                    with_gun(2, vehicle(Kind::AssaultGun, 4, [65, 60, 61])),
                    with_gun(2, vehicle(Kind::Tank, 1, [30, 25, 20])),
                    with_gun(0, unit(Kind::AntiTankGun, 5)),
                    with_gun(1, unit(Kind::AntiTankTeam, 2)),
                    vehicle(Kind::Carrier, 3, [12, 10, 8]),
                ],
            );
        }
    }
    scene.turns(12)
}

/// RULES 13.5: 5, 7, 8 by band, 1 more in light cover and 2 in hard or dug in, 2 more if it has
/// moved and 1 if the target has; two dice reach it as often as counting says.
#[test]
fn guns_hit_on_their_number() {
    let (mut odds, mut seen) = (Odds::default(), [0; 8]);
    // Who has moved since his last activation, or the start of the turn.
    let mut moved = [false; 96];
    watch_scene(tanks(), 150, |ready, before, event, _| {
        match *event {
            Event::TurnStarted { .. } => moved = [false; 96],
            Event::UnitActivated { unit, .. } => moved[unit as usize] = false,
            Event::UnitMoved { unit, .. }
            | Event::Charged { unit, .. }
            | Event::Mounted { unit, .. } => moved[unit as usize] = true,
            // Out of a wreck nobody moves of his own will.
            Event::Dismounted { unit, .. } => {
                let vehicle = before.units()[unit as usize].carrier.expect("he rode");
                let stands = before.units()[vehicle as usize].place == Place::Table;
                moved[unit as usize] |= stands;
            }
            _ => {}
        }
        let Event::GunFired { unit, target, rolled, needed } = *event else { return };
        let (gun, struck) = (&before.units()[unit as usize], &before.units()[target as usize]);
        let range = gun.at.range(struck.at);
        let limits = if gun.kind == Kind::AntiTankTeam { [3, 6, 10] } else { [20, 50, 86] };
        let band = limits.iter().filter(|&&limit| range > limit).count();
        let cover = ready.arena.cover(struck.at);
        let expected = [5, 7, 8][band]
            + [0, 1, 2, 2][cover as usize]
            + 2 * u8::from(moved[unit as usize])
            + u8::from(moved[target as usize]);
        assert_eq!(needed, expected.min(13));
        odds.add(rolled >= needed, two_dice(needed));
        let kinds = [
            band == 0,
            band == 1,
            cover == Cover::Light,
            cover >= Cover::Hard,
            moved[unit as usize],
            moved[target as usize],
            gun.kind == Kind::AntiTankTeam,
            gun.kind == Kind::AntiTankGun,
        ];
        seen.iter_mut().zip(kinds).for_each(|(seen, kind)| *seen += u32::from(kind));
    });
    odds.hold(2_000);
    assert!(seen.iter().all(|&n| n > 20), "{seen:?}");
}

/// RULES 13.5: only guns are offered armour to fire at, and shells near it do nothing but pin.
#[test]
fn only_guns_harm_armour() {
    let (mut guns, mut others) = (0, 0);
    ask_scene(battle(), 60, |view, choices| {
        let doing = view.doing();
        let Some(unit) = doing.unit.and_then(|id| view.unit(id)) else { return };
        for &choice in choices {
            let Choice::Fire(target) = choice else { continue };
            let armoured = view.unit(target).is_some_and(|unit| unit.armour[0] > 0);
            assert!(!armoured || unit.gun.is_some(), "{:?} at armour", unit.kind);
            guns += u32::from(armoured);
            others += u32::from(!armoured);
        }
    });
    assert!(guns > 200 && others > 2_000, "{guns} at armour, {others} at others");
    let (mut shells, mut last) = (0, None);
    watch_scene(battle(), 150, |_, before, event, _| {
        let armoured = |id: u8| before.units()[id as usize].armour[0] > 0;
        if let Some((unit, hits)) = last.take().filter(|&(_, hits)| hits > 0) {
            let Event::PinsAdded { unit: pinned, pins, .. } = *event else {
                panic!("{event:?} after {hits} hits")
            };
            assert_eq!((pinned, pins), (unit, hits));
            shells += 1;
        }
        match *event {
            Event::Shelled { target, hits, .. } | Event::Fired { target, hits, .. }
                if armoured(target) =>
            {
                last = Some((target, hits));
            }
            _ => {}
        }
    });
    assert!(shells > 10, "{shells}");
}

/// RULES 13.6: armour along the line of fire that a gun goes through, worked out in fractions of a
/// millimetre.
fn reach((table, shaped): ([u16; 3], bool), inches: u8) -> f64 {
    let metres = f64::from(inches) * 9.144;
    let [near, middle, far] = table.map(f64::from);
    let between = |a: f64, b: f64, from: f64, to: f64| a + (b - a) * (metres - from) / (to - from);
    let plate = match metres {
        m if m <= 100.0 => near,
        m if m <= 500.0 => between(near, middle, 100.0, 500.0),
        m if m <= 1000.0 => between(middle, far, 500.0, 1000.0),
        _ => far,
    };
    if shaped { plate } else { 1.155 * plate }
}

/// RULES 13.6: the face by where the shot comes from, the force by gun and range, the number by
/// both; two dice reach it as often as counting says. Parts of a millimetre may be lost twice.
#[test]
fn armour_gives_way_on_its_number() {
    let (mut odds, mut faces) = (Odds::default(), [0; 3]);
    let mut shot: Option<(Unit, Unit)> = None;
    watch_scene(tanks(), 250, |_, before, event, _| {
        let unit = |id: u8| before.units()[id as usize];
        match *event {
            Event::GunFired { unit: by, target, rolled, needed } => {
                shot = (rolled >= needed).then(|| (unit(by), unit(target)));
            }
            Event::ArmourStruck { face, penetration, armour, rolled, needed, .. } => {
                let Some((gun, struck)) = shot.take() else { return };
                let expected = match eighths(struck.at, struck.facing, gun.at) {
                    0 | 1 => Face::Front,
                    4 => Face::Rear,
                    _ => Face::Flank,
                };
                assert_eq!((face, armour), (expected, struck.armour[expected as usize]));
                let exact = reach(TABLES[gun.gun.unwrap() as usize], gun.at.range(struck.at));
                assert!((exact - 2.2..=exact).contains(&f64::from(penetration)), "{exact}");
                let margin = i32::from(penetration) - i32::from(armour);
                assert_eq!(i32::from(needed), (7 - margin / 5).clamp(2, 13));
                odds.add(rolled >= needed, two_dice(needed));
                faces[face as usize] += 1;
            }
            _ => assert!(shot.is_none(), "a hit strikes armour: {event:?}"),
        }
    });
    odds.hold(1_000);
    assert!(faces.iter().all(|&n| n > 20), "{faces:?}");
}

/// RULES 13.6, 13.7: armour that holds costs its crew a pin; behind armour that gives way a die
/// says 1 shaken with 3 pins, 2 immobile with a pin, 3 to 6 knocked out, each as often as it
/// should. A hit that goes through nothing never damages.
#[test]
fn what_goes_through_does_its_damage() {
    let mut odds = [Odds::default(), Odds::default(), Odds::default()];
    let (mut due, mut held): (Option<(u8, u8)>, u32) = (None, 0);
    watch_scene(tanks(), 250, |_, _, event, now| {
        if let Some((unit, pins)) = due.take() {
            let Event::PinsAdded { unit: pinned, pins: added, .. } = *event else {
                panic!("{event:?} instead of pins")
            };
            assert_eq!((pinned, added), (unit, pins));
        }
        match *event {
            Event::ArmourStruck { unit, rolled, needed, .. } if rolled < needed => {
                due = Some((unit, 1));
                held += 1;
            }
            Event::VehicleDamaged { unit, damage } => {
                for (&kind, odds) in Damage::ALL.iter().zip(&mut odds) {
                    let chance = if kind == Damage::KnockedOut { 4.0 } else { 1.0 } / 6.0;
                    odds.add(damage == kind, chance);
                }
                due = match damage {
                    Damage::Shaken => Some((unit, 3)),
                    Damage::Immobile => Some((unit, 1)),
                    Damage::KnockedOut => None,
                };
                if damage == Damage::Shaken {
                    assert_eq!(now.units()[unit as usize].place, Place::Table);
                }
            }
            _ => {}
        }
    });
    odds.iter().for_each(|odds| odds.hold(400));
    assert!(held > 200, "{held}");
}

/// RULES 13.7: an immobile vehicle never moves again, but turns, fires and rallies.
#[test]
fn immobile_vehicles_stay() {
    let scene = tanks().rule(Hook::HitDamage, |_, _| Damage::Immobile as i32);
    let (mut stays, mut turns, mut fires) = (0, 0, 0);
    watch_scene(scene.clone(), 40, |_, before, event, now| {
        for (was, is) in before.units().iter().zip(now.units()) {
            assert!(is.immobile || !was.immobile);
            assert!(!was.immobile || was.at == is.at, "{event:?}");
            stays += u32::from(was.immobile);
        }
        let immobile = |unit: u8| before.units()[unit as usize].immobile;
        match *event {
            Event::UnitTurned { unit, .. } => turns += u32::from(immobile(unit)),
            Event::GunFired { unit, .. } => fires += u32::from(immobile(unit)),
            _ => {}
        }
    });
    assert!(stays > 1_000 && turns > 20 && fires > 10, "{stays}, {turns}, {fires}");
}

/// RULES 13.8: half the crew of a wreck is lost, the larger half of an odd number; the rest flees.
#[test]
fn half_the_crew_of_a_wreck_is_lost() {
    let (mut wrecks, mut odd, mut lone) = (0, 0, 0);
    let mut due: Option<(u8, u8)> = None;
    let mut fled: Option<(u8, u8)> = None;
    watch_scene(tanks(), 150, |_, before, event, now| {
        check_fled(&mut fled, event, now);
        if let Some((unit, men)) = due.take() {
            let lost = men.div_ceil(2);
            assert_eq!(*event, Event::MenLost { unit, men: lost, left: men / 2 });
            fled = (men > 1).then_some((unit, men / 2));
            wrecks += 1;
            odd += u32::from(men % 2 == 1);
            lone += u32::from(men == 1);
        }
        if let Event::VehicleDamaged { unit, damage: Damage::KnockedOut } = *event {
            due = Some((unit, before.units()[unit as usize].men));
        }
    });
    let seen = [wrecks, odd, lone];
    assert!(seen.iter().all(|&n| n > 20), "wrecks, odd crews, lone men: {seen:?}");
}

/// Those of a wreck's crew who were not hit flee next, apart from tests of leaders near them.
fn check_fled(fled: &mut Option<(u8, u8)>, event: &Event, now: &State) {
    if matches!(event, Event::LeaderTested { .. }) {
        return;
    }
    if let Some((unit, men)) = fled.take() {
        assert_eq!(*event, Event::UnitBroke { unit, men, cause: BreakCause::KnockedOut });
        assert_eq!(now.units()[unit as usize].place, Place::Fled);
    }
}

/// RULES 13.6: the gun of an unarmoured target fires as in 7: no dice of armour are rolled.
#[test]
fn guns_fire_at_men_as_others_do() {
    let mut shots = 0;
    watch_scene(battle(), 60, |_, before, event, _| {
        if let Event::GunFired { target, .. } = *event {
            assert!(before.units()[target as usize].armour != [0; 3]);
        }
        if let Event::Fired { unit, target, blast: false, .. } = *event {
            assert_eq!(before.units()[target as usize].armour, [0; 3]);
            shots += u32::from(before.units()[unit as usize].gun.is_some());
        }
    });
    assert!(shots > 100, "{shots}");
}
