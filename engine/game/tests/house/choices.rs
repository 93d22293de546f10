//! Cards that ask a side to choose (RULES 18.3).

use ruleshift_game::{Act, Choice, Event, Happening, Prospects, Side, View};

use super::{house, record_under};
use crate::support::{By, battle, wish};

/// The side asked gets the offer and knows what each answer would do; what it takes is done.
#[test]
fn a_side_chooses_and_its_choice_is_carried_out() {
    let ready = battle().all_cards().ready();
    let (mut asked, mut taken) = (0, 0);
    for seed in 0..20 {
        let mut rule =
            house(&["on_turn_start", "on_extra_card", "on_choice"], |happening, handle| {
                match happening {
                    Happening::TurnStart { .. } => _ = handle.add_card(1, 0)?,
                    Happening::ExtraCard { card, owner } => {
                        assert_eq!((card, owner), (1, Some(Side::Attacker)));
                        handle.ask_unit(0)?;
                    }
                    Happening::Chosen { card, chosen, .. } => {
                        assert_eq!(card, 1);
                        handle.add_pins(chosen.into(), 1 + i64::from(chosen) % 3)?;
                    }
                    _ => unreachable!(),
                }
                Ok(())
            });
        let mut attacker = By(|view: &View<'_>, choices: &[Choice]| {
            let Some(question) = view.doing().asked else {
                return choices.iter().position(|c| *c == Choice::OpenFire).unwrap_or(0);
            };
            assert_eq!((question.card, question.side), (1, Side::Attacker));
            asked += 1;
            for (place, choice) in choices.iter().enumerate() {
                let Choice::Answer(unit) = *choice else {
                    assert_eq!((*choice, place), (Choice::Done, choices.len() - 1));
                    assert!(view.prospects().of(place).is_empty());
                    continue;
                };
                let act = Act::AddPins { unit, pins: 1 + unit % 3 };
                let tries = view.prospects().of(place);
                assert_eq!(tries, vec![act; Prospects::TRIES as usize]);
            }
            0
        });
        let mut defender = wish(|view: &View<'_>, choice| {
            assert!(view.doing().asked.is_none(), "the other side is not asked");
            assert!(view.prospects().of(0).is_empty());
            (choice == Choice::OpenFire).then_some(1)
        });
        let record = record_under(&ready, seed, &mut rule, [&mut attacker, &mut defender]);
        let events: Vec<Event> = record.events().collect();
        for pair in events.windows(2) {
            let Event::Answered { card, side, unit, option } = pair[0] else { continue };
            assert_eq!((card, side, option), (1, Side::Attacker, None));
            let unit = unit.expect("it always takes the first");
            taken += 1;
            assert_eq!(pair[1], Event::ScriptActed { unit, pins: i16::from(1 + unit % 3) });
        }
    }
    assert!(asked > 30 && taken > 30, "{asked} {taken}");
}

/// RULES 18.1: what house rules have put into the deck and is not drawn yet is known to all.
#[test]
fn the_cards_still_in_the_deck_are_known() {
    let ready = battle().all_cards().ready();
    let mut looks = 0;
    for seed in 0..5 {
        let mut rule = house(&["on_turn_start", "on_extra_card"], |happening, handle| {
            if let Happening::TurnStart { .. } = happening {
                assert!(handle.add_card(1, 2)? && handle.add_card(0, 1)?);
                assert!(handle.add_card(0, 0)?);
            }
            Ok(())
        });
        let mut left = Vec::new();
        let mut attacker = By(|view: &View<'_>, choices: &[Choice]| {
            left.push((view.turn(), view.extra_cards().collect::<Vec<_>>()));
            choices.iter().position(|c| *c == Choice::OpenFire).unwrap_or(0)
        });
        let mut defender = wish(|_, _| None);
        record_under(&ready, seed, &mut rule, [&mut attacker, &mut defender]);
        let all = [(0, Some(Side::Attacker)), (0, Some(Side::Defender)), (1, None)];
        for pair in left.windows(2) {
            let [(turn, before), (next, after)] = pair else { unreachable!() };
            assert!(after.is_sorted_by_key(|(card, owner)| (*card, owner.map_or(2, |s| s as u8))));
            assert!(before.iter().all(|card| all.contains(card)));
            if turn == next {
                assert!(after.iter().all(|card| before.contains(card)), "they only get fewer");
                looks += usize::from(after.len() < before.len());
            }
        }
    }
    assert!(looks > 10, "{looks}");
}

