//! Section 17: rules that are not in force, switched on by their hooks.

use ruleshift_game::{Card, Choice, Event, Hook, Kind, Place, Side, State};

use crate::support::{Scene, battle, drill, leader, unit, watch_scene};

/// RULES 17: without their hooks the rules of this section do nothing.
#[test]
fn off_they_do_nothing() {
    let mut turns = 0;
    watch_scene(battle(), 60, |_, _, event, now| {
        let short = matches!(
            event,
            Event::CardDrawn { card: Card::Shortage(..) } | Event::AmmunitionShort { .. }
        );
        let held = matches!(event, Event::FireHeld { .. } | Event::Fired { held: true, .. });
        assert!(!short && !held, "{event:?}");
        assert!(now.units().iter().all(|unit| !unit.holds_fire));
        turns += u32::from(matches!(event, Event::TurnStarted { .. }));
    });
    assert!(turns > 200, "{turns}");
}

/// Fire that was held until now, with its dice, in the battle with this share of them.
fn held_fire(dice: fn(i32) -> i32) -> (u32, u32) {
    let scene = battle()
        .rule(Hook::MayHoldFire, |_, _| 1)
        .rule(Hook::HeldFireDice, move |now, _| dice(now));
    let (mut holds, mut fires, mut last_move) = (0, 0, None);
    watch_scene(scene, 150, |ready, before, event, now| match *event {
        Event::FireHeld { unit } => {
            let unit = &now.units()[unit as usize];
            assert!(unit.holds_fire && unit.actions == 0, "it ends the activation");
            holds += 1;
        }
        Event::UnitMoved { unit, .. } => last_move = Some(unit),
        Event::Fired { unit, target, dice: rolled, held: true, blast, .. } if !blast => {
            let (firing, struck) =
                (&before.units()[unit as usize], &before.units()[target as usize]);
            assert_eq!(Some(target), last_move, "he has just moved");
            assert!(firing.side != struck.side && !now.units()[unit as usize].holds_fire);
            let full = ready.rules.fire_dice(firing.kind, firing.men, firing.pins);
            assert_eq!(i32::from(rolled), dice(full));
            fires += 1;
        }
        Event::TurnStarted { .. } => {
            assert!(now.units().iter().all(|unit| !unit.holds_fire), "until the turn end");
        }
        Event::UnitActivated { unit, .. } => {
            assert!(!now.units()[unit as usize].holds_fire, "until its next activation");
        }
        _ => {}
    });
    (holds, fires)
}

/// RULES 17.1: held fire is for enemies who have just moved, once, with the dice of its hook.
#[test]
fn held_fire_waits_for_a_move() {
    let (holds, fires) = held_fire(|now| now);
    assert!(holds > 200 && fires > 50, "{holds} held, {fires} fired");
    let (holds, fires) = held_fire(|now| (now + 1) / 2);
    assert!(holds > 200 && fires > 50, "{holds} held, {fires} fired, at half");
}

/// RULES 17.2: a unit too far from all the leaders of its group on the table has the actions of
/// the hook; one near any of them, or of a group without, has its own.
#[test]
fn units_out_of_command_have_other_actions() {
    let scene = battle().rule(Hook::ActionsOutOfCommand, |now, _| (now - 1).max(0));
    let (mut far, mut near, mut alone) = (0, 0, 0);
    watch_scene(scene, 120, |ready, _, event, now| {
        let Event::UnitActivated { unit: id, actions } = *event else { return };
        let unit = &now.units()[id as usize];
        let own = |u: &&ruleshift_game::Unit| {
            u.group == unit.group && u.kind == Kind::Leader && u.place == Place::Table
        };
        let leaders: Vec<_> = now.units().iter().filter(own).collect();
        let led = leaders.iter().any(|l| l.at.range(unit.at) <= 4 + l.grade);
        let out = !leaders.is_empty() && !led;
        let mut expected =
            ready.rules.unit_actions(unit.kind, unit.quality, unit.strength(), unit.pins);
        expected -= i32::from(out);
        let group = &now.groups()[unit.group as usize];
        if group.placed_in == now.turn() {
            expected -= ready.rules.actions_carried(group.used);
        }
        assert_eq!(i32::from(actions), expected.max(0));
        far += u32::from(out);
        near += u32::from(led);
        alone += u32::from(leaders.is_empty());
    });
    let seen = [far, near, alone];
    assert!(seen.iter().all(|&n| n > 100), "far, near, alone: {seen:?}");
}

/// RULES 17.3: from the card to the end of the next turn a side's units fire with half their dice,
/// a started half counted whole; the other side's do not.
#[test]
fn a_shortage_halves_the_dice() {
    let scene = battle().rule(Hook::ShortageCards, |_, args| i32::from(args[0] == 1));
    let (mut until, mut short, mut full) = (0, 0, 0);
    watch_scene(scene, 150, |ready, before, event, now| match *event {
        Event::TurnStarted { turn: 1, .. } => until = 0,
        Event::CardDrawn { card: Card::Shortage(side, _) } => assert_eq!(side, Side::Defender),
        Event::AmmunitionShort { side } => {
            assert_eq!(side, Side::Defender);
            until = now.turn() + 1;
        }
        Event::Fired { unit, dice, blast: false, .. } => {
            let firing = &before.units()[unit as usize];
            let all = ready.rules.fire_dice(firing.kind, firing.men, firing.pins);
            let out = firing.side == Side::Defender && now.turn() <= until;
            assert_eq!(i32::from(dice), if out { (all + 1) / 2 } else { all });
            short += u32::from(out);
            full += u32::from(!out);
        }
        _ => {}
    });
    assert!(short > 300 && full > 300, "{short} short, {full} full");
}

/// RULES 17.4: beyond the limit of the turn nothing is seen, fired at or spotted.
#[test]
fn dusk_hides_what_is_far() {
    let scene = Scene::new()
        .stand(Side::Attacker, (20, 24), unit(Kind::Section, 8))
        .stand(Side::Defender, (40, 24), unit(Kind::Section, 8))
        .group(Side::Defender, (70, 45), &[leader(1)])
        .all_cards()
        .turns(4)
        .rule(Hook::SightLimit, |_, args| if args[0] == 3 { 19 } else { 20 });
    let ready = scene.ready();
    let mut shots = vec![];
    let check = |_: &State, event: &Event, now: &State| {
        if matches!(event, Event::Fired { unit: 0, blast: false, .. }) {
            shots.push(now.turn());
        }
        if let Event::TurnStarted { turn, .. } = *event {
            let at = |x| ruleshift_game::Cell { x, y: 24 };
            assert_eq!(now.sees(&ready.arena, at(20), at(40)), turn != 3);
            assert!(
                now.sees(&ready.arena, at(20), at(39)) && !now.sees(&ready.arena, at(20), at(41))
            );
        }
    };
    let fires = |choice| matches!(choice, Choice::Fire(_)).then_some(10);
    let mut shooter = drill(&[(20, 24)], move |_, choice| fires(choice));
    let mut target = drill(&[(40, 24)], |_, _| None);
    let mut watch = crate::support::Watch { before: None, check };
    ready.play(2, &mut shooter, &mut target, &mut watch);
    assert!(shots.contains(&2) && !shots.contains(&3) && shots.contains(&4), "{shots:?}");
}
