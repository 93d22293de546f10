//! Section 10: leaders.

use ruleshift_game::{Card, Choice, Event, Hook, Kind, Place};

use crate::support::{ask, skirmish, watch, watch_scene};

/// RULES 10.1, 10.2: orders by card: grade and one on his own, one with his group, his own moves
/// on his card among them.
#[test]
fn leaders_give_so_many_orders() {
    let (mut card, mut given, mut own) = (None, 0, false);
    let (mut leader, mut most) = (0u8, [0; 4]);
    watch(150, |_, _, event, now| {
        match *event {
            Event::CardDrawn { card: drawn } => {
                (card, given, own) = (Some(drawn), 0, matches!(drawn, Card::Leader(..)));
                if let Card::Leader(id, _) = drawn {
                    leader = id;
                }
            }
            Event::UnitActivated { unit, .. } if !own => (leader, given) = (unit, 0),
            Event::OrderGiven { leader: by, .. } | Event::Rallied { leader: Some(by), .. } => {
                assert_eq!(by, leader);
                given += 1;
            }
            Event::UnitMoved { unit, .. } if own && unit == leader => given += 1,
            _ => return,
        }
        let unit = &now.units()[leader as usize];
        let may = if own { unit.grade + 1 } else { 1 };
        assert!(given <= may, "{given} orders on {card:?}");
        if own {
            most[unit.grade as usize] = given.max(most[unit.grade as usize]);
        }
    });
    assert_eq!(most[1..3], [2, 3], "leaders of grades 1 and 2 give all their orders at times");
}

/// RULES 10.1, 10.3: orders go to units of his side within his distance: to rally, any with pins;
/// to act, any that can and was not ordered this turn.
#[test]
fn orders_reach_those_near_the_leader() {
    let mut offered = [0; 2];
    ask(100, |view, choices| {
        let doing = view.doing();
        if doing.unit.is_some() || doing.moving.is_some() || doing.placing != 0 {
            return;
        }
        let Some((id, _)) = doing.leader else { return };
        let leader = view.unit(id).unwrap();
        if leader.suppressed(view.rules()) || leader.place != Place::Table {
            assert!(choices.is_empty());
            return;
        }
        for (other, unit) in view.own_units() {
            let near =
                i32::from(unit.at.range(leader.at)) <= view.rules().leader_radius(leader.grade);
            let rally = near && other != id && unit.pins > 0;
            let act = near
                && unit.kind != Kind::Leader
                && !unit.ordered
                && !unit.suppressed(view.rules());
            assert_eq!(choices.contains(&Choice::OrderRally(other)), rally);
            assert_eq!(choices.contains(&Choice::OrderAction(other)), act);
            offered[0] += u32::from(rally);
            offered[1] += u32::from(act);
        }
    });
    assert!(offered.iter().all(|&n| n > 200), "{offered:?}");
}

/// RULES 10.1: an ordered unit takes one action, is ordered once a turn, and counts as having had
/// an activation; its own, if still to come, it keeps.
#[test]
fn an_order_is_worth_one_action() {
    let (mut ordered, mut acting, mut acts) = ([false; 96], None, 0);
    let (mut given, mut kept) = (0, 0);
    watch(100, |_, before, event, now| match *event {
        Event::TurnStarted { .. } => ordered = [false; 96],
        Event::OrderGiven { unit, .. } => {
            assert!(!ordered[unit as usize] && now.units()[unit as usize].activated);
            assert_eq!(now.units()[unit as usize].actions, 1);
            ordered[unit as usize] = true;
            (acting, acts, given) = (Some(unit), 0, given + 1);
        }
        Event::UnitActivated { unit, .. } => {
            kept += u32::from(ordered[unit as usize]);
            acting = None;
        }
        Event::CardDrawn { .. } => acting = None,
        Event::UnitMoved { unit, .. }
        | Event::Fired { unit, blast: false, .. }
        | Event::SpotTried { unit: Some(unit), .. }
        | Event::Rallied { unit, leader: None, .. }
            if acting == Some(unit) =>
        {
            acts += 1;
            assert!(acts == 1 && before.turn() == now.turn());
        }
        _ => {}
    });
    assert!(given > 200 && kept > 20, "{given} orders, {kept} activations after one");
}

/// RULES 10.5: when a unit loses men every leader of its side within 2 in is tested; one hit is
/// lost with his men.
#[test]
fn leaders_near_losses_may_be_hit() {
    let scene = skirmish().rule(Hook::LeaderHitNumber, |_, _| 7);
    let (mut due, mut tested, mut hit): (Vec<u8>, _, _) = (vec![], 0, None);
    let mut lost = 0;
    watch_scene(scene, 100, |_, _, event, now| {
        if let Some(leader) = hit.take() {
            assert!(matches!(*event, Event::MenLost { unit, left: 0, .. } if unit == leader));
            assert_eq!(now.units()[leader as usize].kind, Kind::Leader);
            lost += 1;
            return;
        }
        match *event {
            Event::MenLost { unit, .. } if now.units()[unit as usize].kind != Kind::Leader => {
                let struck = &now.units()[unit as usize];
                let near = now.on_table().filter(|(_, leader)| {
                    leader.kind == Kind::Leader
                        && leader.side == struck.side
                        && leader.at.range(struck.at) <= 2
                });
                due = near.map(|(id, _)| id).rev_list();
            }
            Event::LeaderTested { unit, rolled, needed } => {
                assert_eq!((due.pop(), needed), (Some(unit), 7));
                hit = (rolled >= needed).then_some(unit);
                tested += 1;
            }
            Event::Fired { .. } | Event::CardDrawn { .. } => assert!(due.is_empty(), "{due:?}"),
            _ => {}
        }
    });
    assert!(tested > 100 && lost > 30, "{tested} tested, {lost} lost");
}

/// A list to pop from the front of.
trait Reversed {
    fn rev_list(self) -> Vec<u8>;
}

impl<I: Iterator<Item = u8>> Reversed for I {
    fn rev_list(self) -> Vec<u8> {
        let mut list: Vec<u8> = self.collect();
        list.reverse();
        list
    }
}
