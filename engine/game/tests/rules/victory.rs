//! Section 11: objectives, points, the end.

use ruleshift_game::{Choice, EndCause, Event, Heading, Hook, Kind, Place, Side, State, Unit};

use crate::support::{
    Ready, Record, Scene, idle, leader, shooter, skirmish, unit, watch, watch_scene, wish,
};

/// The side that alone has troops able to hold near an objective.
fn alone(ready: &Ready, state: &State, objective: usize) -> Option<Side> {
    let at = ready.arena.objectives()[objective].at;
    let near = |side| {
        state.on_table().any(|(_, unit)| {
            unit.side == side
                && unit.kind != Kind::Leader
                && i32::from(unit.at.range(at)) <= ready.rules.holding_distance()
                && !unit.suppressed(&ready.rules)
        })
    };
    match (near(Side::Attacker), near(Side::Defender)) {
        (true, false) => Some(Side::Attacker),
        (false, true) => Some(Side::Defender),
        _ => None,
    }
}

/// RULES 11.1: an objective is taken by a side that is there alone, and stays held.
#[test]
fn objectives_are_taken_and_stay_held() {
    let (mut taken, mut kept, mut field) = (0, 0, None);
    watch_scene(
        skirmish().rule(Hook::HoldingDistance, |_, _| 5),
        100,
        |ready, before, event, now| match *event {
            Event::FieldHeld { side, .. } => field = Some(side),
            Event::ObjectiveTaken { side, .. } if field.is_some() => assert_eq!(field, Some(side)),
            Event::ObjectiveTaken { objective, side } => {
                taken += 1;
                assert_eq!(alone(ready, now, objective.into()), Some(side));
                assert_ne!(before.holders()[objective as usize], Some(side));
            }
            Event::Scored { .. } => {
                for objective in 0..2 {
                    let holder = now.holders()[objective];
                    let there = alone(ready, now, objective);
                    assert!(there.is_none() || there == holder);
                    kept += u32::from(there.is_none() && holder.is_some());
                }
            }
            Event::GameEnded { .. } => field = None,
            _ => assert_eq!(before.holders(), now.holders(), "{event:?}"),
        },
    );
    assert!(taken > 50 && kept > 100, "{taken} taken, {kept} held from afar");
}

/// RULES 11.2-11.4, 11.7: points come from objectives held at turn end, from enemy groups gone, from
/// holding the field, and from objectives at the end; from nothing else.
#[test]
fn points_are_for_objectives_and_groups() {
    let mut points = [0i16; 2];
    let (mut groups, mut scored, mut games) = (0, 0, 0);
    watch(120, |ready, _, event, now| {
        let mut hold = |list: fn(&ruleshift_game::Objective, Side) -> u8| {
            for (n, objective) in ready.arena.objectives().iter().enumerate() {
                if let Some(side) = now.holders()[n] {
                    points[side as usize] += i16::from(list(objective, side));
                    scored += 1;
                }
            }
        };
        match *event {
            Event::MarkerPlaced { .. } => points = [0; 2],
            Event::GroupGone { group, points: awarded } => {
                assert_eq!(awarded, 1);
                points[now.groups()[group as usize].side.other() as usize] += 1;
                groups += 1;
            }
            Event::Scored { attacker, defender } => {
                hold(|objective, side| objective.each_turn[side]);
                assert_eq!(points, [attacker, defender]);
            }
            Event::FieldHeld { side, points: awarded } => {
                assert_eq!(awarded, 5);
                points[side as usize] += 5;
            }
            Event::GameEnded { margin, .. } => {
                hold(|objective, side| objective.at_end[side]);
                assert_eq!(points[0] - points[1], margin);
                games += 1;
            }
            _ => {}
        }
        assert_eq!(points, now.points().0, "{event:?}");
    });
    assert!(groups > 10 && scored > 500 && games == 120, "{groups}, {scored}, {games}");
}

/// RULES 11.4: a group is gone when its last unit is lost, has fled or is taken, once.
#[test]
fn groups_are_gone_once() {
    let (mut gone, mut all, mut taken) = (vec![], 0, 0);
    watch(100, |_, _, event, now| match *event {
        Event::TurnStarted { turn: 1, .. } => gone.clear(),
        Event::GroupGone { group, .. } => {
            let units = || now.units().iter().filter(|unit| unit.group == group);
            let out = |u: &Unit| matches!(u.place, Place::Lost | Place::Fled | Place::Captured);
            assert!(units().all(out));
            assert!(!gone.contains(&group));
            gone.push(group);
            all += 1;
            taken += u32::from(units().any(|unit| unit.place == Place::Captured));
        }
        _ => {}
    });
    assert!(all > 20 && taken > 0, "{all} groups, {taken} with prisoners");
}

