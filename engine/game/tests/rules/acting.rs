//! Section 5: actions and moving.

use ruleshift_game::{Choice, Event, Gait, Hook, Kind, Mover, Paths, View};

use crate::support::{Ready, ask, skirmish, watch, watch_scene};

/// RULES 5.1, 4.9: actions by kind, quality, strength and pins, less those used as a marker.
#[test]
fn actions_are_counted_when_the_activation_begins() {
    let (mut whole, mut carried) = (0, 0);
    watch(80, |ready, _, event, now| {
        if let Event::UnitActivated { unit, actions } = *event {
            let unit = &now.units()[unit as usize];
            let quarters = (4 * u32::from(unit.men)).div_ceil(unit.first_men.into()) as i32;
            let mut expected =
                ready.rules.unit_actions(unit.kind, unit.quality, quarters, unit.pins);
            let group = &now.groups()[unit.group as usize];
            if group.placed_in == now.turn() {
                expected -= ready.rules.actions_carried(group.used);
                carried += usize::from(group.used > 0);
            }
            whole += 1;
            assert_eq!(i32::from(actions), expected.max(0));
        }
    });
    assert!(whole > 1_000 && carried > 20, "{whole} activations, {carried} after a marker's");
}

/// RULES 5.1: a regular section of ten has three actions, at half strength two.
#[test]
fn half_strength_costs_an_action() {
    let rules = skirmish().rules;
    let actions = |men: u8| {
        let quarters = i32::from((4 * men).div_ceil(10));
        rules.unit_actions(Kind::Section, ruleshift_game::Quality::Regular, quarters, 0)
    };
    assert_eq!([10, 6, 5, 1].map(actions), [3, 3, 2, 2]);
}

/// RULES 5.2: a suppressed unit may only rally, only a unit with pins may rally, and each shot is
/// one of those its kind is allowed.
#[test]
fn a_unit_is_offered_what_it_may_do() {
    let (mut asked, mut suppressed) = (0, 0);
    ask(80, |view, choices| {
        let doing = view.doing();
        let Some(id) = doing.unit.filter(|_| doing.placing == 0 && doing.moving.is_none()) else {
            return;
        };
        let unit = view.unit(id).expect("a unit of one's own");
        asked += 1;
        assert_eq!(choices.contains(&Choice::Rally), unit.pins > 0);
        if unit.suppressed(view.rules()) {
            suppressed += 1;
            assert_eq!(choices, [Choice::Done, Choice::Rally]);
        }
        let fires = choices.iter().any(|choice| matches!(choice, Choice::Fire(_)));
        assert!(!fires || unit.shots > 0);
        assert!(i32::from(unit.shots) <= view.rules().shots_allowed(unit.kind));
        assert!(unit.actions > 0);
    });
    assert!(asked > 2_000 && suppressed > 20, "{asked} asked, {suppressed} of them suppressed");
}

/// RULES 5.2: nobody fires more often in one activation than his kind may.
#[test]
fn shots_are_limited() {
    let mut shots = [0; 96];
    let mut twice = 0;
    watch(80, |ready, _, event, now| match *event {
        Event::UnitActivated { unit, .. } => shots[unit as usize] = 0,
        Event::OrderGiven { unit, .. } => {
            let kind = now.units()[unit as usize].kind;
            shots[unit as usize] = ready.rules.shots_allowed(kind) - 1;
        }
        Event::Fired { unit, blast: false, late: false, .. } => {
            shots[unit as usize] += 1;
            let kind = now.units()[unit as usize].kind;
            assert!(shots[unit as usize] <= ready.rules.shots_allowed(kind), "{kind}");
            twice += u32::from(shots[unit as usize] == 2);
        }
        _ => {}
    });
    assert!(twice > 20, "{twice}");
}

