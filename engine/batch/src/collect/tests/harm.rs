//! Whose weapons take the men.

use ruleshift_game::{Event, Face, UnitId};
use ruleshift_record::Metric;

use super::stage::{
    BATTERY, CARRIER, ENEMY_FLAME, ENEMY_GUN, ENEMY_SECTION, ENEMY_TEAM, ENEMY_TRIPOD, LEADER,
    MORTAR, SECTION, TANK,
};
use super::{fed, of};

fn fired(unit: UnitId, target: UnitId) -> Event {
    let (late, held, blast) = (false, false, false);
    Event::Fired { unit, target, dice: 4, needed: 4, hits: 2, late, held, blast }
}

fn lost(unit: UnitId, men: u8) -> Event {
    Event::MenLost { unit, men, left: 1 }
}

fn fought(unit: UnitId, target: UnitId) -> Event {
    Event::AssaultFought { unit, target, dice: 4, hits: 1, enemy_dice: 4, enemy_hits: 1 }
}

fn shelled(battery: u8, target: UnitId) -> Event {
    Event::Shelled { battery, target, dice: 4, needed: 4, hits: 1 }
}

#[test]
fn a_loss_belongs_to_the_blow_before_it() {
    let gun = Event::GunFired { unit: ENEMY_TEAM, target: TANK, rolled: 8, needed: 6 };
    for (blow, metric) in [
        (fired(SECTION, ENEMY_SECTION), Metric::MenLostToRifles),
        (fired(LEADER, ENEMY_SECTION), Metric::MenLostToRifles),
        (fired(ENEMY_TRIPOD, SECTION), Metric::MenLostToMachineGuns),
        (fired(CARRIER, ENEMY_SECTION), Metric::MenLostToMachineGuns),
        (fired(MORTAR, ENEMY_SECTION), Metric::MenLostToMortars),
        (shelled(BATTERY, ENEMY_SECTION), Metric::MenLostToBatteries),
        (fired(TANK, ENEMY_SECTION), Metric::MenLostToGuns),
        (fired(ENEMY_GUN, SECTION), Metric::MenLostToGuns),
        (gun, Metric::MenLostToGuns),
        (fired(ENEMY_FLAME, SECTION), Metric::MenLostToFlame),
        (fought(SECTION, ENEMY_SECTION), Metric::MenLostToAssault),
        (Event::MineStruck { unit: SECTION }, Metric::MenLostToMines),
    ] {
        // A blow of another kind before it must leave no trace.
        let values = fed(&[shelled(BATTERY, TANK), fired(SECTION, TANK), blow, lost(SECTION, 3)]);
        assert_eq!(of(&values, metric), 3.0, "{blow:?}");
        assert_eq!(of(&values, Metric::MenLost), 3.0);
    }
}

/// A crew whose vehicle is struck hand to hand is not lost to the shot before, which another fired.
#[test]
fn armour_struck_without_a_shot_is_struck_hand_to_hand() {
    let struck = |by| Event::ArmourStruck {
        by,
        unit: TANK,
        face: Face::Front,
        penetration: 60,
        armour: 50,
        rolled: 9,
        needed: 8,
    };
    let shot = Event::GunFired { unit: ENEMY_GUN, target: TANK, rolled: 9, needed: 8 };
    let values = fed(&[fired(MORTAR, ENEMY_SECTION), struck(ENEMY_SECTION), lost(TANK, 2)]);
    let of_all = [Metric::MenLostToAssault, Metric::MenLostToMortars, Metric::OwnFire];
    assert_eq!(of_all.map(|metric| of(&values, metric)), [2.0, 0.0, 0.0]);
    let values = fed(&[shot, struck(ENEMY_GUN), lost(TANK, 2)]);
    assert_eq!(of(&values, Metric::MenLostToGuns), 2.0);
    let values = fed(&[shot, struck(ENEMY_SECTION), lost(TANK, 2)]);
    assert_eq!(of(&values, Metric::MenLostToAssault), 2.0);
}

#[test]
fn what_a_house_rule_takes_belongs_to_no_weapon() {
    let taken = Event::MenChanged { unit: SECTION, by: -1 };
    let values = fed(&[fired(ENEMY_SECTION, SECTION), lost(SECTION, 2), taken, lost(SECTION, 1)]);
    assert_eq!((of(&values, Metric::MenLostToRifles), of(&values, Metric::MenLost)), (2.0, 3.0));
}

