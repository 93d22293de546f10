//! Sections 7 and 8: fire and late fire.

use ruleshift_game::{Choice, Effect, Event, Hook, Kind, Place, Side};

use crate::support::{Scene, ask, fixed, opener, shooter, skirmish, unit, watch, watch_scene};

/// RULES 7.1, 10.4: targets are seen, in range and no sheltered leaders; all such are offered.
#[test]
fn targets_are_seen_and_in_range() {
    let (mut targets, mut sheltered) = (0, 0);
    ask(80, |view, choices| {
        let doing = view.doing();
        let Some(id) = doing.unit.filter(|_| doing.placing == 0 && doing.moving.is_none()) else {
            return;
        };
        let firing = view.unit(id).unwrap();
        let rules = view.rules();
        for (target, enemy) in view.enemy_units() {
            let seen = view.sight().sees(firing.at, enemy.at);
            let band = rules.range_band(firing.kind, firing.at.range(enemy.at));
            let company = |unit: &ruleshift_game::Unit| {
                unit.kind != Kind::Leader && unit.at.range(enemy.at) <= fixed::SHELTER
            };
            let hidden =
                enemy.kind == Kind::Leader && view.enemy_units().any(|(_, unit)| company(unit));
            let able = firing.shots > 0
                && !firing.suppressed(rules)
                && rules.fire_dice(firing.kind, firing.men, firing.pins) > 0;
            let offered = choices.contains(&Choice::Fire(target));
            assert_eq!(offered, able && seen && band < 3 && !hidden);
            targets += u32::from(offered);
            sheltered += u32::from(hidden && able && seen && band < 3);
        }
    });
    assert!(targets > 1_000 && sheltered > 50, "{targets} targets, {sheltered} sheltered leaders");
}

/// RULES 7.2-7.4, 7.6, 8.2: dice and number by kind, men, pins, range and movement. A blast has the
/// dice of the shot it belongs to; that of a tripod machine gun half of them, parts left off.
#[test]
fn dice_and_numbers_are_what_the_text_says() {
    let (mut shots, mut blasts, mut zones, mut moving, mut dice_then) = (0, 0, 0, 0, 0);
    // Since its last activation, or the start of the turn.
    let mut moved = [false; 96];
    watch(120, |ready, before, event, _| {
        match *event {
            Event::TurnStarted { .. } => moved = [false; 96],
            Event::UnitActivated { unit, .. } => moved[unit as usize] = false,
            Event::UnitMoved { unit, .. } | Event::Charged { unit, .. } => {
                moved[unit as usize] = true;
            }
            _ => {}
        }
        let Event::Fired { unit, target, dice, needed, hits, blast, .. } = *event else { return };
        let (firing, struck) = (&before.units()[unit as usize], &before.units()[target as usize]);
        let band = ready.rules.range_band(firing.kind, firing.at.range(struck.at));
        let band = if blast && band == 3 { 0 } else { band };
        let number = ready.rules.hit_number(firing.kind, band, moved[unit as usize]);
        assert_eq!(i32::from(needed), number);
        if blast {
            let tripod = firing.kind == Kind::TripodGun;
            assert_eq!(dice, if tripod { dice_then / 2 } else { dice_then });
            zones += u32::from(tripod);
            // Nearer than a mortar's least range counts as near.
            let nearest = firing.kind == Kind::LightMortar && firing.at.range(struck.at) < 3;
            assert!(!nearest || needed == 5 + 2 * u8::from(moved[unit as usize]));
        } else {
            let expected = ready.rules.fire_dice(firing.kind, firing.men, firing.pins);
            assert_eq!(i32::from(dice), expected);
            dice_then = dice;
        }
        assert!(hits <= dice && (needed < 7 || hits == 0));
        shots += u32::from(!blast);
        blasts += u32::from(blast);
        moving += u32::from(moved[unit as usize]);
    });
    let seen = [shots, blasts, zones, moving];
    assert!(shots > 2_000 && seen.iter().all(|&n| n > 20), "{seen:?}");
}

