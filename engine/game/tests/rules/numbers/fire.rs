//! Readers of sections 7 and 8: fire.

use ruleshift_game::limits::MAX_RANGE;
use ruleshift_game::{Cover, Hook, Kind};

use super::deck::{kind, same};
use super::{HALF, Reader};

/// The bands of each kind by the farthest of each, and the nearest of mortars.
fn range_band(n: &[i32], args: &[i32]) -> i32 {
    let range = args[1];
    assert!(n.iter().all(|&farthest| farthest <= MAX_RANGE.into()), "beyond the table");
    let of = |first: usize| {
        let farthest = &n[first..first + 3];
        farthest.iter().filter(|&&farthest| range > farthest).count() as i32
    };
    match kind(args[0]) {
        Kind::Section => of(0),
        Kind::AssaultSection => of(3),
        Kind::LightGun => of(6),
        Kind::TripodGun => of(9),
        Kind::LightMortar if range < n[15] => 3,
        Kind::LightMortar => of(12),
        Kind::MediumMortar if range < n[19] => 3,
        Kind::MediumMortar => of(16),
        Kind::AntiTankTeam => of(20),
        Kind::FlameTeam => of(23),
        Kind::Leader | Kind::Observer => of(26),
        Kind::Tank | Kind::AssaultGun | Kind::AntiTankGun => of(29),
        Kind::Carrier => of(32),
        Kind::Truck => {
            assert_eq!(n[35], 0, "none");
            3
        }
        // Guns off the table reach all of it.
        Kind::Battery => 0,
    }
}

fn fire_dice(n: &[i32], args: &[i32]) -> i32 {
    let (men, pins) = (args[1], args[2]);
    let crewed = |dice: i32| dice - n[9] * (n[10] - men).max(0);
    let dice = match kind(args[0]) {
        Kind::Section => n[0] * ((men + n[1] - 1) / n[1]) + n[2],
        Kind::AssaultSection => (n[3] * men).min(n[4]),
        Kind::LightGun => crewed(n[5]),
        Kind::TripodGun => crewed(n[6]),
        Kind::MediumMortar => crewed(n[7]),
        Kind::AntiTankGun => crewed(n[8]),
        Kind::LightMortar => n[11],
        Kind::FlameTeam => n[12],
        Kind::Tank => n[13],
        Kind::AssaultGun => n[14],
        Kind::Carrier => n[15],
        Kind::Battery => n[16],
        Kind::Truck => {
            assert_eq!(n[17], 0, "none");
            return 0;
        }
        Kind::AntiTankTeam | Kind::Leader | Kind::Observer => n[18],
    };
    // An odd pin counts as a pair.
    (dice - n[19] * ((pins + n[20] - 1) / n[20])).max(0)
}

fn hit_number(n: &[i32], args: &[i32]) -> i32 {
    let (one, band) = (kind(args[0]), args[1] as usize);
    let mortar = matches!(one, Kind::LightMortar | Kind::MediumMortar);
    let first = match one {
        Kind::AssaultSection => 3,
        Kind::FlameTeam => 9,
        Kind::Battery => 12,
        _ if mortar => 6,
        _ => 0,
    };
    let heavy = mortar || matches!(one, Kind::TripodGun | Kind::AntiTankGun);
    let moved = if heavy { n[16] } else { n[15] };
    if band == 3 { 7 } else { (n[first + band] + args[2] * moved).min(7) }
}

fn hits_kept(n: &[i32], args: &[i32]) -> i32 {
    let (one, hits) = (kind(args[0]), args[2]);
    assert_eq!(n[1..], [HALF; 2]);
    let spared = matches!(one, Kind::Tank | Kind::AssaultGun | Kind::MediumMortar);
    match Cover::ALL[args[1] as usize] {
        _ if one == Kind::FlameTeam => hits,
        Cover::Hard if !spared => (hits - n[0]).max(0),
        Cover::DugIn => hits * n[1] / 100,
        _ => hits,
    }
}

/// Nothing, a pin or a loss by the dice for each: from, to.
fn effect(n: &[i32], args: &[i32]) -> i32 {
    let die = args[2];
    let open = args[1] == n[7] || kind(args[0]) == Kind::FlameTeam;
    let (pin, loss) = if open { (n[0]..=n[1], n[2]..=n[3]) } else { (n[4]..=n[5], n[6]..=n[6]) };
    let whole = [n[0], n[2], n[3], n[4], n[6]] == [1, n[1] + 1, 6, 1, n[5] + 1] && n[6] == 6;
    assert!(whole, "each number of a die does one thing");
    i32::from(pin.contains(&die)) + 2 * i32::from(loss.contains(&die))
}

pub(super) const READERS: &[Reader] = &[
    (
        Hook::RangeBand,
        "Section #, #, # in; assault section #, #, # in; light machine gun #, #, # in; tripod machine \
         gun #, #, # in; light mortar #, #, # in, not below # in; medium mortar #, #, # in, not below \
         # in; anti-tank team #, #, # in; flame team #, #, # in; leader and observer #, #, # in; \
         tank, assault gun and anti-tank gun #, #, # in; carrier #, #, # in; truck #.",
        range_band,
    ),
    (
        Hook::FireDice,
        "Section # for # men and # for its automatic weapon; assault section # for each man, at most \
         #; light machine gun #, tripod machine gun #, medium mortar #, anti-tank gun #, # less for \
         each man short of #; light mortar #; flame team #; tank #, assault gun #, carrier #; battery \
         #; truck #; others #; # less for every # pins.",
        fire_dice,
    ),
    (
        Hook::HitNumber,
        "#, #, # by band, out of range never; an assault section #, #, #; a mortar #, #, #; a flame \
         team #, #, #; a battery #, #, #; # more for a unit that moved, # more for a tripod, a mortar \
         or an anti-tank gun.",
        hit_number,
    ),
    (
        Hook::HitsKept,
        "All; against hard cover # less, but not of a tank, an assault gun or a medium mortar; \
         against troops dug in # of them, a started # left off; of a flame team always all.",
        hits_kept,
    ),
    (
        Hook::HitEffect,
        "No cover: #-# pin, #-# loss; any cover: #-# pin, # loss; to a flame team all cover is #.",
        effect,
    ),
    (
        Hook::BlastRadius,
        "# in for a light mortar, # in for a medium #, # in for a battery, # in for a tripod machine \
         gun, otherwise #.",
        |n, args| match kind(args[0]) {
            _ if n[2] != 1 => panic!("a medium one"),
            Kind::LightMortar => n[0],
            Kind::MediumMortar => n[1],
            Kind::Battery => n[3],
            Kind::TripodGun => n[4],
            _ => n[5],
        },
    ),
    (Hook::BlastDice, "As many; of a tripod machine gun #, a started # left off.", |n, args| {
        match kind(args[0]) {
            Kind::TripodGun if *n == [HALF; 2] => args[1] / 2,
            Kind::TripodGun => panic!("a half is a half"),
            _ => args[1],
        }
    }),
    (Hook::LateFireAllowed, "It may.", |_, _| 1),
    (Hook::LateFireDice, "As many as on its card.", same),
    // Said of nobody: a number in its place would be another rule.
    (Hook::MayHoldFire, "No #.", |n, _| n[0] - 1),
    (Hook::HeldFireDice, "As many as on its card.", same),
    (Hook::ShortageDice, "# of them, a started # counted whole.", |n, args| {
        assert_eq!(*n, [HALF; 2]);
        (args[0] + 1) / 2
    }),
];
