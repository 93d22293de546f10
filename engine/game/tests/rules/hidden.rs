//! Section 15: hidden troops, reserves, leaving.

use std::collections::BTreeSet;

use ruleshift_game::{
    Cell, Choice, EndCause, Event, Heading, Hook, Kind, Origin, Place, RevealCause, Side, State,
};

use crate::support::{
    Odds, Scene, Watch, ask_scene, battle, drill, idle, leader, opener, two_dice, unit, vehicle,
    watch_scene, wish,
};

/// A group hidden in one of four features, another that comes near from afar.
fn ambush() -> Scene {
    let scene = Scene::new()
        .group(Side::Attacker, (10, 24), &[unit(Kind::Section, 9)])
        .hidden(Side::Defender, &[unit(Kind::Section, 9)])
        .group(Side::Defender, (70, 45), &[leader(1)])
        .all_cards();
    [6, 16, 28, 40].iter().fold(scene, |scene, &y| scene.feature(Side::Defender, (30, y)))
}

/// RULES 15.1: luck deals the features, each as likely as any other; 400 games.
#[test]
fn features_are_dealt_by_luck() {
    let ready = ambush().turns(1).ready();
    let mut odds: [Odds; 4] = Default::default();
    for seed in 0..400 {
        let mut record = crate::support::Record::default();
        ready.play(seed, &mut idle(), &mut idle(), &mut record);
        let markers = record.last().markers();
        let feature = markers.iter().find_map(|m| m.feature).expect("it is hidden");
        odds.iter_mut().enumerate().for_each(|(n, odds)| odds.add(n == feature.into(), 0.25));
    }
    odds.iter().for_each(|odds| odds.hold(400));
}

/// RULES 15.1, 15.2: the enemy sees the features but neither the markers in them nor any event of
/// putting them there; a marker that moves out shows.
#[test]
fn hidden_markers_do_not_show_until_they_move() {
    let (mut hidden, mut out) = (0, 0);
    watch_scene(battle(), 60, |_, before, event, now| {
        if let Event::MarkerPlaced { marker, .. } = *event {
            assert!(now.markers()[marker as usize].feature.is_none());
        }
        for (was, is) in before.markers().iter().zip(now.markers()) {
            if was.feature.is_some() && is.feature.is_none() && is.on_table {
                assert!(matches!(event, Event::MarkerMoved { .. }) && was.at != is.at, "{event:?}");
                out += 1;
            }
        }
    });
    ask_scene(battle(), 30, |view, _| {
        let features: BTreeSet<Cell> = view.enemy_features().map(|(_, at, _)| at).collect();
        assert_eq!(features.len(), 3);
        hidden += view.own_markers().filter(|(_, m)| m.feature.is_some()).count();
        assert!(view.enemy_markers().all(|m| view.own_marker(m.id).is_none()));
    });
    assert!(hidden > 1_000 && out > 50, "{hidden} hidden, {out} came out");
}

/// RULES 15.3, 4.7: troops in a feature open fire like those under any marker.
#[test]
fn troops_open_fire_out_of_a_feature() {
    let mut seen = 0;
    for seed in 0..8 {
        let record = ambush().play(seed, &mut idle(), &mut opener());
        let place = record.0[0].1.markers().iter().find(|m| m.feature.is_some()).unwrap().at;
        let opened = |(event, _): &&(Event, State)| {
            matches!(
                event,
                Event::MarkerRevealed { group: Some(1), cause: RevealCause::OpenedFire, .. }
            )
        };
        let (_, state) = record.0.iter().find(opened).expect("they opened fire");
        let feature = (0..4).find(|&n| state.searched(Side::Defender, n)).expect("it is known now");
        assert_eq!(place, Cell { x: 30, y: [6, 16, 28, 40][feature as usize] });
        seen += 1;
    }
    assert_eq!(seen, 8);
}

/// RULES 15.3, 4.5, 4.6: walking up to a feature reveals whom it hides, in plain sight or by touch.
#[test]
fn walking_up_to_a_feature_reveals_its_troops() {
    let causes = [(6, RevealCause::PlainSight), (0, RevealCause::Contact)];
    for (sure, expected) in causes {
        let scene = ambush().turns(12).rule(Hook::SureSpotting, move |_, _| sure);
        let mut scene = scene.no_objective().objective((30, 16), [0, 0], [0, 0], None);
        scene.setup.sides[Side::Defender].features.truncate(2);
        scene.setup.sides[Side::Defender].features.remove(0);
        let mut walker = wish(|_, choice| match choice {
            Choice::OpenFire => Some(50),
            Choice::Move(Heading::Objective(0)) => Some(9),
            Choice::Stop(steps) => Some(i32::from(steps)),
            _ => None,
        });
        let record = scene.play(1, &mut walker, &mut idle());
        let revealed = record.events().find_map(|event| match event {
            Event::MarkerRevealed { group: Some(1), cause, .. } => Some(cause),
            _ => None,
        });
        assert_eq!(revealed, Some(expected));
    }
}

