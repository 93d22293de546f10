//! Section 2: the deck and the turn.

use ruleshift_game::{Card, Event, Hook, Kind, Place, Side, State};

use crate::support::{skirmish, watch, watch_scene};

/// Everything that has a card, as the state stands.
fn owners(state: &State) -> Vec<Card> {
    let mut cards = vec![Card::TurnEnd(0)];
    for &side in Side::ALL {
        if state.markers().iter().any(|m| m.on_table && m.side == side) {
            cards.push(Card::Marker(side, 0));
        }
    }
    for (id, _) in (0..).zip(state.groups()) {
        if state.on_table().any(|(_, unit)| unit.group == id) {
            cards.push(Card::Group(id, 0));
        }
    }
    let leaders = state.on_table().filter(|(_, unit)| unit.kind == Kind::Leader);
    cards.extend(leaders.map(|(id, _)| Card::Leader(id, 0)));
    cards
}

/// RULES 2.2: the deck holds a card for everything on the table; new troops join at turn end.
#[test]
fn the_deck_is_what_is_on_the_table_at_the_start_of_the_turn() {
    let (mut deck, mut drawn, mut joined) = (vec![], 0, 0);
    watch(60, |_, _, event, now| match *event {
        Event::TurnStarted { cards, .. } => {
            joined += usize::from(owners(now).len() > deck.len());
            deck = owners(now);
            assert_eq!(deck.len(), cards as usize);
        }
        Event::CardDrawn { card } => {
            let place = deck.iter().position(|&other| other == card);
            deck.swap_remove(place.expect("a card is in the deck once"));
            drawn += 1;
        }
        _ => {}
    });
    assert!(drawn > 500 && joined > 100, "{drawn} cards, {joined} turns with more of them");
}

/// RULES 2.2: the numbers of cards are those of their hooks.
#[test]
fn copies_of_cards_follow_their_hooks() {
    let scene = skirmish()
        .rule(Hook::TurnEndCards, |_, _| 2)
        .rule(Hook::MarkerCards, |_, _| 3)
        .rule(Hook::GroupCards, |_, args| 1 + i32::from(args[0] > 1))
        .rule(Hook::LeaderCards, |_, args| args[0] - 1);
    let mut turns = 0;
    watch_scene(scene, 20, |_, _, event, now| {
        if let Event::TurnStarted { cards, .. } = *event {
            let copies = |card: &Card| match *card {
                Card::TurnEnd(_) => 2,
                Card::Marker(..) => 3,
                Card::Group(id, _) => {
                    let units = now.on_table().filter(|(_, unit)| unit.group == id).count();
                    1 + usize::from(units > 1)
                }
                Card::Leader(id, _) => usize::from(now.units()[id as usize].grade) - 1,
                Card::Battery(..) | Card::Shortage(..) | Card::Extra(..) => 0,
            };
            turns += 1;
            assert_eq!(owners(now).iter().map(copies).sum::<usize>(), cards as usize);
        }
    });
    assert!(turns > 100, "{turns}");
}

/// RULES 2.4: the first turn-end card ends the turn, before anything else happens.
#[test]
fn the_turn_end_card_ends_the_turn() {
    let (mut ended, mut turns) = (false, 0);
    watch(40, |_, _, event, _| {
        assert!(!ended || matches!(event, Event::LateFireBegan { .. }), "{event:?}");
        ended = matches!(event, Event::CardDrawn { card: Card::TurnEnd(_) });
        turns += u32::from(ended);
    });
    assert!(turns > 200, "{turns}");
}

/// RULES 2.4: a turn whose deck is drawn out ends as well.
#[test]
fn a_deck_drawn_out_ends_the_turn() {
    let (mut left, mut turns) = (0, 0);
    watch_scene(skirmish().all_cards(), 20, |_, _, event, _| match event {
        Event::TurnStarted { cards, .. } => left = *cards,
        Event::CardDrawn { .. } => left -= 1,
        Event::LateFireBegan { .. } => {
            assert_eq!(left, 0);
            turns += 1;
        }
        _ => {}
    });
    assert!(turns > 100, "{turns}");
}

