//! What house rules are told, and when.

use ruleshift_game::{
    CARD_OWNERS, EVENT_HOOKS, Event, Happening, Observer, Part, Place, Side, State,
};

use super::{house, house_of_all, play_under};
use crate::support::{Lively, battle};

/// Every event hook is called in the battle; the two about extra cards have tests of their own.
#[test]
fn every_hook_is_called() {
    let ready = battle().ready();
    let mut calls = vec![0; EVENT_HOOKS.len()];
    for seed in 0..60 {
        let mut rule = house_of_all(|happening, handle| {
            calls[happening.index()] += 1;
            if let Happening::TurnStart { .. } = happening {
                handle.add_card(0, 0)?;
            }
            if let Happening::ExtraCard { .. } = happening {
                handle.ask_option(0, 2)?;
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        play_under(&ready, seed, &mut rule, [&mut one, &mut two], &mut ());
    }
    for (hook, calls) in EVENT_HOOKS.iter().zip(calls) {
        assert!(calls >= 20, "{} was called {calls} times", hook.name);
    }
}

/// Scripts know the sides, and nobody, by the names that their constants have.
#[test]
fn owners_are_told_by_their_constants() {
    let named = |name: &str| CARD_OWNERS.iter().position(|owner| *owner == name).unwrap() as i32;
    let drawn = |owner| Happening::CardDrawn { card: 3, owner };
    let owners =
        [(Some(Side::Attacker), "ATTACKER"), (Some(Side::Defender), "DEFENDER"), (None, "NOBODY")];
    for (owner, name) in owners {
        let happening = drawn(owner);
        assert_eq!(happening.arguments(), [3, named(name)]);
        assert_eq!(Happening::from_arguments(happening.index(), &[3, named(name)]), happening);
    }
}

/// Whatever a hook may be told is among the values that its arguments are said to have.
#[test]
fn arguments_are_what_they_are_said_to_be() {
    let ready = battle().ready();
    let mut most = vec![vec![0; 4]; EVENT_HOOKS.len()];
    for seed in 0..20 {
        let mut rule = house_of_all(|happening, _| {
            let told = happening.arguments();
            let (place, args) = (happening.index(), EVENT_HOOKS[happening.index()].args);
            assert_eq!(told.len(), args.len());
            for ((value, arg), most) in told.into_iter().zip(args).zip(&mut most[place]) {
                assert!(
                    arg.domain.contains(value),
                    "{} {} {value}",
                    EVENT_HOOKS[place].name,
                    arg.name
                );
                *most = value.max(*most);
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        play_under(&ready, seed, &mut rule, [&mut one, &mut two], &mut ());
    }
    assert!(most.iter().flatten().filter(|most| **most > 0).count() > 20, "{most:?}");
}

/// Pins that are none are no news.
#[test]
fn no_pins_are_not_told() {
    let (ready, mut told) = (battle().ready(), [0; 2]);
    let mut rule = house(&["on_unit_activated", "on_unit_pinned"], |happening, handle| {
        match happening {
            Happening::UnitActivated { unit } => {
                told[0] += 1;
                handle.add_pins(unit.into(), 0)?;
            }
            Happening::UnitPinned { pins, .. } => {
                told[1] += 1;
                assert!(pins > 0);
            }
            _ => unreachable!(),
        }
        Ok(())
    });
    play_under(&ready, 3, &mut rule, [&mut Lively::new(3), &mut Lively::new(4)], &mut ());
    assert!(told.iter().all(|&n| n > 5), "{told:?}");
}

/// What a script counts to: units, groups and objectives of the scenario.
#[test]
fn a_script_can_count() {
    let ready = battle().objective((60, 40), [0, 0], [0, 0], None).ready();
    let objectives = ready.arena.objectives().len() as i64;
    let sides = || ready.arena.setup().sides.0.iter();
    let groups = sides().map(|side| side.groups.len()).sum::<usize>() as i64;
    let units = sides().flat_map(|side| &side.groups).map(|group| group.units.len()).sum::<usize>();
    let mut rule = house(&["on_game_start"], |_, handle| {
        let counts = (handle.objective_count(), handle.group_count(), handle.unit_count());
        assert_eq!(counts, (objectives, groups, units as i64));
        Ok(())
    });
    play_under(&ready, 3, &mut rule, [&mut Lively::new(3), &mut Lively::new(4)], &mut ());
    assert!(objectives > 1);
}

/// Of a stack each script has its own cards and counters, one behind the other.
#[test]
fn scripts_of_a_stack_stand_behind_each_other() {
    let first = Part { first_card: 0, cards: 3, first_counter: 0, counters: 5 };
    let second = Part { cards: 2, counters: 7, ..Part::default() }.behind(first);
    assert_eq!((second.first_card, second.first_counter), (3, 5));
    let third = Part { cards: 1, counters: 1, ..Part::default() }.behind(second);
    assert_eq!((third.first_card, third.cards, third.first_counter, third.counters), (5, 1, 12, 1));
}

/// A rule that only looks on leaves the game as it was, event for event.
#[test]
fn a_rule_that_looks_on_changes_nothing() {
    let ready = battle().ready();
    for seed in 0..20 {
        let players = || (Lively::new(seed), Lively::new(!seed));
        let (mut one, mut two) = players();
        let plain = ready.play(seed, &mut one, &mut two, &mut ());
        let mut rule = house_of_all(|_, handle| {
            for unit in 0..handle.unit_count() {
                handle.suppressed(unit)?;
                if handle.on_table(unit)? {
                    handle.cover(unit)?;
                    assert_eq!((handle.range(unit, unit)?, handle.sees(unit, unit)?), (0, true));
                }
            }
            Ok(())
        });
        let (mut one, mut two) = players();
        let watched = play_under(&ready, seed, &mut rule, [&mut one, &mut two], &mut ());
        assert_eq!(plain, watched);
    }
}

/// Notes what happens in the order of the events, as the hooks should be told of it.
#[derive(Default)]
struct Expected {
    waiting: Vec<Happening>,
}

impl Observer for Expected {
    fn event(&mut self, event: &Event, state: &State) {
        let there = |unit: u8| state.units()[unit as usize].place == Place::Table;
        self.waiting.extend(match *event {
            Event::MenLost { unit, men, .. } => Some(Happening::MenLost { unit, men }),
            Event::UnitBroke { unit, .. } => Some(Happening::UnitBroke { unit }),
            Event::UnitMoved { unit, inches, .. } if there(unit) => {
                Some(Happening::UnitMoved { unit, inches })
            }
            _ => None,
        });
    }
}

/// RULES 18.6: the rest comes when it is over, in the order in which it happened, and moves only of
/// units that are still on the table.
#[test]
fn what_happened_is_told_in_its_order() {
    let ready = battle().ready();
    let mut told = 0;
    for seed in 0..20 {
        let mut heard = Vec::new();
        let hooks = ["on_men_lost", "on_unit_broke", "on_unit_moved"];
        let mut rule = house(&hooks, |happening, handle| {
            if let Happening::UnitMoved { unit, .. } = happening {
                assert!(handle.on_table(unit.into())?, "it is still there");
            }
            heard.push(happening);
            Ok(())
        });
        let mut expected = Expected::default();
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        play_under(&ready, seed, &mut rule, [&mut one, &mut two], &mut expected);
        told += heard.len();
        let moved = |happening: &Happening| matches!(happening, Happening::UnitMoved { .. });
        let rest = |all: &[Happening]| -> Vec<Happening> {
            all.iter().filter(|&happening| !moved(happening)).copied().collect()
        };
        assert_eq!(rest(&heard), rest(&expected.waiting), "seed {seed}");
        let (heard, all) = (heard.iter().filter(|h| moved(h)).count(), expected.waiting.len());
        assert!(heard <= all && heard > 0);
    }
    assert!(told > 1_000, "{told}");
}

/// RULES 18.6: troops are in place by the time a rule is told of their marker.
#[test]
fn troops_are_placed_before_their_marker_is_told_of() {
    let ready = battle().ready();
    let mut shown = 0;
    for seed in 0..20 {
        let mut rule = house(&["on_marker_revealed"], |happening, handle| {
            let Happening::MarkerRevealed { side, dummy } = happening else { unreachable!() };
            if !dummy {
                let mut of_side = (0..handle.unit_count()).filter(|&unit| {
                    handle.unit(unit).is_ok_and(|u| u.side == side && u.place != Place::Hidden)
                });
                assert!(of_side.next().is_some(), "somebody of the {side} is in place");
                shown += 1;
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        play_under(&ready, seed, &mut rule, [&mut one, &mut two], &mut ());
    }
    assert!(shown > 100, "{shown}");
}

/// RULES 18.6: what a house rule does calls no house rule. One that adds a pin for each time a unit
/// is pinned would go on for ever.
#[test]
fn hooks_do_not_call_each_other() {
    let ready = battle().ready();
    let mut pinned = 0;
    for seed in 0..10 {
        let mut calls = 0;
        let mut rule = house(&["on_unit_pinned"], |happening, handle| {
            let Happening::UnitPinned { unit, .. } = happening else { unreachable!() };
            calls += 1;
            handle.add_pins(unit.into(), 1)
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = super::record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let acts = record.count(|event| matches!(event, Event::ScriptActed { .. }));
        let pins = record.count(|event| matches!(event, Event::PinsAdded { pins: 1.., .. }));
        assert!(acts <= calls && calls + acts <= pins, "{calls} calls, {acts} acts, {pins} pins");
        pinned += acts;
    }
    assert!(pinned > 50, "{pinned}");
}
