//! The made-up game on which scripts are tried before they are let into a real one.

use ruleshift_game::{EVENT_HOOKS, Happening, Kind, Place, Side, trial_handle, trial_happenings};

/// Scripts are tried on a made-up game: a leader and a section a side on the table, pinned differently, and one
/// section of each under a marker.
#[test]
fn the_made_up_game_has_something_of_everything() {
    let handle = trial_handle(Happening::TurnEnd { turn: 1 }, 0);
    assert_eq!((handle.unit_count(), handle.group_count(), handle.turn()), (6, 2, 1));
    let units: Vec<_> = (0..6).map(|id| *handle.unit(id).unwrap()).collect();
    let told = units.iter().map(|u| (u.side, u.group, u.kind == Kind::Leader, u.pins, u.place));
    let group = |side: Side, group| {
        [(true, 0, Place::Table), (false, 1, Place::Table), (false, 2, Place::Hidden)]
            .map(|(leads, pins, place)| (side, group, leads, pins, place))
    };
    assert!(told.eq(Side::ALL.iter().zip(0..).flat_map(|(&side, n)| group(side, n))));
    assert!(units.iter().all(|unit| (unit.kind == Kind::Leader) == (unit.grade == 1)));
    let die = |nth| trial_handle(Happening::TurnEnd { turn: 1 }, nth).roll();
    assert!((1..40).any(|nth| die(nth) != die(0)), "the dice of each are its own");
}

/// Every hook is tried on something that can happen, nobody fighting himself; of a script without cards, none of
/// its cards is drawn.
#[test]
fn every_hook_is_tried() {
    for (index, hook) in EVENT_HOOKS.iter().enumerate() {
        let tried = trial_happenings(index, 2);
        assert!(!tried.is_empty(), "{}", hook.name);
        assert!(tried.iter().all(|happening| happening.index() == index));
        let place = |name: &str| hook.args.iter().position(|arg| arg.name == name);
        if let (Some(unit), Some(target)) = (place("unit"), place("target")) {
            assert!(tried.iter().map(|h| h.arguments()).all(|told| told[unit] != told[target]));
        }
        let of_cards =
            hook.args.iter().any(|arg| arg.name == "card") && hook.name != "on_card_drawn";
        assert_eq!(trial_happenings(index, 0).is_empty(), of_cards, "{}", hook.name);
    }
}
