//! Sections 4 and 6: markers and spotting.

use ruleshift_game::{Choice, Event, Gait, Hook, Mover, RevealCause, Side};

use crate::support::{ask, skirmish, watch, watch_scene};

/// RULES 4.1: each group has a marker, dummies have the rest, on spots of their own.
#[test]
fn markers_start_on_spots_of_their_side() {
    let scene = skirmish().rule(Hook::DummyMarkers, |_, args| 4 + args[0]);
    let mut games = 0;
    watch_scene(scene, 20, |ready, _, event, now| {
        if !matches!(event, Event::TurnStarted { turn: 1, .. }) {
            return;
        }
        games += 1;
        for &side in Side::ALL {
            let setup = &ready.arena.setup().sides[side];
            let markers: Vec<_> = now.markers().iter().filter(|m| m.side == side).collect();
            assert_eq!(markers.len(), setup.spots.len(), "dummies too many are left out");
            let mut spots: Vec<_> = markers.iter().map(|m| m.at).collect();
            spots.sort_unstable();
            spots.dedup();
            assert_eq!(spots.len(), markers.len());
            assert!(spots.iter().all(|at| setup.spots.contains(at)));
            let groups = markers.iter().filter(|m| m.group.is_some()).count();
            assert_eq!(groups, setup.groups.len());
        }
    });
    assert_eq!(games, 20);
}

/// RULES 4.1: neither spot nor number tells what a marker hides. 4000 games, 4 markers a side,
/// each of 2 groups: counts by place, chi-square with 3 degrees of freedom below 16.27, which
/// chance exceeds once in a thousand.
#[test]
fn what_a_marker_hides_is_anybodys_guess() {
    let ready = skirmish().ready();
    let mut counts = [[0u32; 4]; 4];
    for seed in 0..4_000 {
        let game = ruleshift_game::Game::new(ready.table(), seed, None, Box::leak(Box::new(())));
        for (n, marker) in game.state().markers().iter().enumerate() {
            if let Some(group) = marker.group {
                counts[group as usize][n % 4] += 1;
            }
        }
    }
    for (group, counts) in counts.iter().enumerate() {
        let chi: f64 = counts.iter().map(|&n| (f64::from(n) - 1000.0).powi(2) / 1000.0).sum();
        assert!(chi < 16.27, "group {group}: {counts:?}");
    }
}

/// RULES 4.2: a marker has its four actions on each marker card, and no more.
#[test]
fn markers_act_so_often_on_a_card() {
    for cards in [1, 2] {
        let scene = skirmish().all_cards().rule(Hook::MarkerCards, |_, _| cards);
        let mut used = [0; 40];
        let mut all = [0; 40];
        let mut most = 0;
        watch_scene(scene, 30, |_, _, event, now| {
            match *event {
                Event::TurnStarted { .. } => all = [0; 40],
                Event::CardDrawn { .. } => used = [0; 40],
                Event::MarkerMoved { marker, .. } | Event::SpotTried { by: Some(marker), .. } => {
                    used[marker as usize] += 1;
                    all[marker as usize] += 1;
                    assert_eq!(now.markers()[marker as usize].used, all[marker as usize]);
                }
                _ => {}
            }
            assert!(used.iter().all(|&used| used <= 4));
            most = *all.iter().max().unwrap().max(&most);
        });
        assert_eq!(i32::from(most), 4 * cards);
    }
}

/// RULES 4.3: a marker's move is one die long.
#[test]
fn markers_move_by_one_die() {
    let mut rolled = [0; 7];
    watch(60, |_, _, event, _| {
        if let Event::MarkerMoved { inches, .. } = *event {
            rolled[inches as usize] += 1;
        }
    });
    assert_eq!(rolled[0], 0);
    assert!(rolled[1..].iter().all(|&n| n > 100), "{rolled:?}");
}