/// RULES 5.3, 5.4: one die, a leader two; pins shorten the move.
#[test]
fn moves_are_as_long_as_dice_and_pins_allow() {
    let (mut moves, mut most) = (0, [0; Kind::ALL.len()]);
    watch(80, |_, _, event, now| {
        if let Event::UnitMoved { unit, inches, .. } = *event {
            let unit = &now.units()[unit as usize];
            let dice = 1 + u8::from(unit.kind == Kind::Leader);
            assert!(i32::from(inches) <= i32::from(6 * dice) - i32::from(unit.pins / 2));
            assert!(inches >= dice || unit.pins > 1, "{inches} in, {} pins", unit.pins);
            let longest = &mut most[unit.kind as usize];
            *longest = inches.max(*longest);
            moves += 1;
            assert!(unit.moved);
        }
    });
    assert!(moves > 1_000, "{moves}");
    assert_eq!(most[Kind::Section as usize], 6);
    assert!(most[Kind::Leader as usize] > 6);
}

/// RULES 5.3, 5.4: the hooks give the dice and the length.
#[test]
fn moves_follow_their_hooks() {
    let scene = skirmish()
        .rule(Hook::MoveDice, |_, _| 4)
        .rule(Hook::PinnedMove, |_, args| if args[1] > 0 { 1 } else { 9 });
    let mut seen = [0; 2];
    watch_scene(scene, 10, |_, _, event, now| {
        if let Event::UnitMoved { unit, inches, .. } = *event {
            let pinned = now.units()[unit as usize].pins > 0;
            assert_eq!(inches, if pinned { 1 } else { 9 });
            seen[usize::from(pinned)] += 1;
        }
    });
    assert!(seen[0] > 100 && seen[1] > 20, "{seen:?}");
}

/// RULES 5.5: every square of a move is paid for out of the roll.
#[test]
fn every_square_is_paid_for() {
    let mut moved = 0;
    watch(80, |ready, before, event, _| {
        let (from, heading, inches, to, gait) = match *event {
            Event::UnitMoved { unit, heading, inches, to } => {
                let unit = &before.units()[unit as usize];
                (unit.at, heading, inches, to, Gait::of(unit.kind))
            }
            Event::MarkerMoved { marker, heading, inches, to } => {
                (before.markers()[marker as usize].at, heading, inches, to, Gait::Marker)
            }
            _ => return,
        };
        let (mut at, mut left) = (from, 100 * i32::from(inches));
        while at != to {
            let (next, cost) = ready.paths.step(at, heading, gait).expect("it got there");
            (at, left) = (next, left - i32::from(cost));
        }
        assert!(left >= 0, "{event:?} from {from:?}");
        moved += 1;
    });
    assert!(moved > 2_000, "{moved}");
}

fn stop(view: &View<'_>, paths: &Paths, steps: u8) -> (ruleshift_game::Cell, Mover) {
    let moving = view.doing().moving.expect("a move is under way");
    let (mut at, gait) = match moving.mover {
        Mover::Unit(id) => {
            let unit = view.unit(id).unwrap();
            (unit.at, Gait::of(unit.kind))
        }
        Mover::Marker(id) => (view.own_marker(id).unwrap().at, Gait::Marker),
    };
    for _ in 0..steps {
        at = paths.step(at, moving.heading, gait).expect("it is offered").0;
    }
    (at, moving.mover)
}

/// RULES 1.6, 5.5, 5.6: no stop is offered in a taken square, leaders apart, nor in touch with the
/// enemy.
#[test]
fn stops_are_free_and_out_of_touch() {
    let Ready { paths, .. } = skirmish().ready();
    let (mut stops, mut left_out) = (0, 0);
    ask(80, |view, choices| {
        for &choice in choices {
            let Choice::Stop(steps) = choice else { continue };
            let (at, Mover::Unit(id)) = stop(view, &paths, steps) else { continue };
            let mover = view.unit(id).unwrap();
            let others = || view.own_units().chain(view.enemy_units()).filter(|&(o, _)| o != id);
            let taken = others().any(|(_, u)| u.at == at && u.kind != Kind::Leader);
            stops += 1;
            assert!(!taken || mover.kind == Kind::Leader);
            assert!(view.enemy_units().all(|(_, enemy)| enemy.at.range(at) > 1));
        }
        let most = |n: &Choice| if let Choice::Stop(n) = n { *n } else { 0 };
        let most = choices.iter().map(most).max().unwrap_or(0);
        left_out += u32::from(usize::from(most) > choices.len());
    });
    assert!(stops > 2_000 && left_out > 10, "{stops} stops, {left_out} moves past a taken square");
}
