//! Games under random tables of rules.

use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use ruleshift_game::limits::MAX_TURNS;
use ruleshift_game::luck::{Stream, finalise};
use ruleshift_game::{Choice, Hook, Player, Rules, View};

use super::conservation::Laws;
use super::legality::judge;
use super::scenes::scene;
use crate::support::{By, Lively, Ready, battle, skirmish};

/// A random in-range answer for every argument tuple of a hook.
fn scramble(rules: &mut Rules, hook: Hook, seed: u64) {
    let result = hook.spec().result;
    let answer = |_: i32, args: &[i32]| {
        let key = args.iter().fold(seed, |key, &arg| finalise(key ^ u64::from(arg as u32)));
        let pick = Stream::new(key).below(result.len() as u32) as i32;
        Ok::<_, ()>((result.lowest() + pick).into())
    };
    rules.change(hook, answer).expect("no error").expect("in range");
}

/// A player who has every question judged, and chooses livelily or evenly.
pub(crate) fn judged<'a>(ready: &'a Ready, seed: u64, lively: bool) -> impl Player + 'a {
    let (mut player, mut luck) = (Lively::new(seed), Stream::new(seed));
    By(move |view: &View<'_>, choices: &[Choice]| {
        judge(ready, view, choices);
        if lively {
            player.choose(view, choices)
        } else {
            luck.below(choices.len() as u32) as usize
        }
    })
}

/// Whatever the tables say, a game ends, breaks no law, and comes back with its seed. 400 random
/// sets of rules over 16 random scenes.
#[test]
fn games_end_and_keep_the_laws() {
    let scenes: Vec<Ready> = (0..16).map(|seed| scene(seed).ready()).collect();
    let config = ProptestConfig {
        cases: 400,
        rng_seed: RngSeed::Fixed(1944),
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    let changes = prop::collection::vec((0..Hook::ALL.len(), any::<u64>()), 0..30);
    let cases = (0..scenes.len(), any::<u64>(), changes, any::<bool>());
    let checked = TestRunner::new(config).run(&cases, |(place, seed, changes, lively)| {
        let mut rules = Rules::base();
        for (hook, seed) in changes {
            scramble(&mut rules, Hook::ALL[hook], seed);
        }
        let ready = scenes[place].under(rules);
        let player = |n: u64| judged(&ready, seed ^ n, lively);
        let mut laws = Laws::default();
        let first = ready.play(seed, &mut player(1), &mut player(2), &mut laws);
        prop_assert!(laws.events > 0 && first.turns <= MAX_TURNS);
        let again = ready.play(seed, &mut player(1), &mut player(2), &mut ());
        prop_assert_eq!(first, again);
        Ok(())
    });
    checked.unwrap_or_else(|broken| panic!("{broken}"));
}

/// Every hook by itself, its table random, three games each.
#[test]
fn no_hook_alone_breaks_a_game() {
    let (base, mut events) = (battle().ready(), 0);
    for (n, &hook) in (0u64..).zip(Hook::ALL) {
        let mut rules = Rules::base();
        scramble(&mut rules, hook, n);
        let ready = base.under(rules);
        for seed in 0..3 {
            let mut laws = Laws::default();
            let (mut attacker, mut defender) = (Lively::new(seed), Lively::new(seed + 9));
            ready.play(seed, &mut attacker, &mut defender, &mut laws);
            events += laws.events;
        }
    }
    assert!(events > 20_000, "{events}");
}

/// Under the base rules the random scenes keep the laws too, 20 games each.
#[test]
fn random_scenes_keep_the_laws() {
    let mut laws = Laws::default();
    for number in 0..16 {
        let ready = scene(number).ready();
        for seed in 0..20 {
            let player = |n| judged(&ready, seed + n, seed % 2 == 0);
            ready.play(seed, &mut player(1), &mut player(2), &mut laws);
        }
    }
    assert!(laws.events > 50_000 && laws.riding > 100, "{}, {}", laws.events, laws.riding);
}

/// Other seeds, other games; the same seed, the same game.
#[test]
fn seeds_tell_games_apart() {
    let ready = skirmish().ready();
    let digest = |seed| {
        let (mut attacker, mut defender) = (Lively::new(5), Lively::new(6));
        ready.play(seed, &mut attacker, &mut defender, &mut ()).digest
    };
    let digests: Vec<u64> = (0..50).map(digest).collect();
    for (n, one) in digests.iter().enumerate() {
        assert!(!digests[..n].contains(one), "seed {n}");
        assert_eq!(*one, digest(n as u64));
    }
}