/// Options go from 1 to their number, and a side may want none of it.
#[test]
fn a_side_may_want_none_of_it() {
    let ready = battle().all_cards().ready();
    let mut refused = 0;
    for seed in 0..5 {
        let mut rule =
            house(&["on_turn_start", "on_extra_card", "on_choice"], |happening, handle| {
                match happening {
                    Happening::TurnStart { .. } => _ = handle.add_card(0, 2)?,
                    Happening::ExtraCard { .. } => {
                        handle.ask_option(1, 3)?;
                    }
                    _ => handle.add_points(0, 1)?,
                }
                Ok(())
            });
        let mut defender = By(|view: &View<'_>, choices: &[Choice]| {
            if view.doing().asked.is_some() {
                let offer = [1, 2, 3].map(Choice::Answer);
                assert_eq!(choices, [&offer[..], &[Choice::Done]].concat());
            }
            choices.len() - 1
        });
        let mut attacker = wish(|_, _| None);
        let record = record_under(&ready, seed, &mut rule, [&mut attacker, &mut defender]);
        let nothing = Event::Answered { card: 0, side: Side::Defender, unit: None, option: None };
        refused += record.count(|event| *event == nothing);
        assert_eq!(record.count(|event| matches!(event, Event::PointsChanged { .. })), 0);
    }
    assert!(refused > 10, "{refused}");
}

/// Trying the answers out tells nothing of the dice to come: the luck is not the game's.
#[test]
fn tries_have_other_luck_than_the_game() {
    let ready = battle().all_cards().ready();
    let (mut like, mut unlike) = (0, 0);
    for seed in 0..60 {
        let mut rule =
            house(&["on_turn_start", "on_extra_card", "on_choice"], |happening, handle| {
                match happening {
                    Happening::TurnStart { .. } => _ = handle.add_card(0, 2)?,
                    Happening::ExtraCard { .. } => _ = handle.ask_option(0, 2)?,
                    _ => {
                        let rolled = handle.roll();
                        handle.add_points(0, rolled)?;
                    }
                }
                Ok(())
            });
        let mut guess = Vec::new();
        let mut attacker = By(|view: &View<'_>, _: &[Choice]| {
            if view.doing().asked.is_some() {
                guess.push(view.prospects().of(0).to_vec());
            }
            0
        });
        let mut defender = wish(|_, _| None);
        let record = record_under(&ready, seed, &mut rule, [&mut attacker, &mut defender]);
        let rolled = record.events().filter_map(|event| match event {
            Event::PointsChanged { by, .. } => Some(by),
            _ => None,
        });
        for (tries, by) in guess.iter().zip(rolled) {
            let points = |act: &&Act| matches!(act, Act::Points { .. });
            let tries: Vec<&Act> = tries.iter().filter(points).collect();
            assert_eq!(tries.len(), Prospects::TRIES as usize);
            for act in tries {
                let same = *act == Act::Points { side: Side::Attacker, by };
                if same { like += 1 } else { unlike += 1 }
            }
        }
    }
    // One of six by chance; six standard errors of a share of 1/6.
    let all = f64::from(like + unlike);
    let share = f64::from(like) / all;
    assert!(all > 500.0 && (share - 1.0 / 6.0).abs() < 6.0 * (5.0 / 36.0 / all).sqrt(), "{share}");
}
