//! Fire, armour, close assault, batteries and will are told.

use ruleshift_game::{BreakCause, Damage, Event, Face, Side};

use super::{AT, tells};
use crate::trial::{ENEMY_GUN, ENEMY_SECTION, LEADER, SECTION, TANK};

#[test]
fn fire_is_told() {
    let fired = |late, held, blast| {
        let (unit, target) = (SECTION, ENEMY_SECTION);
        Event::Fired { unit, target, dice: 6, needed: 5, hits: 1, late, held, blast }
    };
    let end = "Defender's section: 6 dice, 5 or more, 1 hit";
    tells(Event::LateFireBegan { first: Side::Defender }, "Late fire, defender first");
    tells(fired(false, false, false), &format!("section fires at {end}"));
    tells(fired(true, false, false), &format!("section fires late at {end}"));
    tells(fired(false, true, false), &format!("section has held its fire and fires at {end}"));
    tells(fired(true, false, true), &format!("section also strikes {end}"));
    tells(Event::MenLost { unit: SECTION, men: 1, left: 9 }, "section loses 1 man, 9 left");
    tells(Event::PinsAdded { unit: SECTION, pins: 2, now: 3 }, "section takes 2 pins: 3 now");
    tells(Event::Suppressed { unit: SECTION }, "section is suppressed");
    tells(Event::UnitLost { unit: SECTION }, "Attacker's section has no man left");
    tells(
        Event::LeaderTested { unit: LEADER, rolled: 11, needed: 11 },
        "leader in the fire: 11, hit from 11, hit",
    );
}

#[test]
fn armour_is_told() {
    let gun = |rolled| Event::GunFired { unit: ENEMY_GUN, target: TANK, rolled, needed: 7 };
    tells(gun(7), "anti-tank gun fires with its 6-pounder at Attacker's tank: 7, 7 needed, a hit");
    tells(gun(6), "anti-tank gun fires with its 6-pounder at Attacker's tank: 6, 7 needed, a miss");
    let (by, unit, face) = (ENEMY_GUN, TANK, Face::Flank);
    tells(
        Event::ArmourStruck { by, unit, face, penetration: 90, armour: 50, rolled: 2, needed: 2 },
        "tank, flank: 90 mm against 50 mm of armour: 2, 2 needed, it goes through",
    );
    for (damage, words) in [
        (Damage::Shaken, "Attacker's tank has its crew shaken"),
        (Damage::Immobile, "Attacker's tank cannot move any more"),
        (Damage::KnockedOut, "Attacker's tank is knocked out"),
    ] {
        tells(Event::VehicleDamaged { unit, damage }, words);
    }
    tells(Event::Bogged { unit }, "tank is stuck in the ground");
    tells(
        Event::BogTried { unit, rolled: 3, needed: 4 },
        "tank tries to get free: 3, 4 needed, still stuck",
    );
    tells(Event::MineStruck { unit: SECTION }, "Attacker's section steps on a mine");
    tells(Event::MineStruck { unit }, "Attacker's tank runs over a mine and cannot move any more");
}

#[test]
fn close_assault_is_told() {
    let (unit, target) = (SECTION, ENEMY_SECTION);
    let charged = |reached| Event::Charged { unit, target, inches: 7, to: AT, reached };
    let start = "section rushes at Defender's section: 7 in, to 30,24";
    tells(charged(true), &format!("{start}, and is upon the enemy"));
    tells(charged(false), &format!("{start}, too short"));
    tells(
        Event::AssaultFought { unit, target, dice: 6, hits: 3, enemy_dice: 5, enemy_hits: 1 },
        "Hand to hand: section 6 dice, 3 hits; section 5 dice, 1 hit",
    );
    tells(Event::FellBack { unit, to: AT }, "Attacker's section falls back to 30,24");
    tells(
        Event::Captured { unit: target, men: 4, by: unit },
        "Defender's section surrenders to section: 4 men taken",
    );
    tells(Event::Pursued { unit, to: AT }, "section takes the place, 30,24");
}

#[test]
fn batteries_are_told() {
    let (battery, by, at, aim) = (0, LEADER, AT, AT);
    let called = |smoke, wait| Event::BatteryCalled { battery, by, at, smoke, wait };
    tells(called(false, 2), "leader calls fire of battery on 30,24: ready after 2 turn ends");
    tells(called(true, 0), "leader calls smoke of battery on 30,24: ready now");
    tells(
        Event::BatteryAdjusted { battery, by, adjusted: 1 },
        "leader corrects the fire of battery: 1 correction",
    );
    let fired = |way, at, smoke| Event::BatteryFired { battery, aim, way, inches: 5, at, smoke };
    tells(fired(None, Some(AT), false), "battery fires at 30,24: on target");
    tells(fired(Some(4), Some(AT), true), "battery fires smoke at 30,24: 5 in left, at 30,24");
    tells(fired(Some(0), None, false), "battery fires at 30,24: 5 in right, off the table");
    tells(
        Event::Shelled { battery, target: SECTION, dice: 4, needed: 4, hits: 2 },
        "Shells on Attacker's section: 4 dice, 4 or more, 2 hits",
    );
}

#[test]
fn will_is_told() {
    let broke = |men, cause| Event::UnitBroke { unit: SECTION, men, cause };
    for (men, cause, words) in [
        (5, BreakCause::Pins, "breaks under fire: 5 men leave the table"),
        (5, BreakCause::GroupTest, "breaks with its group shaken: 5 men leave the table"),
        (1, BreakCause::KnockedOut, "is left by the rest of its crew: 1 man leaves the table"),
    ] {
        tells(broke(men, cause), &format!("Attacker's section {words}"));
    }
    tells(
        Event::GroupGone { group: 0, points: 1 },
        "Nothing is left of First: 1 point to the enemy",
    );
    let rallied = |leader| Event::Rallied { unit: SECTION, leader, pins: 2 };
    tells(rallied(None), "section rallies: 2 pins off");
    tells(rallied(Some(LEADER)), "section is rallied by leader: 2 pins off");
    tells(Event::Recovered { unit: SECTION, pins: 1 }, "section recovers 1 pin");
    tells(
        Event::GroupTested { group: 0, rolled: 7, needed: 7 },
        "First is tested: 7, 7 needed, it stands",
    );
    tells(
        Event::SideTested { side: Side::Attacker, rolled: 5, needed: 6 },
        "The attacker is past his break point: 5, 6 needed, it gives way",
    );
}