fn end(record: &Record) -> (Option<Side>, i16, EndCause, u16) {
    let Some(Event::GameEnded { winner, margin, cause, .. }) = record.events().last() else {
        panic!("a game ends")
    };
    (winner, margin, cause, record.last().turn())
}

/// Two sides far apart that stand still.
fn stand_off() -> Scene {
    Scene::new()
        .no_objective()
        .group(Side::Attacker, (5, 5), &[leader(1), unit(Kind::Section, 8)])
        .group(Side::Defender, (65, 40), &[unit(Kind::Section, 8)])
}

/// RULES 11.3, 11.5, 11.6: after the last turn points decide; equal ones are a draw.
#[test]
fn the_last_turn_ends_the_game() {
    let play = |scene: Scene| end(&scene.play(1, &mut idle(), &mut idle()));
    let held = |by, at_end| stand_off().objective((36, 24), [2, 1], at_end, by);
    let limit = EndCause::TurnLimit;
    assert_eq!(play(held(None, [5, 5])), (None, 0, limit, 3));
    assert_eq!(play(held(Some(Side::Attacker), [5, 0])), (Some(Side::Attacker), 11, limit, 3));
    assert_eq!(play(held(Some(Side::Defender), [5, 0])), (Some(Side::Defender), -3, limit, 3));
    assert_eq!(
        play(held(None, [0, 0]).rule(Hook::TurnLimit, |now, _| now + 4)),
        (None, 0, limit, 7)
    );
}

/// RULES 4.1, 11.5: points at the start count.
#[test]
fn a_handicap_counts() {
    let mut scene = stand_off().objective((36, 24), [0, 0], [0, 0], None);
    scene.setup.sides[Side::Defender].points = 4;
    assert_eq!(
        end(&scene.play(1, &mut idle(), &mut idle())),
        (Some(Side::Defender), -4, EndCause::TurnLimit, 3)
    );
}

/// RULES 11.2: points follow their hooks.
#[test]
fn objective_points_follow_their_hooks() {
    let scene = stand_off()
        .objective((36, 24), [1, 1], [1, 1], Some(Side::Attacker))
        .rule(Hook::ObjectivePoints, |now, _| (now * 10).min(40))
        .rule(Hook::FinalPoints, |now, _| now + 4);
    let (winner, margin, ..) = end(&scene.play(1, &mut idle(), &mut idle()));
    assert_eq!((winner, margin), (Some(Side::Attacker), 35));
}

/// RULES 11.5, 11.6, 11.7: a side with nobody left ends the game; the other takes every objective
/// and the points for the field, and wins though it is behind.
#[test]
fn a_side_with_nobody_left_ends_the_game() {
    let scene = Scene::new()
        .no_objective()
        .objective((55, 24), [4, 4], [4, 4], Some(Side::Defender))
        .group(Side::Attacker, (20, 24), &[unit(Kind::TripodGun, 8)])
        .group(Side::Defender, (30, 24), &[unit(Kind::Section, 3)])
        .all_cards()
        .turns(9)
        .rule(Hook::BreakPoint, |_, _| 101)
        .rule(Hook::HitNumber, |_, _| 2);
    let mut runner = wish(|_, choice| match choice {
        Choice::OpenFire => Some(1),
        Choice::Move(Heading::Straight(0)) => Some(-2),
        _ => None,
    });
    let (winner, margin, cause, turns) = end(&scene.play(1, &mut shooter(), &mut runner));
    assert_eq!((winner, cause), (Some(Side::Attacker), EndCause::NobodyLeft));
    // A point for the group, 5 for the field, 4 at the end; 4 to the defender for each turn.
    let expected = 1 + 5 + 4 - 4 * turns as i16;
    assert!(turns < 9 && margin == expected, "{margin} in turn {turns}");
}

/// RULES 11.6: troops under a marker are still there.
#[test]
fn hidden_troops_keep_the_game_going() {
    let mut turns = 0;
    watch(40, |_, _, event, now| {
        if let Event::TurnStarted { .. } = event {
            for &side in Side::ALL {
                let here = now.units().iter().any(|unit| {
                    unit.side == side && matches!(unit.place, Place::Table | Place::Hidden)
                });
                assert!(here, "the game should have ended");
            }
            turns += 1;
        }
    });
    assert!(turns > 200, "{turns}");
}