/// RULES 4.4: a rule may keep markers from spotting; without it they do.
#[test]
fn markers_spot_if_they_may() {
    for may in [false, true] {
        let scene = skirmish().rule(Hook::MarkerMaySpot, |_, _| i32::from(may));
        let mut tries = 0;
        watch_scene(scene, 30, |_, _, event, _| {
            tries += u32::from(matches!(event, Event::SpotTried { by: Some(_), .. }));
        });
        assert_eq!(tries > 0, may, "{tries}");
    }
}

/// RULES 4.5, 4.6: once all has stood still, no marker is in touch with an enemy unit or in plain
/// sight of one within its distance; each is revealed for the cause that came first.
#[test]
fn no_marker_stays_in_plain_sight() {
    let (mut pairs, mut causes) = (0, [0; 4]);
    watch(220, |ready, _, event, now| match *event {
        Event::MarkerRevealed { cause, .. } => causes[cause as usize] += 1,
        Event::CardDrawn { .. } => {
            for marker in now.markers().iter().filter(|marker| marker.on_table) {
                for (_, unit) in now.on_table().filter(|(_, unit)| unit.side != marker.side) {
                    let range = i32::from(unit.at.range(marker.at));
                    let sure = ready.rules.sure_spotting(ready.arena.cover(marker.at));
                    let seen = ready.arena.sight().sees(unit.at, marker.at);
                    pairs += 1;
                    assert!(range > 1 && !(seen && range <= sure), "{marker:?} {unit:?}");
                }
            }
        }
        _ => {}
    });
    assert!(pairs > 5_000, "{pairs}");
    assert!(causes.iter().all(|&n| n > 10), "{causes:?}");
}

/// RULES 4.6: markers that meet are both revealed.
#[test]
fn markers_that_touch_are_both_revealed() {
    let scene = skirmish().rule(Hook::ContactDistance, |_, _| 6);
    let (mut last, mut met) = (None, 0);
    watch_scene(scene, 60, |_, before, event, _| {
        let marker = match *event {
            Event::MarkerRevealed { marker, cause: RevealCause::Contact, .. } => marker,
            Event::MarkerMoved { marker, .. } => {
                last = Some(marker);
                return;
            }
            _ => {
                last = None;
                return;
            }
        };
        let side = before.markers()[marker as usize].side;
        if let Some(mover) = last.filter(|&m| before.markers()[m as usize].side != side) {
            met += 1;
            assert!(!before.markers()[mover as usize].on_table, "the mover is revealed first");
        }
    });
    assert!(met > 5, "{met}");
}

/// RULES 4.7: opening fire is offered for troops under a marker that has used no action, and to
/// nobody else.
#[test]
fn troops_open_fire_before_their_marker_acts() {
    let mut offered = [0; 2];
    ask(60, |view, choices| {
        let doing = view.doing();
        let busy = doing.placing != 0 || doing.moving.is_some() || doing.unit.is_some();
        let Some(id) = doing.marker.filter(|_| !busy) else { return };
        let marker = view.own_marker(id).expect("a marker of one's own");
        let may = marker.group.is_some() && marker.used == 0;
        assert_eq!(choices.contains(&Choice::OpenFire), may);
        offered[usize::from(may)] += 1;
    });
    assert!(offered.iter().all(|&n| n > 100), "{offered:?}");
}

/// RULES 4.10: a dummy leaves the table and nothing is placed.
#[test]
fn dummies_leave_nothing() {
    let (mut waiting, mut dummies) = (0, 0);
    watch(60, |_, before, event, now| match *event {
        Event::MarkerRevealed { group: None, .. } => {
            dummies += 1;
            assert_eq!((before.units(), before.points()), (now.units(), now.points()));
        }
        Event::MarkerRevealed { group: Some(group), .. } => {
            waiting += usize::from(now.groups()[group as usize].units);
        }
        Event::UnitPlaced { .. } => waiting -= 1,
        Event::CardDrawn { .. } => assert_eq!(waiting, 0),
        _ => {}
    });
    assert!(dummies > 50, "{dummies}");
}

