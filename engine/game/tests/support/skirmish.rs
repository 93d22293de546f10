//! A small fight in mixed ground that has some of everything, played many times at random.

use std::cell::RefCell;

use ruleshift_game::luck::Stream;
use ruleshift_game::{Choice, Event, Ground, Kind, Player, Quality, Side, State, View};

use super::{By, Lively, Ready, Scene, Watch, leader, unit};

/// Where the sides start: their first column.
const TABLE_SIDES: [u8; 2] = [18, 38];

/// Two groups and two dummies a side, within reach of each other.
pub(crate) fn skirmish() -> Scene {
    let mut scene = Scene::new().no_objective();
    let mut luck = Stream::new(11);
    for patch in 0..40 {
        let kind = Ground::ALL[patch % Ground::ALL.len()];
        let (x, y) = (luck.below(60) as u8, luck.below(40) as u8);
        let (wide, high) = (1 + luck.below(6) as u8, 1 + luck.below(6) as u8);
        scene = scene.ground(kind, x..x + wide, y..y + high);
    }
    for (&side, x) in Side::ALL.iter().zip(TABLE_SIDES) {
        let mut green = unit(Kind::Section, 9);
        green.quality = Quality::Green;
        let mut veteran = unit(Kind::Section, 7);
        veteran.quality = Quality::Veteran;
        scene = scene
            .group(side, (x, 16), &[leader(2), unit(Kind::Section, 10), green, veteran])
            .group(
                side,
                (x + 4, 24),
                &[
                    unit(Kind::TripodGun, 4),
                    leader(1),
                    unit(Kind::LightMortar, 3),
                    unit(Kind::LightGun, 2),
                ],
            )
            .dummy(side, (x, 32))
            .dummy(side, (x + 5, 10))
            .break_point(side, 45);
    }
    scene
        .objective((30, 24), [1, 1], [4, 4], None)
        .objective((40, 16), [0, 1], [3, 5], Some(Side::Defender))
        .turns(10)
}

/// Plays the skirmish under the base rules with these seeds and shows every event.
pub(crate) fn watch(games: u64, check: impl FnMut(&Ready, &State, &Event, &State)) {
    watch_scene(skirmish(), games, check);
}

/// Plays a scene at random with the seeds from 0 and shows every event.
pub(crate) fn watch_scene(
    scene: Scene,
    games: u64,
    mut check: impl FnMut(&Ready, &State, &Event, &State),
) {
    let ready = scene.ready();
    for seed in 0..games {
        let check = |before: &State, event: &Event, now: &State| check(&ready, before, event, now);
        let (mut attacker, mut defender) = (Lively::new(seed), Lively::new(seed + 1_000_000));
        let mut watch = Watch { before: None, check };
        ready.play(seed, &mut attacker, &mut defender, &mut watch);
    }
}

/// Plays the skirmish at random with the seeds from 0 and shows every question put to a player.
pub(crate) fn ask(games: u64, check: impl FnMut(&View<'_>, &[Choice])) {
    ask_scene(skirmish(), games, check);
}

/// Plays a scene at random with the seeds from 0 and shows every question put to a player.
pub(crate) fn ask_scene(scene: Scene, games: u64, check: impl FnMut(&View<'_>, &[Choice])) {
    ask_ready(&scene.ready(), games, check);
}

/// The same for a scene that is ready.
pub(crate) fn ask_ready(ready: &Ready, games: u64, check: impl FnMut(&View<'_>, &[Choice])) {
    let check = RefCell::new(check);
    for seed in 0..games {
        let asked = |mut player: Lively| {
            let check = &check;
            By(move |view: &View<'_>, choices: &[Choice]| {
                (check.borrow_mut())(view, choices);
                player.choose(view, choices)
            })
        };
        let (mut attacker, mut defender) =
            (asked(Lively::new(seed)), asked(Lively::new(seed + 1_000_000)));
        ready.play(seed, &mut attacker, &mut defender, &mut ());
    }
}