/// Both sides' only units open fire at each other over open ground, or from the ground given.
fn duel(kind: Kind, range: u8) -> Scene {
    Scene::new()
        .group(Side::Attacker, (20, 24), &[unit(kind, 8)])
        .group(Side::Defender, (20 + range, 24), &[unit(Kind::Section, 8)])
        .all_cards()
}

/// RULES 7.5: each hit does what its die says: pins are the pins and losses, men the losses.
#[test]
fn hits_pin_and_kill_by_their_effect() {
    for (effect, pins, men) in [(Effect::Nothing, 0, 0), (Effect::Pin, 1, 0), (Effect::Loss, 1, 1)]
    {
        let scene = skirmish()
            .rule(Hook::HitEffect, |_, _| effect as i32)
            .rule(Hook::BreakThreshold, |_, _| 60);
        let (mut hits, mut all) = (None, 0);
        watch_scene(scene, 40, |_, before, event, now| match *event {
            Event::Fired { target, hits: scored, .. } => {
                hits = Some((target, scored, now.units()[target as usize]));
            }
            _ if hits.is_some() => {
                let (target, scored, then) = hits.take().unwrap();
                all += u32::from(scored);
                let lost = (scored * men).min(then.men);
                match *event {
                    Event::MenLost { unit, men, left } => {
                        assert_eq!((unit, men, left), (target, lost, then.men - lost));
                    }
                    Event::PinsAdded { unit, pins: added, .. } => {
                        assert_eq!((unit, added, lost), (target, scored * pins, 0));
                    }
                    _ => assert_eq!((lost, scored * pins), (0, 0), "{event:?}"),
                }
                assert!(before.turn() == now.turn());
            }
            _ => {}
        });
        assert!(all > 200, "{all}");
    }
}

/// RULES 7.5: cover of the unit hit decides. Mean men lost to the same dice, same luck.
#[test]
fn cover_saves_lives() {
    let losses = |ground| {
        let scene = skirmish().ground(ground, 0..72, 0..48);
        let mut lost = 0;
        watch_scene(scene, 20, |ready, _, event, now| {
            if let Event::MenLost { unit, .. } = *event {
                let at = now.units()[unit as usize].at;
                assert_eq!(ready.arena.ground(at), ground);
                lost += 1;
            }
        });
        lost
    };
    use ruleshift_game::Ground::{Open, Scrub, Wall};
    let [open, light, hard] = [Open, Scrub, Wall].map(losses);
    assert!(open > light && light > hard && hard > 0, "{open}, {light}, {hard}");
}

/// RULES 7.5: a unit without men is lost and gone.
#[test]
fn a_unit_without_men_is_lost() {
    let scene = duel(Kind::TripodGun, 12)
        .rule(Hook::HitNumber, |_, _| 2)
        .rule(Hook::HitEffect, |_, _| Effect::Loss as i32)
        .rule(Hook::BreakThreshold, |_, _| 60)
        .turns(6);
    let record = scene.play(2, &mut shooter(), &mut opener());
    assert_eq!(record.count(|event| matches!(event, Event::UnitLost { unit: 1 })), 1);
    let lost = &record.last().units()[1];
    assert_eq!((lost.men, lost.place), (0, Place::Lost));
}

