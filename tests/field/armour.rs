//! Guns and plate as the armoury has them, against orderings of published tables.

use ruleshift_game::{Gun, Kind, Rules};
use ruleshift_scenarios::{GunEntry, VehicleClass, armoury};

use super::table::{Row, row};

fn entry(name: &str) -> &'static GunEntry {
    let found = armoury().guns.iter().find(|gun| gun.name == name);
    found.unwrap_or_else(|| panic!("no gun {name}"))
}

/// A gun of the armoury.
pub(super) fn gun(name: &str) -> Gun {
    entry(name).gun()
}

/// Armour of a vehicle: front, flank, rear.
pub(super) fn plate(name: &str) -> [u8; 3] {
    let found = armoury().vehicles.iter().find(|class| class.name == name);
    found.unwrap_or_else(|| panic!("no vehicle {name}")).armour
}

/// Millimetres a gun goes through over those in its way; 11 in are 100 m, 55 in 500 m, and 1000 m
/// is beyond the table.
fn over(gun: &str, metres: u32, plate: u8) -> f64 {
    let entry = entry(gun);
    let reach = match metres {
        100 => entry.gun().reach(11),
        500 => entry.gun().reach(55),
        // Plate at 30 degrees is thicker along the line of fire by 1 / cos 30.
        _ => entry.penetration[2] * 11 / 10,
    };
    f64::from(reach) / f64::from(plate)
}

/// The farthest that a kind reaches by the base rules.
fn reach(kind: Kind) -> f64 {
    let rules = Rules::base();
    let inside = (1..=86u8).filter(|&range| rules.range_band(kind, range) < 3);
    inside.max().map_or(0.0, f64::from)
}

/// Row 40: a hand-held anti-tank weapon does not reach as far as a rifle (a New Zealand newspaper
/// of 16 Mar 1944 and a German broadcaster, 2021: hits at 60 to 100 yd, S; a rifle's useful 300
/// yd, M).
#[test]
fn hand_held_weapons_reach_less_far_than_rifles() {
    assert!(reach(Kind::AntiTankTeam) < reach(Kind::Section));
}

/// What a comparison of gun and plate must give: below, within a tenth, above.
const FAILS: (f64, f64) = (0.0, 0.9);
const MARGINAL: (f64, f64) = (0.9, 1.1);
const DEFEATS: (f64, f64) = (1.0, 9.0);

/// Gun, metres, vehicle, face, and what must come of it.
type Duel = (&'static str, u32, &'static str, usize, (f64, f64));

const DUELS: [Duel; 14] = [
    ("75 mm M3", 100, "Tiger I", 0, FAILS),
    ("75 mm M3", 100, "Panther G", 0, FAILS),
    ("75 mm M3", 500, "Pz IV late", 0, MARGINAL),
    ("75 mm M3", 500, "Pz IV late", 1, DEFEATS),
    ("75 mm M3", 500, "Panther G", 1, DEFEATS),
    ("75 mm M3", 500, "T-34/85", 1, DEFEATS),
    ("75 mm M3", 500, "Tiger I", 1, MARGINAL),
    ("7.5 cm L/48", 500, "M4 medium tank", 0, DEFEATS),
    ("7.5 cm L/48", 500, "T-34/85", 0, DEFEATS),
    ("7.5 cm L/48", 1000, "M4 medium tank", 0, MARGINAL),
    ("8.8 cm L/56", 1000, "M4 medium tank", 0, DEFEATS),
    ("8.8 cm L/56", 1000, "T-34/85", 0, DEFEATS),
    ("7.5 cm L/70", 1000, "T-34/85", 0, DEFEATS),
    ("17-pounder", 500, "Panther G", 0, DEFEATS),
];

fn share(parts: impl Iterator<Item = bool>) -> f64 {
    let all: Vec<bool> = parts.collect();
    all.iter().filter(|yes| **yes).count() as f64 / all.len() as f64
}

pub(super) fn rows() -> Vec<Row> {
    let armoured = armoury().vehicles.iter().filter(|class: &&VehicleClass| class.armour[0] > 0);
    let thinner = share(armoured.map(|class| class.armour[1] < class.armour[0]));
    let shot = armoury().guns.iter().filter(|gun| !gun.shaped);
    let falls = share(shot.map(|gun| gun.penetration.is_sorted_by(|near, far| near > far)));
    let hand = reach(Kind::AntiTankTeam);
    let tables = "armour and firing tables, M";
    let mut rows = vec![
        row(40, "hand-held anti-tank range, in", hand, (6.0, 10.0), "newspaper 1944, S"),
        row(40, "the same / a section's range", hand / reach(Kind::Section), (0.0, 0.99), "S / M"),
        row(41, "vehicles whose flank is thinner", thinner, (1.0, 1.0), tables),
        row(41, "guns whose shot loses by range", falls, (1.0, 1.0), tables),
    ];
    for (gun, metres, vehicle, face, range) in DUELS {
        let what = format!("{gun}, {metres} m, {vehicle} {}", ["front", "flank"][face]);
        rows.push(row(42, what, over(gun, metres, plate(vehicle)[face]), range, "C of M"));
    }
    rows
}
