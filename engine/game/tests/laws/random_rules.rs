//! Games under random tables of rules.

use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use ruleshift_game::limits::MAX_TURNS;
use ruleshift_game::luck::{Stream, finalise};
use ruleshift_game::{Cell, Hook, Kind, Player, Quality, Rules, Side};

use super::conservation::Laws;
use crate::support::{Lively, Ready, Scene, leader, skirmish, unit};

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

/// A random small force on random ground.
fn scene(seed: u64) -> Scene {
    let mut luck = Stream::new(seed);
    let mut scene = Scene { setup: skirmish().setup, rules: Rules::base() };
    scene.setup.turn_limit = 1 + luck.below(12) as u8;
    scene.setup.sides.0.iter_mut().for_each(|side| {
        side.groups.clear();
        side.spots.clear();
        side.dummies = luck.below(4) as u8;
        side.break_point = 1 + luck.below(100) as u8;
        side.points = luck.below(21) as i16 - 10;
    });
    for &side in Side::ALL {
        for _ in 0..1 + luck.below(3) {
            let mut units = vec![];
            for _ in 0..1 + luck.below(4) {
                let kind = Kind::ALL[luck.below(5) as usize];
                let mut one = if kind == Kind::Leader {
                    leader(1 + luck.below(3) as u8)
                } else {
                    unit(kind, 1 + luck.below(13) as u8)
                };
                one.quality = Quality::ALL[luck.below(3) as usize];
                units.push(one);
            }
            let at = (luck.below(72) as u8, luck.below(48) as u8);
            scene = scene.group(side, at, &units);
        }
        for _ in 0..luck.below(5) {
            let spot = Cell { x: luck.below(72) as u8, y: luck.below(48) as u8 };
            scene.setup.sides[side].spots.push(spot);
        }
    }
    scene
}

/// Chooses uniformly.
struct Uniform(Stream);

impl Player for Uniform {
    fn choose(
        &mut self,
        _: &ruleshift_game::View<'_>,
        choices: &[ruleshift_game::Choice],
    ) -> usize {
        assert!(choices.len() >= 2, "a player is asked only when there is a choice");
        assert!(choices.iter().enumerate().all(|(n, choice)| !choices[..n].contains(choice)));
        self.0.below(choices.len() as u32) as usize
    }
}

/// Whatever the tables say, a game ends, breaks no law, and comes back with its seed. 300 random
/// sets of rules over 8 random scenes.
#[test]
fn games_end_and_keep_the_laws() {
    let scenes: Vec<Ready> = (0..8).map(|seed| scene(seed).ready()).collect();
    let config = ProptestConfig {
        cases: 300,
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
        let player = |n: u64| -> Box<dyn Player> {
            let stream = Stream::new(seed ^ n);
            if lively { Box::new(Lively(stream)) } else { Box::new(Uniform(stream)) }
        };
        let mut laws = Laws::default();
        let first = ready.play(seed, &mut *player(1), &mut *player(2), &mut laws);
        prop_assert!(laws.events > 0 && first.turns <= MAX_TURNS);
        let again = ready.play(seed, &mut *player(1), &mut *player(2), &mut ());
        prop_assert_eq!(first, again);
        Ok(())
    });
    checked.unwrap_or_else(|broken| panic!("{broken}"));
}

/// Every hook by itself, its table random, three games each.
#[test]
fn no_hook_alone_breaks_a_game() {
    let (base, mut events) = (skirmish().ready(), 0);
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
