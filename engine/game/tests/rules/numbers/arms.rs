//! Readers of sections 12 to 16: close assault, vehicles, batteries, hidden troops, works.

use ruleshift_game::limits::MAX_PINS;
use ruleshift_game::{Cover, Damage, Face, Ground, Hook, Kind, Quality};

use super::Reader;
use super::deck::{alone, ground, kind, two_dice};

fn assault_dice(n: &[i32], args: &[i32]) -> i32 {
    let (men, pins) = (args[1], args[2]);
    let pairs = |dice: i32, of: i32| dice * ((men + of - 1) / of);
    let dice = match kind(args[0]) {
        Kind::Section => pairs(n[0], n[1]),
        Kind::AssaultSection => n[2] * men,
        Kind::Tank => n[3],
        Kind::AssaultGun | Kind::Carrier => n[4],
        Kind::Truck => return n[5],
        _ => pairs(n[6], n[7]),
    };
    (dice - n[8] * (pins / n[9])).max(n[10])
}

fn in_a_vehicle(n: &[i32], args: &[i32]) -> i32 {
    use Ground::*;
    match ground(args[0]) {
        Road | Bridge => n[0],
        Open | Hill | Crops | Minefield => n[1],
        Ford | Scrub | Wire => n[2],
        Hedge | Wall | Trench => n[3],
        Wood | Rubble | Stream => n[4],
        Building => 0,
    }
}

fn gun_hits(n: &[i32], args: &[i32]) -> i32 {
    let &[band, cover, moved, target_moved] = args else { unreachable!() };
    let cover = [0, n[3], n[4], n[4]][cover as usize];
    let number = n[band.min(2) as usize] + cover + n[5] * moved + n[6] * target_moved;
    if band == 3 { 13 } else { two_dice(number) }
}

fn face(n: &[i32], args: &[i32]) -> i32 {
    match args[0] {
        turns if turns <= n[0] => Face::Front as i32,
        turns if turns == n[1] => Face::Rear as i32,
        _ => Face::Flank as i32,
    }
}

fn penetration(n: &[i32], args: &[i32]) -> i32 {
    let margin = args[0];
    let better = n[0] - n[1] * (margin / n[2]);
    two_dice(if margin >= 0 { better } else { n[0] + n[3] * (-margin / n[4]) })
}

fn damage(n: &[i32], args: &[i32]) -> i32 {
    assert_eq!([n[0], n[1], n[3]], [1, n[2] - 1, 6], "each number of a die does one thing");
    let out = |die: i32| (n[2]..=n[3]).contains(&die);
    match args[0] {
        die if die == n[0] => Damage::Shaken as i32,
        die if die == n[1] => Damage::Immobile as i32,
        die if out(die) => Damage::KnockedOut as i32,
        die => panic!("nothing happens on {die}"),
    }
}

pub(super) const READERS: &[Reader] = &[
    (Hook::AssaultReach, "# in.", alone),
    (Hook::ChargeDice, "#.", alone),
    (Hook::SuppressedDifference, "#.", alone),
    (
        Hook::AssaultDice,
        "Section # for # men, assault section # for each man, tank #, assault gun or carrier #, truck \
         #, others # for # men; # less for every # pins, at least #.",
        assault_dice,
    ),
    (Hook::AssaultLed, "#.", alone),
    (Hook::AssaultNumber, "#; # for veterans.", |n, args| {
        n[usize::from(args[0] == Quality::Veteran as i32)]
    }),
    (Hook::AssaultRounds, "#; against hard cover or dug in, room by room, #.", |n, args| {
        n[usize::from(args[0] >= Cover::Hard as i32)]
    }),
    (Hook::Surrenders, "From a difference of #, or # without a leader near.", |n, args| {
        i32::from(args[0] >= if args[1] == 1 { n[0] } else { n[1] })
    }),
    (Hook::LoserPins, "# and the difference.", |n, args| (n[0] + args[0]).min(MAX_PINS.into())),
    (Hook::RetreatDistance, "# in.", alone),
    (
        Hook::AssaultPenetration,
        "A section, an assault section or a flame team #, an anti-tank team #, others #.",
        |n, args| match kind(args[0]) {
            Kind::Section | Kind::AssaultSection | Kind::FlameTeam => n[0],
            Kind::AntiTankTeam => n[1],
            _ => n[2],
        },
    ),
    (
        Hook::VehicleCost,
        "Road, bridge #; open, hill, crops, minefield #; ford, scrub, wire #; hedge, wall, trench #; \
         wood, rubble, stream #; a building not at all.",
        in_a_vehicle,
    ),
    (Hook::BogNumber, "Wood, stream, rubble, wall, trench #; otherwise never.", |n, args| {
        use Ground::{Rubble, Stream, Trench, Wall, Wood};
        let bad = [Wood, Stream, Rubble, Wall, Trench].contains(&ground(args[0]));
        if bad { n[0] } else { 0 }
    }),
    (Hook::BogFreeNumber, "#.", alone),
    (Hook::FireArc, "An assault gun or an anti-tank gun #, all others #.", |n, args| {
        n[usize::from(!matches!(kind(args[0]), Kind::AssaultGun | Kind::AntiTankGun))]
    }),
    (Hook::Capacity, "A carrier #, a truck #, others #.", |n, args| match kind(args[0]) {
        Kind::Carrier => n[0],
        Kind::Truck => n[1],
        _ => n[2],
    }),
    (Hook::MountingActions, "#; an anti-tank gun #.", |n, args| {
        n[usize::from(kind(args[0]) == Kind::AntiTankGun)]
    }),
    (
        Hook::GunHitNumber,
        "#, #, # by band, out of range never; # more in light cover, # more in hard or dug in, # more \
         if it has moved, # more if the target has.",
        gun_hits,
    ),
    (
        Hook::FaceStruck,
        "Up to # eighth of a turn off the front, # the rear, between them the flank.",
        face,
    ),
    (
        Hook::PenetrationNumber,
        "#; # less for every # mm that the gun is better, # more for every # mm that it is worse.",
        penetration,
    ),
    (
        Hook::HitDamage,
        "# the crew is shaken, # the vehicle is immobile, #-# it is knocked out.",
        damage,
    ),
    (Hook::ShakenPins, "#.", alone),
    (Hook::GlancingPins, "#.", alone),
    (Hook::WreckPins, "#.", alone),
    (
        Hook::ResponseTurns,
        "As the scenario lists; # less where it was laid before the game.",
        |n, args| (args[0] - n[0] * args[1]).max(0),
    ),
    (Hook::ScatterInches, "The roll, halved for each correction, parts left off.", |_, args| {
        (0..args[1]).fold(args[0], |inches, _| inches / 2)
    }),
    (Hook::SmokeRadius, "# in.", alone),
    (Hook::SmokeTurns, "#.", alone),
    (Hook::DigActions, "#.", alone),
    (Hook::MineNumber, "#.", alone),
    (Hook::ReserveNumber, "#, # less for each turn it has waited.", |n, args| {
        (n[0] - n[1] * args[0]).max(2)
    }),
];
