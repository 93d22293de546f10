//! Paragraphs 9.1 to 9.7: pins, suppression, breaking, recovery, rallying.

use ruleshift_game::limits::MAX_PINS;
use ruleshift_game::{BreakCause, Effect, Event, Hook, Kind, Place, State};

use crate::support::{Ready, skirmish, watch, watch_scene};

/// RULES 9.1: pins add up to at most 30, and stay until something takes them off.
#[test]
fn pins_stay_until_they_come_off() {
    let scene = skirmish()
        .rule(Hook::BreakThreshold, |_, _| 60)
        .rule(Hook::HitNumber, |_, _| 2)
        .rule(Hook::HitEffect, |_, _| Effect::Pin as i32);
    let (mut pins, mut most) = ([0u8; 96], 0);
    watch_scene(scene, 20, |_, _, event, now| {
        match *event {
            Event::TurnStarted { turn: 1, .. } => pins = [0; 96],
            Event::PinsAdded { unit, pins: added, now: total } => {
                let mine = &mut pins[unit as usize];
                *mine = (*mine + added).min(MAX_PINS);
                assert_eq!(*mine, total);
                most = total.max(most);
            }
            Event::Rallied { unit, pins: off, .. } | Event::Recovered { unit, pins: off } => {
                pins[unit as usize] -= off;
            }
            _ => {}
        }
        for (unit, &pins) in now.units().iter().zip(&pins) {
            assert!(unit.pins == pins || unit.place != Place::Table);
        }
    });
    assert_eq!(most, MAX_PINS);
}

/// RULES 9.2, 9.3: a unit is told to be suppressed when it becomes so, and breaks at its number.
#[test]
fn pins_suppress_and_break() {
    let suppressed = |ready: &Ready, state: &State, unit: u8| {
        let unit = &state.units()[unit as usize];
        let at = ready.rules.suppression_threshold(unit.men.max(1), unit.quality);
        unit.pins > 0 && i32::from(unit.pins) >= at
    };
    let (mut was, mut told, mut broken) = ([false; 96], 0, 0);
    let (mut due, mut close) = (None, false);
    watch(150, |ready, _, event, now| {
        if let Some((unit, breaks, becomes)) = due.take() {
            let broke = Event::UnitBroke {
                unit,
                men: now.units()[unit as usize].men,
                cause: BreakCause::Pins,
            };
            assert_eq!(*event == broke, breaks, "{event:?}");
            assert_eq!(*event == Event::Suppressed { unit }, becomes && !breaks, "{event:?}");
            told += u32::from(becomes && !breaks);
            broken += u32::from(breaks);
        }
        if let Event::PinsAdded { unit, now: pins, .. } = *event {
            let struck = &now.units()[unit as usize];
            let breaks = i32::from(pins) >= ready.rules.break_threshold(struck.men, struck.quality);
            due = Some((unit, breaks, suppressed(ready, now, unit) && !was[unit as usize]));
        }
        // Losses come before the pins of the same shot and do not count by themselves; those of a
        // close assault do.
        match event {
            Event::AssaultFought { .. } => close = true,
            Event::Fired { .. } | Event::UnitActivated { .. } | Event::CardDrawn { .. } => {
                close = false;
            }
            _ => {}
        }
        let loss = matches!(
            event,
            Event::MenLost { .. } | Event::LeaderTested { .. } | Event::UnitLost { .. }
        );
        if close || !loss {
            for unit in 0..now.units().len() as u8 {
                was[unit as usize] = suppressed(ready, now, unit);
            }
        }
    });
    assert!(told > 200 && broken > 20, "{told} suppressed, {broken} broken");
}

/// RULES 9.4: a unit that broke leaves at once and its men count as fled.
#[test]
fn broken_units_are_gone_for_good() {
    let mut broken = 0;
    watch(100, |_, before, event, now| {
        let Event::UnitBroke { unit, men, .. } = *event else { return };
        assert_eq!(before.units()[unit as usize].place, Place::Table);
        assert_eq!(now.units()[unit as usize].place, Place::Fled);
        let side = now.units()[unit as usize].side;
        assert_eq!(now.losses(side).0, before.losses(side).0 + u32::from(men));
        broken += 1;
    });
    assert!(broken > 50, "{broken}");
}

/// A leader of its side within his distance who is not suppressed.
fn led(ready: &Ready, state: &State, id: u8) -> bool {
    let unit = &state.units()[id as usize];
    state.on_table().any(|(_, leader)| {
        leader.kind == Kind::Leader
            && leader.side == unit.side
            && i32::from(leader.at.range(unit.at)) <= ready.rules.leader_radius(leader.grade)
            && !leader.suppressed(&ready.rules)
    })
}

/// RULES 9.5, 9.6, 10.3: every unit on the table recovers as its quality, cover and leader allow;
/// under fire only with a leader near.
#[test]
fn units_recover_at_turn_end() {
    // What each unit should lose, worked out when late fire is over.
    let mut due: Option<Vec<(u8, i32)>> = None;
    let (mut last, mut checked, mut under_fire): (Option<State>, _, _) = (None, 0, 0);
    watch(100, |ready, before, event, _| {
        let ends = matches!(event, Event::Scored { .. });
        let recovers = matches!(event, Event::Recovered { .. });
        if (recovers || ends) && due.is_none() {
            let state = last.as_ref().unwrap_or(before);
            let amount = |id: u8| {
                let (unit, led) = (&state.units()[id as usize], led(ready, state, id));
                if unit.under_fire {
                    under_fire += 1;
                }
                let may = !unit.under_fire || ready.rules.recovery_under_fire(unit.quality, led);
                let cover = ready.arena.cover(unit.at);
                let off = ready.rules.pins_recovered(unit.pins, unit.quality, cover, led);
                i32::from(may) * off.min(unit.pins.into())
            };
            let pinned = state.on_table().filter(|(_, unit)| unit.pins > 0).map(|(id, _)| id);
            let list = pinned.map(|id| (id, id)).collect::<Vec<_>>();
            let mut amount = amount;
            let list = list.into_iter().map(|(id, _)| (id, amount(id)));
            due = Some(list.filter(|&(_, off)| off > 0).rev().collect());
        }
        match *event {
            Event::Recovered { unit, pins } => {
                assert_eq!(due.as_mut().unwrap().pop(), Some((unit, pins.into())));
                checked += 1;
            }
            Event::Scored { .. } => {
                // Tests that break units come after recovery: nobody may be left out.
                assert_eq!(due.take(), Some(vec![]));
            }
            Event::GroupTested { .. } | Event::SideTested { .. } if due.is_none() => {
                due = Some(vec![]);
            }
            _ => {}
        }
        last = None;
    });
    assert!(checked > 500 && under_fire > 100, "{checked}, {under_fire} under fire");
}

/// RULES 9.7: a rally takes off what its hook says, and no more than there is.
#[test]
fn rallies_take_pins_off() {
    let mut seen = [0; 2];
    watch(120, |ready, before, event, now| {
        let Event::Rallied { unit, leader, pins } = *event else { return };
        let grade = leader.map_or(0, |leader| i32::from(before.units()[leader as usize].grade));
        let rallied = &before.units()[unit as usize];
        let amount = ready.rules.rally_amount(grade, rallied.quality);
        assert_eq!(i32::from(pins), amount.min(rallied.pins.into()));
        assert_eq!(now.units()[unit as usize].pins, rallied.pins - pins);
        seen[usize::from(leader.is_some())] += 1;
    });
    assert!(seen.iter().all(|&n| n > 50), "{seen:?}");
}
