//! Actions and shots.

use ruleshift_game::{Cell, Event, Side};
use ruleshift_record::Metric;

use super::stage::{BATTERY, CARRIER, ENEMY_GUN, ENEMY_SECTION, RIDER, SECTION, TANK};
use super::{adds, fed, of};

const AT: Cell = Cell { x: 30, y: 24 };

#[test]
fn every_act_is_an_action() {
    let (battery, by, at) = (BATTERY, SECTION, AT);
    let (unit, way) = (SECTION, None);
    let looked = |unit, by| {
        let (side, feature) = (Side::Defender, 0);
        Event::Searched { side, feature, unit, by, rolled: 5, needed: 9, empty: false }
    };
    for event in [
        Event::UnitTurned { unit: TANK, way: 2 },
        Event::BogTried { unit: TANK, rolled: 2, needed: 4 },
        Event::Charged { unit, target: ENEMY_SECTION, inches: 4, to: AT, reached: false },
        Event::Dug { unit, done: false },
        Event::Mounted { unit: RIDER, carrier: CARRIER },
        Event::BatteryCalled { battery, by, at, smoke: false, wait: 1 },
        Event::BatteryAdjusted { battery, by, adjusted: 1 },
        Event::BatteryFired { battery, aim: AT, way, inches: 0, at: None, smoke: true },
        looked(Some(SECTION), None),
        looked(None, Some(0)),
        Event::GunFired { unit: TANK, target: CARRIER, rolled: 5, needed: 7 },
    ] {
        adds(event, Metric::Actions, 1.0);
    }
    for event in [
        Event::FireHeld { unit },
        Event::Bogged { unit: TANK },
        Event::MineStruck { unit },
        Event::FellBack { unit, to: AT },
        Event::Pursued { unit, to: AT },
    ] {
        adds(event, Metric::Actions, 0.0);
    }
}

#[test]
fn to_be_thrown_out_or_taken_along_is_no_action() {
    let out = Event::Dismounted { unit: RIDER, at: AT };
    let left = |unit| Event::UnitLeft { unit, points: 1 };
    let acts = |unit| Event::UnitActivated { unit, actions: 3 };
    let actions = |events: &[Event]| of(&fed(events), Metric::Actions);
    assert_eq!(actions(&[acts(RIDER), out]), 1.0);
    assert_eq!(actions(&[Event::OrderGiven { leader: 0, unit: RIDER }, out]), 1.0);
    assert_eq!(actions(&[acts(CARRIER), out]), 0.0);
    assert_eq!(actions(&[acts(RIDER), Event::LateFireBegan { first: Side::Attacker }, out]), 0.0);
    assert_eq!(actions(&[acts(CARRIER), left(CARRIER), left(RIDER)]), 1.0);
}

#[test]
fn shots_at_armour_are_late_at_turn_end() {
    let shot = Event::GunFired { unit: ENEMY_GUN, target: TANK, rolled: 5, needed: 7 };
    let late = Event::LateFireBegan { first: Side::Attacker };
    let values = fed(&[shot, late, shot, shot, Event::TurnStarted { turn: 2, cards: 5 }, shot]);
    let counts = [Metric::ShotsTaken, Metric::LateShots, Metric::Actions].map(|m| of(&values, m));
    assert_eq!(counts, [2.0, 2.0, 2.0]);
}

#[test]
fn fire_that_was_held_is_a_shot_and_a_blast_is_none() {
    let fired = |late, held, blast| {
        let (unit, target) = (SECTION, ENEMY_SECTION);
        Event::Fired { unit, target, dice: 4, needed: 4, hits: 2, late, held, blast }
    };
    adds(fired(false, true, false), Metric::ShotsTaken, 1.0);
    adds(fired(false, true, false), Metric::Actions, 1.0);
    adds(fired(false, false, true), Metric::ShotsTaken, 0.0);
    adds(fired(true, false, false), Metric::LateShots, 1.0);
    adds(fired(true, false, false), Metric::Actions, 0.0);
}
