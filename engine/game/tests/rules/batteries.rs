//! Section 14: off-table fire.

use ruleshift_game::cell::CELLS;
use ruleshift_game::luck::Stream;
use ruleshift_game::{Cell, Choice, Event, Hook, Kind, Marker, Place, Side, State, Unit};

use crate::support::{Odds, Ready, Scene, Watch, battle, drill, fixed, unit, watch_scene};

/// RULES 14.1-14.4: every call is answered after its turn ends, as long as the battery has fire
/// left, on its card; one that was laid there is ready a turn end earlier.
#[test]
fn batteries_answer_when_they_are_ready() {
    let (mut calls, mut laid_calls, mut fires) = (0, 0, 0);
    // For each battery, the turn from which it may fire.
    let mut ready_in = [u16::MAX; 8];
    watch_scene(battle(), 200, |ready, before, event, now| match *event {
        Event::TurnStarted { turn: 1, .. } => ready_in = [u16::MAX; 8],
        Event::BatteryCalled { battery, by, at, smoke, wait } => {
            let (side, setup) = ready.arena.batteries().nth(battery.into()).unwrap();
            let laid = setup.registered.iter().any(|place| place.range(at) <= fixed::LAID);
            assert_eq!(wait, setup.response.saturating_sub(u8::from(laid)));
            assert!(!smoke || setup.smoke);
            let caller = &now.units()[by as usize];
            assert!(caller.side == side && matches!(caller.kind, Kind::Observer | Kind::Leader));
            assert!(suspected(ready, before, side.other()).contains(&at));
            let call = now.batteries()[battery as usize].call.unwrap();
            assert_eq!((call.adjusted, call.fired), (u8::from(laid), false));
            ready_in[battery as usize] = now.turn() + u16::from(wait);
            calls += 1;
            laid_calls += u32::from(laid);
        }
        Event::BatteryFired { battery, .. } => {
            assert!(now.turn() >= ready_in[battery as usize], "too early");
            let left = |state: &State| state.batteries()[battery as usize].missions;
            assert_eq!(left(now) + 1, left(before));
            fires += 1;
        }
        _ => {}
    });
    let seen = [calls, laid_calls, fires];
    assert!(seen.iter().all(|&n| n > 25), "calls, on laid squares, fires: {seen:?}");
}

/// RULES 14.2: squares of a side's units, of its markers that show, of its features that nobody has
/// searched.
fn suspected(ready: &Ready, state: &State, side: Side) -> Vec<Cell> {
    let units = state.on_table().filter(|(_, u)| u.side == side).map(|(_, u)| u.at);
    let markers = state.markers().iter().filter(|m| m.shows() && m.side == side).map(|m| m.at);
    let features = (0..).zip(&ready.arena.setup().sides[side].features);
    let features = features.filter(|(n, _)| !state.searched(side, *n)).map(|(_, f)| f.at);
    units.chain(markers).chain(features).collect()
}

/// An observer calls one battery again and again on a section that stands still.
fn shoot(smoke: bool, laid: &[(u8, u8)]) -> Scene {
    Scene::new()
        .stand(Side::Attacker, (10, 24), unit(Kind::Observer, 2))
        .stand(Side::Defender, (40, 24), unit(Kind::Section, 13))
        .battery(Side::Attacker, 0, 12, smoke, laid)
        .turns(14)
        .rule(Hook::BreakThreshold, |_, _| 60)
        .rule(Hook::SuppressionThreshold, |_, _| 60)
        .rule(Hook::SideTestNumber, |_, _| 2)
        .all_cards()
}

const SQUARES: [(u8, u8); 2] = [(10, 24), (40, 24)];

