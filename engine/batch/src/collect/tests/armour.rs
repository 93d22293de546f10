//! Armour, batteries, prisoners, reserves, how games end.

use ruleshift_game::{BreakCause, Damage, EndCause, Event, Face, Observer};
use ruleshift_record::{Metric, Timing};

use super::stage::{
    BATTERY, CARRIER, ENEMY_GUN, ENEMY_SECTION, RESERVE, SECTION, STAGE, TANK, start,
};
use super::{Collector, adds, ended, fed, of};

fn gun_fired(rolled: u8) -> Event {
    Event::GunFired { unit: ENEMY_GUN, target: TANK, rolled, needed: 7 }
}

fn struck(rolled: u8) -> Event {
    let (by, unit, face) = (ENEMY_GUN, TANK, Face::Front);
    Event::ArmourStruck { by, unit, face, penetration: 90, armour: 80, rolled, needed: 5 }
}

#[test]
fn hits_and_blows_that_go_through_are_shares() {
    let events = [gun_fired(6), gun_fired(7), struck(4), gun_fired(12), struck(5), gun_fired(2)];
    let values = fed(&events);
    assert_eq!(of(&values, Metric::GunHits), 0.5);
    assert_eq!(of(&values, Metric::ArmourPierced), 0.5);
    assert_eq!(of(&fed(&[]), Metric::GunHits), 0.0);
}

#[test]
fn a_vehicle_is_lost_once() {
    let broke = |unit, cause| Event::UnitBroke { unit, men: 3, cause };
    let lost = |events: &[Event]| of(&fed(events), Metric::VehiclesLost);
    let out = Event::VehicleDamaged { unit: TANK, damage: Damage::KnockedOut };
    assert_eq!(lost(&[out, broke(TANK, BreakCause::KnockedOut)]), 1.0);
    assert_eq!(lost(&[out, Event::UnitLost { unit: TANK }]), 1.0);
    assert_eq!(lost(&[broke(TANK, BreakCause::Pins), broke(CARRIER, BreakCause::GroupTest)]), 2.0);
    assert_eq!(lost(&[broke(SECTION, BreakCause::Pins)]), 0.0);
    let enemy = Event::VehicleDamaged { unit: ENEMY_GUN, damage: Damage::KnockedOut };
    let values = fed(&[out, broke(CARRIER, BreakCause::Pins), enemy]);
    let sides = [Metric::AttackerVehiclesLost, Metric::DefenderVehiclesLost];
    assert_eq!(sides.map(|metric| of(&values, metric)), [2.0, 1.0]);
    for damage in [Damage::Shaken, Damage::Immobile] {
        assert_eq!(lost(&[Event::VehicleDamaged { unit: TANK, damage }]), 0.0);
    }
}

#[test]
fn missions_are_shells_and_screens_are_smoke_on_the_table() {
    let aim = ruleshift_game::Cell { x: 40, y: 24 };
    let fired = |smoke, at| {
        let (battery, way, inches) = (BATTERY, None, 0);
        Event::BatteryFired { battery, aim, way, inches, at, smoke }
    };
    adds(fired(false, Some(aim)), Metric::Missions, 1.0);
    adds(fired(false, None), Metric::Missions, 1.0);
    adds(fired(false, Some(aim)), Metric::Screens, 0.0);
    adds(fired(true, Some(aim)), Metric::Screens, 1.0);
    adds(fired(true, None), Metric::Screens, 0.0);
    adds(fired(true, None), Metric::Missions, 0.0);
}

#[test]
fn single_events_are_counted() {
    let (unit, by) = (ENEMY_SECTION, SECTION);
    adds(Event::Captured { unit, men: 6, by }, Metric::Prisoners, 6.0);
    adds(Event::Bogged { unit: TANK }, Metric::Bogged, 1.0);
    adds(Event::MineStruck { unit }, Metric::MinesStruck, 1.0);
    adds(Event::UnitLeft { unit, points: 2 }, Metric::UnitsLeft, 1.0);
    let searched = |rolled| {
        let (side, feature, needed) = (ruleshift_game::Side::Defender, 0, 9);
        let (unit, by, empty) = (Some(SECTION), None, true);
        Event::Searched { side, feature, unit, by, rolled, needed, empty }
    };
    adds(searched(9), Metric::FeaturesSearched, 1.0);
    adds(searched(8), Metric::FeaturesSearched, 0.0);
}

/// The attacker's reserve is still to come: its turn counts as one after the last.
#[test]
fn a_reserve_that_does_not_come_counts_as_late() {
    let tested = |rolled| Event::ReserveTested { group: RESERVE, rolled, needed: 4 };
    adds(tested(3), Metric::ReservesArrived, 1.0);
    // Another one came in turn 0, before the first: the mean of 0 and 1.
    adds(tested(4), Metric::ReservesArrived, 0.5);
    adds(Event::ReserveCalled { group: RESERVE }, Metric::ReservesArrived, 0.5);
}

#[test]
fn a_game_ends_in_one_way() {
    let timing = Timing::default();
    for (cause, metric) in [
        (EndCause::TurnLimit, Metric::EndedByObjective),
        (EndCause::SideBroke, Metric::EndedByBreak),
        (EndCause::NobodyLeft, Metric::EndedByAnnihilation),
    ] {
        let mut collector = Collector::new(&timing, STAGE.table());
        collector.event(&ended(cause), &start());
        for way in [Metric::EndedByObjective, Metric::EndedByBreak, Metric::EndedByAnnihilation] {
            let expected = f64::from(u8::from(way == metric));
            assert_eq!(of(collector.values(), way), expected, "{cause:?}, {way:?}");
        }
    }
}