/// RULES 15.4, 15.5: the number by band and cover, reached as often as two dice do; troops found
/// are revealed, an empty feature is marked, and a failed look tells nothing.
#[test]
fn features_are_searched() {
    let (mut odds, mut found, mut empty) = (Odds::default(), 0, 0);
    watch_scene(battle(), 250, |ready, before, event, now| {
        let Event::Searched { side, feature, unit, by, rolled, needed, empty: nobody } = *event
        else {
            return;
        };
        let at = ready.arena.setup().sides[side].features[feature as usize].at;
        let from = match (unit, by) {
            (Some(unit), None) => before.units()[unit as usize].at,
            (None, Some(marker)) => before.markers()[marker as usize].at,
            _ => panic!("{event:?}"),
        };
        assert!(!before.searched(side, feature));
        let band = ready.rules.spot_band(from.range(at));
        assert_eq!(i32::from(needed), ready.rules.search_number(band, ready.arena.cover(at)));
        odds.add(rolled >= needed, two_dice(needed));
        let hides = before
            .markers()
            .iter()
            .any(|m| m.on_table && m.side == side && m.feature == Some(feature));
        assert_eq!(nobody, rolled >= needed && !hides, "{event:?}");
        assert!(!now.searched(side, feature), "it is marked after the event");
        found += u32::from(rolled >= needed && hides);
        empty += u32::from(nobody);
    });
    odds.hold(1_000);
    assert!(found > 50 && empty > 50, "{found} found, {empty} empty");
}

/// RULES 15.6, 15.7: from the listed turn on a die at each turn end, 4 or more, one less for each
/// turn it has waited; it comes at one of its squares, each as often as another.
#[test]
fn reserves_come_in_their_time() {
    const ENTRIES: [(u8, u8); 3] = [(2, 2), (2, 24), (2, 45)];
    let ready = Scene::new()
        .group(Side::Attacker, (10, 24), &[unit(Kind::Section, 8)])
        .reserve(Side::Attacker, 2, &ENTRIES, &[unit(Kind::Section, 9)])
        .group(Side::Defender, (60, 24), &[unit(Kind::Section, 8)])
        .turns(6)
        .ready();
    let mut numbers: [Odds; 3] = Default::default();
    let mut places: [Odds; 3] = Default::default();
    for seed in 0..600 {
        let check = |before: &State, event: &Event, now: &State| match *event {
            Event::ReserveTested { group, rolled, needed } => {
                assert!(group == 1 && now.turn() >= 2);
                // Never easier than a 2.
                let waited = (now.turn() - 2).min(2);
                assert_eq!(u16::from(needed), 4 - waited);
                numbers[usize::from(waited)].add(rolled >= needed, f64::from(7 - needed) / 6.0);
            }
            Event::MarkerPlaced { at, .. } if before.turn() > 0 => {
                for (&(x, y), odds) in ENTRIES.iter().zip(&mut places) {
                    odds.add(at == Cell { x, y }, 1.0 / 3.0);
                }
            }
            _ => {}
        };
        let mut watch = Watch { before: None, check };
        ready.play(seed, &mut idle(), &mut idle(), &mut watch);
    }
    numbers.iter().for_each(|odds| odds.hold(40));
    places.iter().for_each(|odds| odds.hold(550));
}

/// RULES 15.6: markers of reserves, the first and the others, are told from those that start on the table.
#[test]
fn markers_know_where_they_come_from() {
    let section = || [unit(Kind::Section, 8)];
    let record = Scene::new()
        .group(Side::Attacker, (10, 24), &section())
        .reserve(Side::Attacker, 2, &[(2, 2)], &section())
        .reserve(Side::Attacker, 2, &[(2, 40)], &section())
        .hidden(Side::Defender, &section())
        .feature(Side::Defender, (50, 24))
        .play(5, &mut idle(), &mut idle());
    let mut origins: Vec<Origin> = record.last().markers().iter().map(|m| m.origin()).collect();
    origins.sort_by_key(|origin| *origin as u8);
    assert_eq!(origins, [Origin::Spot, Origin::Feature, Origin::Reserve, Origin::Reserve]);
}