/// RULES 14.5, 14.6: a die says right, up, left or down, each once in six, or on target, twice in
/// six; astray by two dice, halved for each correction, each total as often as two dice make it.
#[test]
fn shells_scatter_as_dice_say() {
    let mut ways: [Odds; 5] = Default::default();
    let mut totals: [Odds; 13] = Default::default();
    let mut halved = 0;
    for laid in [false, true] {
        let ready = shoot(false, if laid { &SQUARES[1..] } else { &[] }).ready();
        for seed in 0..200 {
            let check = |before: &State, event: &Event, _: &State| {
                let Event::BatteryFired { aim, way, inches, at, .. } = *event else { return };
                let adjusted = before.batteries()[0].call.unwrap().adjusted;
                let place = way.map_or(4, |way| usize::from(way / 2));
                for (n, odds) in ways.iter_mut().enumerate() {
                    odds.add(n == place, if n == 4 { 2.0 } else { 1.0 } / 6.0);
                }
                let (dx, dy) = [(1, 0), (0, 1), (-1, 0), (0, -1), (0, 0)][place];
                assert_eq!(at, aim.step(dx * i32::from(inches), dy * i32::from(inches)));
                if way.is_none() {
                    assert_eq!(inches, 0);
                } else if adjusted == 0 {
                    for (total, odds) in totals.iter_mut().enumerate().skip(2) {
                        let chance = (6 - total.abs_diff(7)) as f64 / 36.0;
                        odds.add(usize::from(inches) == total, chance);
                    }
                } else {
                    assert!(inches <= 12 >> adjusted, "{inches} in after {adjusted} corrections");
                    halved += 1;
                }
            };
            let mut caller = drill(&SQUARES, |view, choice| match choice {
                Choice::Call { .. } => Some(20),
                Choice::FireBattery => Some(10),
                Choice::Adjust(_) if laid && view.turn() > 4 => Some(30),
                _ => None,
            });
            let mut watch = Watch { before: None, check };
            let mut target = drill(&SQUARES, |_, _| None);
            ready.play(seed, &mut caller, &mut target, &mut watch);
        }
    }
    ways.iter().for_each(|odds| odds.hold(2_000));
    totals.iter().skip(2).for_each(|odds| odds.hold(500));
    assert!(halved > 500, "{halved}");
}

/// RULES 14.6, 14.7, 7.6: everyone within the radius of where the shells fall is fired at, friend
/// and foe, then troops hidden there, at the number of a battery, and nobody else.
#[test]
fn shells_strike_friend_and_foe() {
    let mut riding = vec![];
    let (mut due, mut friends, mut foes, mut under): (Vec<u8>, _, _, _) = (vec![], 0, 0, 0);
    let scene = battle().rule(Hook::ScatterInches, |now, _| now * 2);
    watch_scene(scene, 250, |ready, before, event, now| match *event {
        Event::BatteryFired { at, smoke, .. } => {
            assert!(due.is_empty());
            let Some(at) = at.filter(|_| !smoke) else { return };
            let radius = ready.rules.blast_radius(Kind::Battery);
            let near = |&(_, u): &(u8, &Unit)| i32::from(u.at.range(at)) <= radius;
            due = now.on_table().filter(near).map(|(id, _)| id).collect();
            riding = now.units().iter().map(|unit| unit.place == Place::Carried).collect();
            due.extend(hidden(now, at, radius));
            due.reverse();
        }
        Event::Shelled { battery, target, dice, needed, hits } => {
            // Riders whose vehicle was struck get out into the shells.
            if riding[target as usize] {
                return;
            }
            let next = std::iter::from_fn(|| due.pop()).find(|&id| there(before, id));
            assert_eq!(next, Some(target));
            assert_eq!(i32::from(dice), ready.rules.fire_dice(Kind::Battery, 1, 0));
            assert_eq!(i32::from(needed), ready.rules.hit_number(Kind::Battery, 0, false));
            assert!(hits <= dice && now.units()[target as usize].under_fire);
            let own = now.batteries()[battery as usize].side == now.units()[target as usize].side;
            friends += u32::from(own);
            foes += u32::from(!own);
            under += u32::from(now.units()[target as usize].place == Place::Hidden);
        }
        Event::CardDrawn { .. } | Event::LateFireBegan { .. } => {
            assert!(!due.iter().any(|&id| there(now, id)), "{due:?} were spared");
            due.clear();
        }
        _ => {}
    });
    let seen = [friends, foes, under];
    assert!(seen.iter().all(|&n| n > 20), "friends, foes, hidden: {seen:?}");
}

/// Whether a unit is where shells can find it.
fn there(state: &State, id: u8) -> bool {
    matches!(state.units()[id as usize].place, Place::Table | Place::Hidden)
}

/// Troops under markers within so many inches, in the order of the markers.
fn hidden(state: &State, at: Cell, radius: i32) -> Vec<u8> {
    let near = |m: &&Marker| m.on_table && i32::from(m.at.range(at)) <= radius;
    let groups = state.markers().iter().filter(near).filter_map(|m| m.group);
    let units = |group| (0u8..).zip(state.units()).filter(move |(_, u)| u.group == group);
    let under = |(id, unit): (u8, &Unit)| (unit.place == Place::Hidden).then_some(id);
    groups.flat_map(|group| units(group).filter_map(under)).collect()
}

