//! No player knows what its side cannot see.
//!
//! At many moments of many games, what the enemy hides is exchanged for something else: which
//! group or dummy lies under which marker, and kinds, men and quality of hidden units. The moment
//! must offer the same choices, and every player must choose the same. (The idea of sampling
//! what a side cannot know: Cowling, Powley and Whitehouse, IEEE TCIAIG 4 (2012), 120-143.)

use ruleshift_game::{Game, Player, Side, State};
use ruleshift_players::Strategy;
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use crate::support::stage::{Stage, strategy};

const GAMES: u64 = 6;
/// Disguises tried at each moment.
const DISGUISES: u64 = 2;

fn hides(state: &State, side: Side) -> Vec<String> {
    let markers = state.markers().iter().filter(|m| m.side != side && m.on_table);
    let units = state.units().iter().filter(|u| u.side != side);
    let units = units.map(|u| format!("{:?} {} {:?}", u.kind, u.men, u.quality));
    markers.map(|m| format!("{:?}", m.group)).chain(units).collect()
}

/// Plays one game; at every moment the choice must be the same under each disguise. How often a
/// disguise did change what was hidden.
fn play(stage: &Stage, seed: u64, strategy: &Strategy) -> u32 {
    let player = || strategy.player(&stage.rules, None);
    let mut players = [player(), player()];
    let mut doubter = player();
    let (mut nobody, mut changed) = ((), 0);
    let mut game = Game::new(stage.table(), seed, None, &mut nobody);
    while let Some(side) = game.advance() {
        let choice = players[side as usize].choose(&game.view(side), game.choices());
        for disguise in 0..DISGUISES {
            let other = game.state().disguised(&stage.arena, side, seed << 8 | disguise);
            changed += u32::from(hides(&other, side) != hides(game.state(), side));
            same(&game, side, choice, other, stage, &mut *doubter);
        }
        game.apply(choice);
    }
    changed
}

fn same(
    game: &Game,
    side: Side,
    choice: usize,
    other: State,
    stage: &Stage,
    doubter: &mut dyn Player,
) {
    let mut nobody = ();
    let mut disguised = Game::resume(stage.table(), other, None, &mut nobody);
    assert_eq!(disguised.advance(), Some(side), "the same side is asked");
    assert_eq!(disguised.choices(), game.choices(), "the same is offered");
    let chosen = doubter.choose(&disguised.view(side), disguised.choices());
    let (turn, offered) = (game.state().turn(), game.choices());
    assert_eq!(
        chosen, choice,
        "turn {turn}, {side}: {:?} instead of {:?}",
        offered[chosen], offered[choice]
    );
}

#[test]
fn no_doctrine_reads_what_is_hidden() {
    for (scenario, _) in SCENARIOS {
        let stage = Stage::shipped(scenario);
        for doctrine in ruleshift_players::shipped() {
            let strategy = strategy(&doctrine.name);
            let changed: u32 = (0..GAMES).map(|seed| play(&stage, seed, &strategy)).sum();
            assert!(
                changed > 500,
                "{}: {changed} disguises put the matter to a test",
                doctrine.name
            );
        }
    }
}

/// The planner plays on from what it imagines, and must imagine no more than it knows.
#[test]
fn no_planner_reads_what_is_hidden() {
    for scenario in ["first-evening", "hasty-attack", "meeting-engagement"] {
        let stage = Stage::shipped(scenario);
        let changed = play(&stage, 1, &strategy("planner:playouts=8"));
        assert!(changed > 50, "{scenario}: {changed} disguises put the matter to a test");
    }
}

/// Without this, the test above could pass because a disguise changes nothing.
#[test]
fn a_disguise_changes_what_it_should_and_nothing_else() {
    let stage = Stage::shipped("hasty-attack");
    let mut nobody = ();
    let mut game = Game::new(stage.table(), 1, None, &mut nobody);
    let side = game.advance().expect("a game begins with a choice");
    let (state, other) = (*game.state(), game.state().disguised(&stage.arena, side, 5));
    assert_ne!(hides(&state, side), hides(&other, side), "the enemy's are others");
    assert_eq!(hides(&state, side.other()), hides(&other, side.other()), "its own are the same");
    let groups = |state: &State| {
        let mut groups: Vec<_> = state.markers().iter().map(|marker| marker.group).collect();
        groups.sort_unstable();
        groups
    };
    assert_eq!(groups(&state), groups(&other), "every group is still under one marker");
    let seen =
        |s: &State| s.markers().iter().map(|m| (m.at, m.on_table, m.moved)).collect::<Vec<_>>();
    assert_eq!(seen(&state), seen(&other), "no marker has moved");
}