/// RULES 2.4: with a rule that asks for the last of three, the third ends the turn.
#[test]
fn the_turn_ends_with_the_card_the_rule_names() {
    let scene = skirmish()
        .rule(Hook::TurnEndCards, |_, _| 3)
        .rule(Hook::TurnEnds, |_, args| i32::from(args[0] == args[1]));
    let (mut drawn, mut turns) = (0, 0);
    watch_scene(scene, 20, |_, _, event, _| match event {
        Event::TurnStarted { .. } => drawn = 0,
        Event::CardDrawn { card: Card::TurnEnd(_) } => drawn += 1,
        Event::LateFireBegan { .. } => {
            assert_eq!(drawn, 3);
            turns += 1;
        }
        _ => {}
    });
    assert!(turns > 100, "{turns}");
}

/// RULES 2.4: on a group card each unit of the group that is still there acts once, nobody else.
#[test]
fn a_group_card_is_for_each_unit_of_the_group_once() {
    let mut due = None;
    let mut played = 0;
    watch(60, |_, _, event, now| match *event {
        Event::CardDrawn { .. } | Event::LateFireBegan { .. } => {
            if let Some(units) = due.take() {
                let units: Vec<u8> = units;
                let there = |&u: &u8| now.units()[u as usize].place == Place::Table;
                assert!(!units.iter().any(there), "units {units:?} have not acted");
                played += 1;
            }
            if let Event::CardDrawn { card: Card::Group(id, _) } = *event {
                let members = now.on_table().filter(|(_, unit)| unit.group == id);
                due = Some(members.map(|(id, _)| id).collect());
            }
        }
        Event::UnitActivated { unit, .. } => {
            if let Some(units) = &mut due {
                let place = units.iter().position(|&other| other == unit);
                units.swap_remove(place.expect("a unit of the group that has not acted"));
            }
        }
        _ => {}
    });
    assert!(played > 100, "{played}");
}

/// RULES 2.5: the steps of turn end come in their order.
#[test]
fn turn_end_goes_in_its_order() {
    let (mut step, mut turns) = (0, 0);
    watch(60, |_, before, event, _| {
        let now = match event {
            Event::LateFireBegan { .. } => 1,
            Event::Fired { late: true, .. } => 2,
            Event::Recovered { .. } => 3,
            Event::GroupTested { .. } => 4,
            Event::SideTested { .. } => 5,
            // Whoever holds the field takes what is left at the end.
            Event::ObjectiveTaken { .. } => {
                if step == 9 {
                    9
                } else {
                    6
                }
            }
            Event::Scored { .. } => 7,
            Event::TurnEnded { .. } => 8,
            Event::FieldHeld { .. } => 9,
            Event::GameEnded { .. } => 10,
            Event::TurnStarted { .. } => 0,
            _ => return,
        };
        assert!(now >= step || now == 0, "turn {}: {event:?} after step {step}", before.turn());
        (step, turns) = (now, turns + u32::from(now == 8));
    });
    assert!(turns > 200, "{turns}");
}

/// RULES 2.5: what happened this turn is forgotten when the next begins.
#[test]
fn a_new_turn_begins_afresh() {
    let mut turns = 0;
    watch(30, |_, _, event, now| {
        if let Event::TurnStarted { .. } = event {
            turns += 1;
            assert!(now.units().iter().all(|unit| {
                !(unit.activated || unit.moved || unit.under_fire || unit.ordered)
            }));
            assert!(now.markers().iter().all(|marker| marker.used == 0 && !marker.moved));
            assert!(now.groups().iter().all(|group| group.used == 0 && !group.lost_men));
        }
    });
    assert!(turns > 100, "{turns}");
}
