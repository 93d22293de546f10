//! Paragraphs 9.8 to 9.11: tests of groups and sides.

use ruleshift_game::{BreakCause, Event, Hook, Kind, Place, Side, State, Unit};

use crate::support::{Ready, Scene, battle, skirmish, watch_scene};

/// Percent of a group's men gone, a started percent counting.
fn lost(state: &State, group: u8) -> i32 {
    let units = || state.units().iter().filter(|unit| unit.group == group);
    let first: i32 = units().map(|unit| i32::from(unit.first_men)).sum();
    let out = |unit: &Unit| matches!(unit.place, Place::Lost | Place::Fled | Place::Captured);
    let left: i32 = units().filter(|unit| !out(unit)).map(|unit| i32::from(unit.men)).sum();
    (100 * (first - left) + first - 1) / first
}

/// Checks the number of one group test.
fn check_number(ready: &Ready, state: &State, group: u8, needed: u8) {
    let there = || state.on_table().filter(|(_, unit)| unit.group == group);
    let led = there().any(|(_, unit)| unit.kind == Kind::Leader);
    let best = there().map(|(_, unit)| unit.quality).max().expect("somebody is there");
    let number = ready.rules.group_test_number(lost(state, group), best, led);
    assert_eq!(i32::from(needed), number);
}

/// RULES 9.8, 9.9: groups that lost men this turn and are battered are tested, once; the most
/// pinned unit of one that fails breaks.
#[test]
fn battered_groups_are_tested() {
    tested_groups(skirmish(), 200);
    tested_groups(battle(), 60);
}

fn tested_groups(scene: Scene, games: u64) {
    let (mut lost_men, mut tested, mut failed, mut due) = ([false; 24], 0, 0, None);
    let mut asked = [false; 24];
    watch_scene(scene, games, |ready, before, event, now| {
        if let Some(group) = due.take() {
            let there = || before.on_table().filter(|(_, unit)| unit.group == group);
            let most = there().map(|(_, unit)| unit.pins).max();
            let weakest = there().find(|(_, unit)| Some(unit.pins) == most).map(|(id, _)| id);
            let Event::UnitBroke { unit, cause: BreakCause::GroupTest, .. } = *event else {
                panic!("{event:?} after a failed test")
            };
            assert_eq!(Some(unit), weakest);
            failed += 1;
            return;
        }
        match *event {
            Event::TurnStarted { .. } => (lost_men, asked) = ([false; 24], [false; 24]),
            Event::MenLost { unit, .. }
            | Event::UnitBroke { unit, .. }
            | Event::Captured { unit, .. } => {
                lost_men[now.units()[unit as usize].group as usize] = true;
            }
            Event::GroupTested { group, rolled, needed } => {
                assert!(lost_men[group as usize] && !asked[group as usize]);
                assert!(ready.rules.group_battered(lost(before, group)));
                check_number(ready, before, group, needed);
                asked[group as usize] = true;
                tested += 1;
                due = (rolled < needed).then_some(group);
            }
            Event::Scored { .. } => {
                for id in 0..now.groups().len() as u8 {
                    let there = now.on_table().any(|(_, unit)| unit.group == id);
                    // A group whose last unit broke by the test counts as tested.
                    let battered = ready.rules.group_battered(lost(now, id)) && there;
                    assert!(!(battered && lost_men[id as usize]) || asked[id as usize]);
                }
            }
            _ => {}
        }
    });
    assert!(tested > 50 && failed > 10, "{tested} tests, {failed} failed");
}

/// RULES 9.10, 9.11, 11.6: a side past its break point is tested each turn; one that fails has
/// broken and the game ends, the other winning.
#[test]
fn sides_past_their_break_point_are_tested() {
    let (mut tested, mut asked, mut broken, mut ended) = (0, [false; 2], [false; 2], 0);
    let scene = skirmish().break_point(Side::Attacker, 25).break_point(Side::Defender, 25);
    watch_scene(scene, 150, |ready, before, event, now| match *event {
        Event::TurnStarted { .. } => (asked, broken) = ([false; 2], [false; 2]),
        Event::SideTested { side, rolled, needed } => {
            let (lost, first) = before.losses(side);
            let over = (100 * lost / first) as i32 - 25;
            assert!(over >= 0 && !asked[side as usize]);
            assert_eq!(i32::from(needed), ready.rules.side_test_number(over));
            asked[side as usize] = true;
            broken[side as usize] = rolled < needed;
            tested += 1;
        }
        Event::Scored { .. } => {
            for &side in Side::ALL {
                let (lost, first) = now.losses(side);
                assert_eq!(asked[side as usize], 100 * lost >= 25 * first, "{side}");
            }
        }
        Event::GameEnded { winner, cause, margin, .. } => {
            let broke = cause == ruleshift_game::EndCause::SideBroke;
            assert_eq!(broke, broken.contains(&true));
            match broken {
                [true, false] => assert_eq!(winner, Some(Side::Defender)),
                [false, true] => assert_eq!(winner, Some(Side::Attacker)),
                _ => assert_eq!(winner.is_none(), margin == 0),
            }
            ended += u32::from(broke);
        }
        _ => {}
    });
    assert!(tested > 50 && ended > 20, "{tested} tests, {ended} games ended by one");
}

/// RULES 9.10: with 101 as the break point nobody is tested.
#[test]
fn a_side_need_not_break() {
    let scene = skirmish().rule(Hook::BreakPoint, |_, _| 101).turns(15);
    let (mut tests, mut losses) = (0, 0);
    watch_scene(scene, 30, |_, _, event, now| match event {
        Event::SideTested { .. } => tests += 1,
        Event::GameEnded { .. } => losses += now.losses(Side::Attacker).0,
        _ => {}
    });
    assert!(tests == 0 && losses > 100, "{tests}, {losses}");
}
