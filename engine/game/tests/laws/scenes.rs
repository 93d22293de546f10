//! Random scenes with everything a scenario may list.

use ruleshift_game::luck::Stream;
use ruleshift_game::{Kind, Quality, Rules, Side, UnitSetup};

use crate::support::{Scene, battle, leader, unit};

/// Kinds that may be units: all but the battery, the last.
const KINDS: u32 = Kind::ALL.len() as u32 - 1;

fn below(luck: &mut Stream, most: u32) -> u8 {
    luck.below(most) as u8
}

fn square(luck: &mut Stream) -> (u8, u8) {
    (below(luck, 72), below(luck, 48))
}

/// A square within a few inches of where the sides meet.
fn near(luck: &mut Stream) -> (u8, u8) {
    (24 + below(luck, 24), 12 + below(luck, 24))
}

/// A random unit: vehicles have armour or none, and anything may have a gun.
fn random_unit(luck: &mut Stream) -> UnitSetup {
    let kind = Kind::ALL[luck.below(KINDS) as usize];
    let mut one = match kind {
        Kind::Leader => leader(1 + below(luck, 3)),
        _ => unit(kind, 1 + below(luck, 13)),
    };
    one.quality = Quality::ALL[luck.below(3) as usize];
    if kind.is_vehicle() && luck.below(4) > 0 {
        one.armour = [10, 5, 1].map(|least| least + below(luck, 90));
    }
    let guns = matches!(kind, Kind::Tank | Kind::AssaultGun | Kind::AntiTankGun);
    if guns || kind == Kind::AntiTankTeam || luck.below(10) == 0 {
        one.gun = Some(below(luck, 2));
    }
    one
}

fn random_group(luck: &mut Stream) -> Vec<UnitSetup> {
    (0..1 + luck.below(4)).map(|_| random_unit(luck)).collect()
}

/// A random small force on random ground, with features, reserves, batteries and a way out.
pub(crate) fn scene(seed: u64) -> Scene {
    let mut luck = Stream::new(seed);
    let mut scene = Scene { setup: battle().setup, rules: Rules::base() };
    scene.setup.turn_limit = 1 + below(&mut luck, 12);
    for side in &mut scene.setup.sides.0 {
        (side.groups, side.spots, side.features) = (vec![], vec![], vec![]);
        side.batteries.clear();
        side.dummies = below(&mut luck, 4);
        side.break_point = 1 + below(&mut luck, 100);
        side.points = luck.below(21) as i16 - 10;
    }
    for objective in &mut scene.setup.objectives {
        objective.leaving.0 = [below(&mut luck, 4), below(&mut luck, 4)];
    }
    Side::ALL.iter().fold(scene, |scene, &side| force(scene, side, &mut luck))
}

fn force(mut scene: Scene, side: Side, luck: &mut Stream) -> Scene {
    let mounted = [unit(Kind::Truck, 2), unit(Kind::Section, 6), random_unit(luck)];
    scene = scene.group(side, near(luck), &mounted);
    for _ in 0..1 + luck.below(3) {
        let at = if luck.below(2) == 0 { near(luck) } else { square(luck) };
        scene = scene.group(side, at, &random_group(luck));
    }
    for _ in 0..luck.below(3) {
        scene = scene.feature(side, near(luck)).hidden(side, &random_group(luck));
    }
    for _ in 0..luck.below(2) {
        let entries = [square(luck), square(luck)];
        let turn = 1 + below(luck, 4);
        scene = scene.reserve(side, turn, &entries, &random_group(luck));
    }
    for _ in 0..luck.below(3) {
        let (response, missions) = (below(luck, 3), 1 + below(luck, 4));
        scene = scene.battery(side, response, missions, luck.below(2) == 0, &[near(luck)]);
    }
    for _ in 0..luck.below(5) {
        scene = scene.feature(side, near(luck));
        let (x, y) = square(luck);
        scene.setup.sides[side].spots.push(ruleshift_game::Cell { x, y });
    }
    scene
}
