//! Cards that house rules add, take out, skip and put back (RULES 18.1, 18.2, 18.4).

use ruleshift_game::{Card, Event, Happening, Side};

use super::{house, record_under};
use crate::support::{Lively, Record, battle, idle, skirmish};

const GROUP_CARD: i64 = 2;
const LEADER_CARD: i64 = 3;

/// The cards drawn in each turn.
fn drawn(record: &Record) -> Vec<Vec<Card>> {
    let mut turns: Vec<Vec<Card>> = Vec::new();
    for event in record.events() {
        match event {
            Event::TurnStarted { .. } => turns.push(Vec::new()),
            Event::CardDrawn { card } => turns.last_mut().expect("a turn").push(card),
            _ => {}
        }
    }
    turns
}

/// Cards put in before the shuffle take their places among the others and leave their order alone.
#[test]
fn cards_put_in_before_the_shuffle_are_shuffled_in() {
    let ready = skirmish().all_cards().ready();
    let (mut first, mut last, mut turns) = (0, 0, 0);
    for seed in 0..200 {
        let plain = {
            let mut record = Record::default();
            ready.play(seed, &mut idle(), &mut idle(), &mut record);
            record
        };
        let mut rule = house(&["on_turn_start", "on_extra_card"], |happening, handle| {
            if let Happening::TurnStart { .. } = happening {
                assert!(handle.add_card(0, 0)? && handle.add_card(1, 2)? && handle.add_card(1, 2)?);
            }
            Ok(())
        });
        let with = record_under(&ready, seed, &mut rule, [&mut idle(), &mut idle()]);
        for (cards, plain) in drawn(&with).iter().zip(drawn(&plain)) {
            let extra = |card: &&Card| matches!(card, Card::Extra(..));
            let others: Vec<Card> = cards.iter().filter(|c| !extra(c)).copied().collect();
            assert_eq!(others, plain);
            let mut own: Vec<Card> = cards.iter().filter(extra).copied().collect();
            own.sort_unstable();
            let attacker = Some(Side::Attacker);
            let (mist, again) = (Card::Extra(1, None, 0), Card::Extra(1, None, 1));
            assert_eq!(own, [Card::Extra(0, attacker, 0), mist, again]);
            turns += 1;
            first += u32::from(cards[0] == mist);
            last += u32::from(cards.last() == Some(&mist));
        }
    }
    // One of so many cards: a share of 1 in 8 or so at either end; six standard errors each way.
    assert!(turns > 400 && first > 20 && last > 20, "{first} first, {last} last of {turns}");
}

/// A card put in while cards are drawn comes up in the same turn, anywhere among those left.
#[test]
fn cards_put_in_later_come_up_in_the_same_turn() {
    let ready = skirmish().all_cards().ready();
    let mut places = [0; 3];
    for seed in 0..200 {
        let mut rule = house(&["on_card_drawn"], |_, handle| {
            if handle.cards_drawn() == 1 {
                assert!(handle.add_card(1, 2)?);
            }
            Ok(())
        });
        let record = record_under(&ready, seed, &mut rule, [&mut idle(), &mut idle()]);
        for cards in drawn(&record) {
            let place = cards.iter().position(|c| matches!(c, Card::Extra(1, None, _)));
            let place = place.expect("it comes up");
            assert!(place > 0);
            places[place - 1] += 1;
        }
    }
    // Two cards are left after the first, so three places: a third each, within six standard errors.
    let all = f64::from(places.iter().sum::<u32>());
    let error = 6.0 * (all * 2.0 / 9.0).sqrt();
    assert!(places.iter().all(|&n| (f64::from(n) - all / 3.0).abs() < error), "{places:?}");
}