/// RULES 14.6: a correction is for a call that was fired on, in sight of who corrects, and there
/// are at most six; each costs an action or an order.
#[test]
fn fire_is_corrected_six_times_at_most() {
    let record = shoot(false, &[]).turns(14).play(
        3,
        &mut drill(&SQUARES, |view, choice| match choice {
            Choice::Call { .. } if view.turn() == 2 => Some(20),
            Choice::FireBattery => Some(10),
            Choice::Adjust(_) => Some(30),
            _ => None,
        }),
        &mut drill(&SQUARES, |_, _| None),
    );
    let corrected: Vec<u8> = record
        .events()
        .filter_map(|event| match event {
            Event::BatteryAdjusted { adjusted, .. } => Some(adjusted),
            _ => None,
        })
        .collect();
    assert_eq!(corrected, (1..=fixed::CORRECTIONS).collect::<Vec<_>>());
    let mut before = None;
    for (event, now) in &record.0 {
        if let (Event::BatteryAdjusted { by, .. }, Some(was)) = (event, before) {
            let was: &State = was;
            let actions = |state: &State| state.units()[*by as usize].actions;
            assert_eq!(actions(was), actions(now) + 1);
            assert!(was.batteries()[0].call.is_some_and(|call| call.fired));
        }
        before = Some(now);
    }
}

/// RULES 14.8: the distance of a point from a line, by the formula of any textbook of geometry: the cross product over
/// the length, between the feet of the two ends, and else the distance to the nearer end.
#[test]
fn a_line_passes_what_geometry_says() {
    let (mut luck, mut passed) = (Stream::new(31), 0);
    for _ in 0..20_000 {
        let mut cell = || Cell::at(luck.below(CELLS as u32) as usize);
        let (from, to, centre) = (cell(), cell(), cell());
        let radius = 1 + luck.below(12) as u8;
        let apart =
            |a: Cell, b: Cell| (f64::from(b.x) - f64::from(a.x), f64::from(b.y) - f64::from(a.y));
        let ((dx, dy), (px, py)) = (apart(from, to), apart(from, centre));
        let (length, along) = (dx.hypot(dy), (px * dx + py * dy) / dx.hypot(dy));
        let distance = if along < 0.0 || length == 0.0 {
            px.hypot(py)
        } else if along > length {
            (px - dx).hypot(py - dy)
        } else {
            (px * dy - py * dx).abs() / length
        };
        // On the very edge, rounding would decide.
        if (distance - f64::from(radius)).abs() > 1e-9 {
            let near = distance < f64::from(radius);
            assert_eq!(
                from.line_passes(to, centre, radius),
                near,
                "{from:?} {to:?} {centre:?} {radius}"
            );
            passed += u32::from(near);
        }
    }
    assert!((2_000..18_000).contains(&passed), "{passed}");
}

/// RULES 14.8: a line that comes within 4 in of a screen's middle is blocked, unless the squares
/// are next to each other; the screen is gone after two turn ends.
#[test]
fn smoke_blocks_sight_and_clears() {
    let scene = shoot(true, &[]).rule(Hook::ScatterInches, |_, _| 0);
    let ready = scene.ready();
    let mut caller = drill(&SQUARES, |view, choice| match choice {
        Choice::Call { smoke: true, .. } if view.turn() == 3 => Some(20),
        Choice::FireBattery if view.turn() == 3 => Some(10),
        _ => None,
    });
    let (mut laid, mut gone, mut hidden) = (0, 0, 0);
    let check = |before: &State, event: &Event, now: &State| {
        laid += u16::from(before.screens().is_empty() && !now.screens().is_empty()) * now.turn();
        if let Event::TurnStarted { turn, .. } = *event {
            let there = !now.screens().is_empty();
            assert_eq!(there, turn == 4, "turn {turn}");
            gone += u32::from(turn == 5);
        }
        assert_eq!(
            now.clear_everywhere(),
            now.screens().is_empty(),
            "nothing but smoke is in the way"
        );
        if now.screens().is_empty() || !matches!(event, Event::TurnStarted { .. }) {
            return;
        }
        let middle = Cell { x: 40, y: 24 };
        assert_eq!(now.screens()[0].at, middle);
        for y in 0..48 {
            let (from, to) = (Cell { x: 20, y }, Cell { x: 60, y });
            assert_eq!(now.sees(&ready.arena, from, to), y.abs_diff(24) > 4, "row {y}");
            hidden += u32::from(y.abs_diff(24) <= 4);
        }
        let (near, far) = (Cell { x: 41, y: 24 }, Cell { x: 42, y: 24 });
        assert!(now.sees(&ready.arena, middle, near) && !now.sees(&ready.arena, middle, far));
    };
    let mut watch = Watch { before: None, check };
    ready.play(4, &mut caller, &mut drill(&SQUARES, |_, _| None), &mut watch);
    assert_eq!((laid, gone, hidden), (3, 1, 9));
}
