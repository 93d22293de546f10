//! A battle that has everything: each kind of unit and ground, guns, batteries, features,
//! reserves, mines, a way off the table.

use ruleshift_game::luck::Stream;
use ruleshift_game::{Ground, Kind, Quality, Side};

use super::forces::{PLATE, of, tank, vehicle, with_gun};
use super::{Scene, leader, unit};

/// Columns of the sides' first groups.
const COLUMNS: [u8; 2] = [22, 40];

/// A battle of both arms over ground that lots have put together.
pub(crate) fn battle() -> Scene {
    let mut scene = Scene::new().no_objective().gun([90, 70, 50], false).gun([110; 3], true);
    let mut luck = Stream::new(23);
    for patch in 0..48 {
        let kind = Ground::ALL[patch % Ground::ALL.len()];
        let (x, y) = (luck.below(60) as u8, luck.below(42) as u8);
        let (wide, high) = (1 + luck.below(6) as u8, 1 + luck.below(5) as u8);
        scene = scene.ground(kind, x..x + wide, y..y + high);
    }
    for (&side, x) in Side::ALL.iter().zip(COLUMNS) {
        scene = foot(scene, side, x);
        scene = wheels(scene, side, x);
        scene = secrets(scene, side, x);
    }
    scene
        .objective((32, 24), [1, 1], [4, 4], None)
        .objective((36, 10), [1, 1], [3, 3], Some(Side::Defender))
        .leaving([2, 1])
        .turns(10)
}

fn foot(scene: Scene, side: Side, x: u8) -> Scene {
    scene
        .group(
            side,
            (x, 14),
            &[
                leader(2),
                unit(Kind::Section, 10),
                of(Quality::Veteran, unit(Kind::AssaultSection, 9)),
                with_gun(1, unit(Kind::AntiTankTeam, 2)),
                unit(Kind::Observer, 2),
            ],
        )
        .group(
            side,
            (x, 34),
            &[
                of(Quality::Green, unit(Kind::Section, 8)),
                unit(Kind::FlameTeam, 2),
                unit(Kind::TripodGun, 5),
                unit(Kind::LightMortar, 3),
                leader(1),
            ],
        )
}

fn wheels(scene: Scene, side: Side, x: u8) -> Scene {
    scene
        .group(
            side,
            (x, 24),
            &[
                tank(),
                of(Quality::Veteran, vehicle(Kind::AssaultGun, 4, PLATE)),
                vehicle(Kind::Tank, 1, [60, 40, 0]),
            ],
        )
        .group(
            side,
            (x, 6),
            &[
                vehicle(Kind::Carrier, 2, [12, 10, 8]),
                unit(Kind::LightGun, 3),
                unit(Kind::Truck, 2),
                with_gun(0, unit(Kind::AntiTankGun, 5)),
                unit(Kind::Truck, 1),
                unit(Kind::Section, 7),
            ],
        )
}

fn secrets(scene: Scene, side: Side, x: u8) -> Scene {
    scene
        .dummy(side, (x, 42))
        .dummy(side, (x, 20))
        .feature(side, (x + 4, 20))
        .feature(side, (x + 4, 30))
        .feature(side, (x + 4, 40))
        .hidden(side, &[unit(Kind::Section, 8), unit(Kind::MediumMortar, 4)])
        .hidden(side, &[with_gun(0, unit(Kind::AntiTankGun, 4))])
        .reserve(side, 2, &[(x, 45), (x, 2)], &[leader(1), unit(Kind::Section, 9)])
        .battery(side, 1, 3, true, &[(32, 24)])
        .battery(side, 2, 2, false, &[])
        .break_point(side, 60)
}
