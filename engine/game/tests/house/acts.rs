//! What house rules do to units, points, reserves, sight and counters, and what they are refused
//! (RULES 18.5).

use ruleshift_game::{Cell, Event, Happening, Illegal, Side};

use super::{house, record_under};
use crate::support::{Lively, battle};

/// Everything a rule does to the game shows at once, and the game goes on from there.
#[test]
fn acts_change_the_game_and_say_so() {
    let ready = battle().ready();
    let mut seen = [0; 6];
    for seed in 0..20 {
        let mut rule = house(&["on_unit_activated", "on_turn_end"], |happening, handle| {
            match happening {
                Happening::UnitActivated { unit } => {
                    let unit = i64::from(unit);
                    if !handle.on_table(unit)? {
                        return Ok(());
                    }
                    let (men, first) = (handle.unit(unit)?.men, handle.unit(unit)?.first_men);
                    handle.return_men(unit, 1)?;
                    assert_eq!(handle.unit(unit)?.men, (men + 1).min(first));
                    if handle.turn() % 2 == 0 {
                        handle.grant_action(unit)?;
                    } else {
                        handle.take_action(unit)?;
                    }
                }
                _ => {
                    let count = handle.counter(1)?;
                    handle.set_counter(1, count + 2)?;
                    handle.add_points(1, -1)?;
                    handle.limit_sight(40)?;
                }
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let mut before = record.0[0].1;
        let mut turns = 0;
        for (event, state) in &record.0 {
            match *event {
                Event::ActionsChanged { unit, by } => {
                    let actions = |s: &ruleshift_game::State| s.units()[unit as usize].actions;
                    let wanted = (i16::from(actions(&before)) + by).max(0);
                    assert_eq!(i16::from(actions(state)), wanted);
                    seen[usize::from(by > 0)] += 1;
                }
                Event::MenChanged { unit, by } => {
                    let men = |s: &ruleshift_game::State| s.units()[unit as usize].men;
                    assert_eq!(i16::from(men(state)), i16::from(men(&before)) + by);
                    seen[2] += by;
                }
                Event::PointsChanged { side, by } => {
                    assert_eq!(state.points()[side], before.points()[side] + by);
                    seen[3] += 1;
                }
                Event::CounterSet { counter, value } => {
                    turns += 1;
                    assert_eq!((counter, value), (1, 2 * turns), "it lasts from turn to turn");
                    seen[4] += 1;
                }
                Event::SightLimited { inches } => {
                    assert_eq!(inches, 40);
                    let (here, there) = (Cell { x: 3, y: 3 }, Cell { x: 70, y: 3 });
                    assert!(!state.clear_everywhere() && !state.clear(here, there));
                    seen[5] += 1;
                }
                _ => {}
            }
            before = *state;
        }
    }
    assert!(seen.iter().all(|&n| n > 20), "{seen:?}");
}

/// RULES 18.5: actions granted to a unit that is not activated any more are gone with the turn.
#[test]
fn actions_granted_last_for_the_turn() {
    let ready = battle().ready();
    let mut rule = house(&["on_card_drawn"], |_, handle| {
        for unit in 0..handle.unit_count() {
            if handle.on_table(unit)? {
                handle.grant_action(unit)?;
            }
        }
        Ok(())
    });
    let record = record_under(&ready, 5, &mut rule, [&mut Lively::new(5), &mut Lively::new(6)]);
    let (mut granted, mut turns) = (0, 0);
    for (event, state) in &record.0 {
        let most = state.units().iter().map(|unit| unit.granted).max().unwrap_or(0);
        granted = most.max(granted);
        if matches!(event, Event::TurnStarted { .. }) {
            assert_eq!(most, 0, "turn {}", state.turn());
            turns += 1;
        }
    }
    assert!(granted > 0 && turns > 3, "{granted} granted, {turns} turns");
}

/// Men are taken as by any other loss: leaders near may be hit, groups go, sides break.
#[test]
fn men_who_are_taken_are_lost() {
    let ready = battle().ready();
    let (mut taken, mut lost) = (0, 0);
    for seed in 0..10 {
        let mut rule = house(&["on_turn_end"], |_, handle| {
            for unit in 0..handle.unit_count() {
                if handle.on_table(unit)? {
                    let before = handle.unit(unit)?.men;
                    handle.lose_men(unit, 3)?;
                    assert_eq!(handle.unit(unit)?.men, before.saturating_sub(3));
                }
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let events: Vec<Event> = record.events().collect();
        for pair in events.windows(2) {
            let Event::MenChanged { unit, by } = pair[0] else { continue };
            let Event::MenLost { unit: other, men, left } = pair[1] else {
                panic!("{:?} follows {:?}", pair[1], pair[0])
            };
            assert_eq!((other, -by), (unit, men.into()));
            taken += 1;
            lost += i32::from(left == 0);
        }
    }
    assert!(taken > 50 && lost > 5, "{taken} {lost}");
}

/// A reserve that is called comes at once, and only once.
#[test]
fn reserves_are_called() {
    let ready = battle().ready();
    let mut called = 0;
    for seed in 0..10 {
        let mut rule = house(&["on_turn_end"], |_, handle| {
            for side in [0, 1] {
                handle.bring_reserve(side)?;
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let events: Vec<Event> = record.events().collect();
        let mut groups = Vec::new();
        for pair in events.windows(2) {
            let Event::ReserveCalled { group } = pair[0] else { continue };
            assert!(matches!(pair[1], Event::MarkerPlaced { .. }), "{:?}", pair[1]);
            assert!(!groups.contains(&group), "it comes once");
            groups.push(group);
        }
        called += groups.len();
    }
    assert!(called >= 10, "{called}");
}

/// What is out of place or out of range is refused in words, and nothing of it is done.
#[test]
fn what_is_not_allowed_is_refused() {
    type Try = fn(&mut ruleshift_game::Handle) -> Result<(), Illegal>;
    let tries: [(Try, &str); 16] = [
        (|h| h.add_pins(0, 1), "unit 0 is not on the table"),
        (|h| h.add_pins(99, 1), "there is no unit 99: units are numbered 0 to "),
        (|h| h.add_points(2, 1), "there is no side 2: use ATTACKER or DEFENDER"),
        (|h| h.add_points(0, 21), "points must be -20 to 20, not 21"),
        (|h| h.add_card(2, 0).map(drop), "no card of its own with number 2"),
        (|h| h.add_card(0, 3).map(drop), "there is no owner 3"),
        (|h| h.remove_cards(9, 0).map(drop), "there is no kind of card 9"),
        (|h| h.set_counter(2, 0), "no counter of its own with number 2"),
        (|h| h.set_counter(0, 10_000), "a counter holds -9999 to 9999, not 10000"),
        (|h| h.limit_sight(0), "sight must be 1 to 86 inches, not 0"),
        (|h| h.skip_card().map(drop), "`skip_card` is about the card just drawn"),
        (|h| h.put_back().map(drop), "`put_back` is about the card just drawn"),
        (|h| h.ask_unit(0).map(drop), "`ask_unit` puts a card's one question"),
        (|h| h.note("a\nb"), "a note is one line"),
        (|h| h.note(&"x".repeat(201)), "a note has at most 200 bytes, this one has 201"),
        (|h| h.holder(-1).map(drop), "there is no objective -1"),
    ];
    let ready = battle().ready();
    for (attempt, said) in tries {
        let mut told = None;
        let mut rule = house(&["on_game_start"], |_, handle| {
            told = attempt(handle).err();
            assert!(handle.acts().is_empty(), "nothing of it is done");
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(1), Lively::new(2));
        record_under(&ready, 1, &mut rule, [&mut one, &mut two]);
        let Illegal(message) = told.unwrap_or_else(|| panic!("allowed: {said}"));
        assert!(message.contains(said), "{message}");
    }
}

/// Too much of it at a time is refused too: a call has so many acts, and a game so many calls.
#[test]
fn a_call_has_so_many_acts() {
    let ready = battle().ready();
    let mut refused = None;
    let mut rule = house(&["on_game_start"], |_, handle| {
        refused = (0..500).find(|_| handle.add_points(Side::Attacker as i64, 0).is_err());
        Ok(())
    });
    let (mut one, mut two) = (Lively::new(1), Lively::new(2));
    record_under(&ready, 1, &mut rule, [&mut one, &mut two]);
    assert_eq!(refused, Some(200));
}