#[test]
fn men_of_the_side_that_fires_are_lost_to_own_fire() {
    let own = |events: &[Event]| of(&fed(events), Metric::OwnFire);
    assert_eq!(own(&[fired(MORTAR, SECTION), lost(SECTION, 2)]), 2.0);
    assert_eq!(own(&[fired(MORTAR, ENEMY_SECTION), lost(ENEMY_SECTION, 2)]), 0.0);
    assert_eq!(own(&[shelled(BATTERY, SECTION), lost(SECTION, 1), lost(LEADER, 2)]), 3.0);
    assert_eq!(own(&[shelled(BATTERY + 1, SECTION), lost(SECTION, 1)]), 0.0);
    assert_eq!(own(&[fought(SECTION, ENEMY_SECTION), lost(SECTION, 1)]), 0.0);
}

/// 2 to rifles, 1 to a machine gun, 3 to a mortar, 4 to a battery, 2 to a gun: 12 by fire; 3 hand
/// to hand and 1 by a mine: 16 in all.
#[test]
fn shares_are_of_men_hit_by_fire_or_of_all() {
    let values = fed(&[
        fired(SECTION, ENEMY_SECTION),
        lost(ENEMY_SECTION, 2),
        fired(ENEMY_TRIPOD, SECTION),
        lost(SECTION, 1),
        fired(MORTAR, ENEMY_SECTION),
        lost(ENEMY_SECTION, 3),
        shelled(BATTERY, ENEMY_SECTION),
        lost(ENEMY_SECTION, 4),
        fired(TANK, ENEMY_SECTION),
        lost(ENEMY_SECTION, 2),
        fought(SECTION, ENEMY_SECTION),
        lost(ENEMY_SECTION, 2),
        lost(SECTION, 1),
        Event::MineStruck { unit: SECTION },
        lost(SECTION, 1),
    ]);
    assert_eq!(of(&values, Metric::SmallArmsShare), 0.25);
    assert_eq!(of(&values, Metric::ShellShare), 0.583333);
    assert_eq!(of(&values, Metric::AssaultShare), 0.1875);
}

#[test]
fn contact_is_the_first_shot_shell_or_assault() {
    let gun = Event::GunFired { unit: ENEMY_GUN, target: TANK, rolled: 2, needed: 6 };
    let shell = shelled(BATTERY, SECTION);
    for event in [fired(SECTION, ENEMY_SECTION), gun, shell, fought(SECTION, ENEMY_SECTION)] {
        // Before the first turn: the turn is 0, and one more when there was no contact.
        assert_eq!(of(&fed(&[event]), Metric::FirstContact), 0.0, "{event:?}");
    }
    let mine = Event::MineStruck { unit: SECTION };
    assert_eq!(of(&fed(&[mine]), Metric::FirstContact), 1.0);
}

fn charged(reached: bool) -> Event {
    let to = ruleshift_game::Cell { x: 30, y: 24 };
    Event::Charged { unit: SECTION, target: ENEMY_SECTION, inches: 7, to, reached }
}

fn won(events: &[Event]) -> (f64, f64) {
    let values = fed(events);
    (of(&values, Metric::Assaults), of(&values, Metric::AssaultsWon))
}

#[test]
fn an_assault_is_won_when_the_enemy_is_gone_and_the_unit_stands() {
    let to = ruleshift_game::Cell { x: 40, y: 24 };
    let round = fought(SECTION, ENEMY_SECTION);
    let back = |unit| Event::FellBack { unit, to };
    let (taken, gone) = (
        Event::Captured { unit: ENEMY_SECTION, men: 4, by: SECTION },
        Event::UnitLost { unit: ENEMY_SECTION },
    );
    for end in [back(ENEMY_SECTION), taken, gone] {
        assert_eq!(won(&[charged(true), round, end]), (1.0, 1.0), "{end:?}");
    }
    assert_eq!(won(&[charged(false)]), (0.0, 0.0));
    assert_eq!(won(&[charged(true), round, back(SECTION), back(ENEMY_SECTION)]), (1.0, 0.0));
    let both = [charged(true), round, back(ENEMY_SECTION), charged(true), round, back(SECTION)];
    assert_eq!(won(&both), (2.0, 0.5));
}

/// The defender's ten hits leave nobody of the ten who assaulted, which is told after their own.
#[test]
fn nobody_wins_an_assault_that_leaves_nobody() {
    let round = Event::AssaultFought {
        unit: SECTION,
        target: ENEMY_SECTION,
        dice: 10,
        hits: 9,
        enemy_dice: 10,
        enemy_hits: 10,
    };
    let (enemy, own) = (Event::UnitLost { unit: ENEMY_SECTION }, Event::UnitLost { unit: SECTION });
    assert_eq!(won(&[charged(true), round, enemy, own]), (1.0, 0.0));
}