/// A card with no effect lets nobody act; one that goes back comes up again in the same turn.
#[test]
fn cards_are_skipped_and_put_back() {
    let ready = battle().all_cards().ready();
    let (mut skipped, mut back) = (0, 0);
    for seed in 0..30 {
        let mut rule = house(&["on_card_drawn"], |happening, handle| {
            match happening {
                Happening::CardDrawn { card: 2, owner: Some(Side::Attacker) } => {
                    assert!(handle.skip_card()?);
                    assert!(!handle.put_back()?, "it is settled already");
                }
                Happening::CardDrawn { card: 2, owner: Some(Side::Defender) }
                    if handle.roll() >= 4 =>
                {
                    let left = handle.cards_left();
                    assert_eq!(handle.put_back()?, left > 0);
                }
                _ => {}
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let events: Vec<Event> = record.events().collect();
        for pair in events.windows(2) {
            if let Event::CardSkipped { .. } = pair[0] {
                skipped += 1;
                let next = matches!(pair[1], Event::CardDrawn { .. } | Event::LateFireBegan { .. });
                assert!(next, "{:?} follows a card without effect", pair[1]);
            }
        }
        for (n, event) in events.iter().enumerate() {
            let Event::CardPutBack { card } = *event else { continue };
            back += 1;
            let mut later =
                events[n..].iter().take_while(|e| !matches!(e, Event::TurnEnded { .. }));
            let next = events[n..].iter().find(|e| matches!(e, Event::CardDrawn { .. }));
            assert_ne!(next, Some(&Event::CardDrawn { card }), "not on top");
            assert!(later.any(|e| *e == Event::CardDrawn { card }), "it comes up again");
        }
    }
    assert!(skipped > 50 && back > 50, "{skipped} {back}");
}

/// The drawing of cards may be ended, and all cards of a kind taken out of the deck.
#[test]
fn turns_are_cut_short_and_cards_taken_out() {
    let ready = battle().all_cards().ready();
    for seed in 0..10 {
        let mut rule = house(&["on_turn_start", "on_card_drawn"], |happening, handle| {
            if let Happening::TurnStart { .. } = happening {
                let all = handle.cards_left();
                let leaders = handle.remove_cards(LEADER_CARD, 0)?;
                let groups = handle.remove_cards(GROUP_CARD, 1)?;
                assert_eq!(handle.cards_left(), all - leaders - groups);
                assert!(!handle.end_turn()?, "no card is drawn yet");
            } else if handle.cards_drawn() == 3 {
                assert!(handle.end_turn()?);
                assert!(!handle.end_turn()?, "that is so already");
            }
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        let last = record.last();
        for cards in drawn(&record) {
            assert!(cards.len() <= 3, "{cards:?}");
            for card in cards {
                match card {
                    Card::Leader(unit, _) => {
                        assert_eq!(last.units()[unit as usize].side, Side::Defender);
                    }
                    Card::Group(group, _) => {
                        assert_eq!(last.groups()[group as usize].side, Side::Attacker);
                    }
                    _ => {}
                }
            }
        }
    }
}

/// A group with one more card may act twice, and a deck takes no more than its room.
#[test]
fn a_group_has_one_more_card() {
    let ready = battle().all_cards().ready();
    let mut twice = 0;
    for seed in 0..10 {
        let mut rule = house(&["on_turn_start"], |_, handle| {
            let here = (0..handle.group_count())
                .map(|group| handle.add_group_card(group))
                .collect::<Result<Vec<bool>, _>>()?;
            let room = (0..40).filter(|_| handle.add_card(0, 2).is_ok_and(|added| added)).count();
            let added = here.iter().filter(|&&here| here).count();
            // Sixteen copies of a card are all there are.
            assert_eq!(room, 16.min(32 - added));
            Ok(())
        });
        let (mut one, mut two) = (Lively::new(seed), Lively::new(!seed));
        let record = record_under(&ready, seed, &mut rule, [&mut one, &mut two]);
        twice += record.count(|e| matches!(e, Event::CardDrawn { card: Card::Group(_, 1) }));
    }
    assert!(twice > 20, "{twice}");
}