/// RULES 5.7: a move that reveals a marker ends where it does so.
#[test]
fn a_move_stops_where_a_marker_is_revealed() {
    let mut stopped = 0;
    watch(60, |ready, before, event, _| {
        let Event::MarkerMoved { marker, heading, to, .. } = *event else { return };
        let side = before.markers()[marker as usize].side;
        let mut at = before.markers()[marker as usize].at;
        let exposed = |at: ruleshift_game::Cell| {
            before.on_table().any(|(_, unit)| {
                let sure = ready.rules.sure_spotting(ready.arena.cover(at));
                let range = i32::from(unit.at.range(at));
                unit.side != side
                    && (range <= 1 || range <= sure && ready.arena.sight().sees(unit.at, at))
            })
        };
        while at != to {
            at = ready.paths.step(at, heading, Gait::Marker).expect("it went there").0;
            assert!(at == to || !exposed(at), "{event:?} went on from {at:?}");
        }
        stopped += u32::from(exposed(to));
    });
    assert!(stopped > 50, "{stopped}");
}

/// RULES 5.7: so does a unit's, whether it touches the marker or sees it close by.
#[test]
fn a_unit_stops_where_it_reveals_a_marker() {
    let (mut passed, mut stopped) = (0, 0);
    watch(120, |ready, before, event, _| {
        let Event::UnitMoved { unit, heading, to, .. } = *event else { return };
        let (side, mut at) = (before.units()[unit as usize].side, before.units()[unit as usize].at);
        let reveals = |at: ruleshift_game::Cell| {
            before.markers().iter().any(|marker| {
                let sure = ready.rules.sure_spotting(ready.arena.cover(marker.at));
                let range = i32::from(marker.at.range(at));
                let seen = || ready.arena.sight().sees(at, marker.at);
                marker.on_table && marker.side != side && (range <= 1 || range <= sure && seen())
            })
        };
        while at != to {
            at = ready.paths.step(at, heading, Gait::Foot).expect("it went there").0;
            assert!(at == to || !reveals(at), "{event:?} went on from {at:?}");
            passed += 1;
        }
        stopped += u32::from(reveals(to));
    });
    assert!(passed > 2_000 && stopped > 50, "{passed} squares, {stopped} stops");
}

/// RULES 6.1-6.3: who tries sees the marker; the number is that of range, cover and movement; a
/// roll that reaches it reveals, another does not.
#[test]
fn spotting_rolls_are_what_the_text_says() {
    let (mut tries, mut found) = (0, false);
    watch(120, |ready, before, event, _| {
        let revealed = matches!(event, Event::MarkerRevealed { cause: RevealCause::Spotted, .. });
        assert_eq!(revealed, found);
        found = false;
        let Event::SpotTried { unit, by, marker, rolled, needed } = *event else { return };
        let from = match (unit, by) {
            (Some(unit), None) => before.units()[unit as usize].at,
            (None, Some(by)) => before.markers()[by as usize].at,
            _ => panic!("either a unit or a marker tries"),
        };
        let target = &before.markers()[marker as usize];
        assert!(ready.arena.sight().sees(from, target.at) && target.on_table);
        let band = ready.rules.spot_band(from.range(target.at));
        let cover = ready.arena.cover(target.at);
        assert_eq!(i32::from(needed), ready.rules.spotting_number(band, cover, target.moved));
        (tries, found) = (tries + 1, rolled >= needed);
    });
    assert!(tries > 500, "{tries}");
}

/// RULES 4.2: markers that act are picked once on a card.
#[test]
fn a_marker_is_picked_once_on_a_card() {
    let mut moves = 0;
    ask(30, |view, choices| {
        for choice in choices {
            if let Choice::PickMarker(id) = *choice {
                moves += 1;
                let marker = view.own_marker(id).expect("a marker of one's own");
                assert!(!marker.picked && marker.on_table);
            }
        }
        if let Some(Mover::Marker(id)) = view.doing().moving.map(|moving| moving.mover) {
            assert!(view.doing().placing != 0 || view.own_marker(id).unwrap().picked);
        }
    });
    assert!(moves > 500, "{moves}");
}