/// RULES 7.6: a blast is for everyone within its radius and nobody else, friends too, and the
/// firing unit itself. (Its own loss in mid-shot once stopped the game.)
#[test]
fn blasts_strike_friend_and_foe() {
    let scene = skirmish().rule(Hook::BlastRadius, |_, _| 6).rule(Hook::HitNumber, |_, _| 2);
    let (mut due, mut friends, mut itself): (Vec<u8>, _, _) = (vec![], 0, 0);
    watch_scene(scene, 60, |_, before, event, now| match *event {
        Event::Fired { target, blast: false, .. } => {
            assert!(due.iter().all(|&u| now.units()[u as usize].place != Place::Table));
            let centre = now.units()[target as usize].at;
            let near = |&(id, unit): &(u8, &ruleshift_game::Unit)| {
                id != target && unit.at.range(centre) <= 6
            };
            due = now.on_table().filter(near).map(|(id, _)| id).collect();
            due.reverse();
        }
        Event::Fired { unit, target, blast: true, .. } => {
            let next = loop {
                let next = due.pop().expect("it is within the blast");
                // Leaders hit by then are out of it.
                if before.units()[next as usize].place == Place::Table {
                    break next;
                }
            };
            assert_eq!(next, target);
            let side = |id: u8| before.units()[id as usize].side;
            friends += u32::from(side(unit) == side(target));
            itself += u32::from(unit == target);
        }
        Event::CardDrawn { .. } => {
            assert!(due.iter().all(|&u| now.units()[u as usize].place != Place::Table));
            due.clear();
        }
        _ => {}
    });
    assert!(friends > 50 && itself > 5, "{friends} friends, {itself} times itself");
}

/// RULES 8.1: late fire is for units with no activation, no order, no marker's action this turn,
/// not suppressed, no leaders.
#[test]
fn late_fire_is_for_those_who_could_not_act() {
    let (mut acted, mut late) = ([false; 96], 0);
    watch(150, |ready, before, event, _| match *event {
        Event::TurnStarted { .. } => acted = [false; 96],
        Event::UnitActivated { unit, .. } | Event::OrderGiven { unit, .. } => {
            acted[unit as usize] = true;
        }
        Event::Fired { unit, late: true, blast, .. } => {
            let firing = &before.units()[unit as usize];
            late += u32::from(!blast);
            assert!(!acted[unit as usize] && firing.kind != Kind::Leader);
            assert!(blast || !firing.suppressed(&ready.rules));
            assert_eq!(before.groups()[firing.group as usize].used, 0);
        }
        _ => {}
    });
    assert!(late > 200, "{late}");
}

/// RULES 8.1: a rule may forbid it.
#[test]
fn late_fire_may_be_forbidden() {
    let scene = skirmish().rule(Hook::LateFireAllowed, |_, _| 0);
    let (mut fired, mut late) = (0, 0);
    watch_scene(scene, 30, |_, _, event, _| match *event {
        Event::Fired { late: true, .. } => late += 1,
        Event::Fired { .. } => fired += 1,
        _ => {}
    });
    assert!(late == 0 && fired > 200, "{late}, {fired}");
}

/// RULES 8.2: late fire has the dice of its rule.
#[test]
fn late_fire_dice_follow_their_hook() {
    let scene = skirmish().rule(Hook::LateFireDice, |now, _| (now + 1) / 2);
    let mut late = 0;
    watch_scene(scene, 60, |ready, before, event, _| {
        let Event::Fired { unit, dice, late: true, blast: false, .. } = *event else { return };
        let firing = &before.units()[unit as usize];
        let full = ready.rules.fire_dice(firing.kind, firing.men, firing.pins);
        assert_eq!(i32::from(dice), (full + 1) / 2);
        late += 1;
    });
    assert!(late > 50, "{late}");
}

/// RULES 8.3: one side fires late before the other, which of them is even: of about 600 turns at
/// most 3 standard errors from half, each side's units in the order of the list.
#[test]
fn a_die_says_who_fires_late_first() {
    let (mut turns, mut attacker, mut first, mut last) = (0u32, 0u32, Side::Attacker, None);
    watch(100, |_, before, event, _| match *event {
        Event::LateFireBegan { first: side } => {
            (turns, first, last) = (turns + 1, side, None);
            attacker += u32::from(side == Side::Attacker);
        }
        Event::Fired { unit, late: true, blast: false, .. } => {
            let place = (before.units()[unit as usize].side != first, unit);
            assert!(last < Some(place), "{place:?} after {last:?}");
            last = Some(place);
        }
        _ => {}
    });
    let off = (f64::from(attacker) - f64::from(turns) / 2.0).abs();
    assert!(turns > 500 && off < 1.5 * f64::from(turns).sqrt(), "{attacker} of {turns}");
}