/// RULES 15.7: a reserve that comes in plain sight of the enemy is revealed at once.
#[test]
fn a_reserve_in_plain_sight_is_revealed() {
    let record = Scene::new()
        .stand(Side::Attacker, (10, 24), unit(Kind::Section, 8))
        .stand(Side::Defender, (60, 24), unit(Kind::Section, 8))
        .reserve(Side::Attacker, 2, &[(56, 24)], &[unit(Kind::Section, 9)])
        .rule(Hook::ReserveNumber, |_, _| 2)
        .turns(6)
        .all_cards()
        .play(5, &mut idle(), &mut drill(&[(60, 24)], |_, _| None));
    let events: Vec<Event> = record.events().collect();
    let comes = events.iter().rposition(|e| matches!(e, Event::MarkerPlaced { .. })).unwrap();
    let next = events[comes + 1];
    let plain = RevealCause::PlainSight;
    assert!(matches!(next, Event::MarkerRevealed { group: Some(1), cause, .. } if cause == plain));
}

/// RULES 15.8, 11.4, 11.7: a unit near an objective that says so may leave, with whoever rides in
/// it, for the points of each; it is neither lost nor beaten, and its group gives no points.
#[test]
fn units_leave_with_whom_they_carry() {
    let squares = [(40, 24), (42, 24)];
    let record = Scene::new()
        .no_objective()
        .objective((40, 26), [0, 0], [0, 0], None)
        .leaving([3, 0])
        .group(
            Side::Attacker,
            (39, 24),
            &[vehicle(Kind::Carrier, 2, [12, 10, 8]), unit(Kind::Section, 8)],
        )
        .stand(Side::Defender, (5, 5), unit(Kind::Section, 8))
        .turns(8)
        .all_cards()
        .play(
            1,
            &mut drill(&squares, |view, choice| match choice {
                Choice::Mount(_) => Some(30),
                Choice::Leave if view.turn() >= 4 => Some(20),
                _ => None,
            }),
            &mut idle(),
        );
    let left = |e: &Event| matches!(e, Event::UnitLeft { points: 3, .. });
    assert_eq!(record.count(left), 2);
    let last = record.last();
    assert!(last.units()[..2].iter().all(|unit| unit.place == Place::Left));
    assert_eq!((last.points()[Side::Attacker], last.points()[Side::Defender]), (6, 0));
    assert_eq!(last.losses(Side::Attacker), (0, 10));
    assert_eq!(record.count(|e| matches!(e, Event::GroupGone { .. } | Event::FieldHeld { .. })), 0);
    let Some(Event::GameEnded { winner, cause, .. }) = record.events().last() else { panic!() };
    assert_eq!((winner, cause), (Some(Side::Attacker), EndCause::NobodyLeft));
}

/// RULES 15.8: leaving is offered within the distance of 11.1 of such an objective, and only there.
#[test]
fn leaving_is_offered_where_it_is_allowed() {
    let (mut offered, mut near_other) = (0, 0);
    ask_scene(battle(), 80, |view, choices| {
        let doing = view.doing();
        let asked = doing.placing == 0 && doing.moving.is_none();
        let Some(unit) = doing.unit.filter(|_| asked).and_then(|id| view.unit(id)) else { return };
        let able = unit.place == Place::Table && !unit.suppressed(view.rules()) && !unit.immobile;
        let near = |o: &&ruleshift_game::Objective| {
            i32::from(o.at.range(unit.at)) <= view.rules().holding_distance()
        };
        let way_out = view.objectives().iter().filter(near).any(|o| o.leaving[unit.side] > 0);
        assert_eq!(choices.contains(&Choice::Leave), able && way_out);
        offered += u32::from(able && way_out);
        near_other += u32::from(able && !way_out && view.objectives().iter().any(|o| near(&o)));
    });
    assert!(offered > 100 && near_other > 100, "{offered} offered, {near_other} elsewhere");
}

/// RULES 15.2: what happens to troops that a side has never seen, it is not told; its own are no secret to it.
#[test]
fn news_of_troops_never_seen_is_kept() {
    let (mut told, mut kept) = (0, 0);
    watch_scene(battle(), 60, |_, _, event, now| {
        let (Event::PinsAdded { unit, .. } | Event::MenLost { unit, .. }) = *event else { return };
        let unit = &now.units()[unit as usize];
        let seen = now.groups()[unit.group as usize].placed_in > 0;
        assert!(event.told(unit.side, now));
        assert_eq!(event.told(unit.side.other(), now), seen);
        (told, kept) = (told + u32::from(seen), kept + u32::from(!seen));
    });
    assert!(told > 500 && kept > 20, "{told} told, {kept} kept");
}
