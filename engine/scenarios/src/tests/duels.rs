//! Who goes through whose armour, against orderings worked out from published tables.
//!
//! Sources, from memory unless a row of the armoury says it was read: national firing tables for
//! guns, published armour tables for vehicles, plate divided by the cosine of its slope. The
//! comparison is crude, within 10 %, so "marginal" means within 10 % either way.

use crate::library::armoury;

/// 100 m and 500 m in inches of the table.
const NEAR: u8 = 11;
const MIDDLE: u8 = 55;

/// Plate along the line of fire, in millimetres, that a gun goes through at some inches.
fn reach(gun: &str, range: u8) -> i32 {
    let entry = armoury().guns.iter().find(|entry| entry.name == gun);
    entry.unwrap_or_else(|| panic!("no gun {gun}")).gun().reach(range).into()
}

/// The same at 1000 m, which is beyond the table: a plate at 30 degrees is 1.155 times as thick
/// along the line of fire.
fn far(gun: &str) -> i32 {
    let entry = armoury().guns.iter().find(|entry| entry.name == gun).unwrap();
    i32::from(entry.penetration[2]) * 1155 / 1000
}

fn armour(vehicle: &str) -> [i32; 3] {
    let class = armoury().vehicles.iter().find(|class| class.name == vehicle);
    class.unwrap_or_else(|| panic!("no vehicle {vehicle}")).armour.map(i32::from)
}

fn front(vehicle: &str) -> i32 {
    armour(vehicle)[0]
}

fn flank(vehicle: &str) -> i32 {
    armour(vehicle)[1]
}

fn marginal(penetration: i32, plate: i32) -> bool {
    10 * (penetration - plate).abs() <= plate
}

/// Turret front of the Pz IV: 50 mm, read in published armour tables.
const PZ_IV_TURRET: i32 = 50;

/// US firing tables for the 75 mm M3 (from memory); Tiger hull front 101 and Panther hull front
/// 139.
#[test]
fn the_75_mm_m3_does_not_defeat_heavy_fronts() {
    for vehicle in ["Tiger I", "Panther G"] {
        assert!(reach("75 mm M3", NEAR) < front(vehicle), "{vehicle}");
        assert!(!marginal(reach("75 mm M3", NEAR), front(vehicle)), "{vehicle}");
    }
}

/// The same gun against the Pz IV: hull front 81, turret front 50, both read.
#[test]
fn the_75_mm_m3_is_marginal_against_the_hull_of_the_pz_iv_and_defeats_its_turret() {
    assert!(marginal(reach("75 mm M3", MIDDLE), front("Pz IV late")));
    assert!(marginal(reach("75 mm M3", NEAR), front("Pz IV late")));
    assert!(reach("75 mm M3", MIDDLE) > PZ_IV_TURRET);
}

/// The same gun against flanks at 500 m; the Tiger's is 80, from memory.
#[test]
fn the_75_mm_m3_defeats_the_flanks_of_medium_tanks_and_hardly_that_of_the_tiger() {
    for vehicle in ["M4 medium tank", "Cromwell", "Pz IV late", "Panther G", "T-34/85"] {
        assert!(reach("75 mm M3", MIDDLE) > flank(vehicle), "{vehicle}");
    }
    assert!(marginal(reach("75 mm M3", MIDDLE), flank("Tiger I")));
}

/// German firing tables, 96 mm at 500 m and 85 mm at 1000 m (from memory); fronts of 90 to 92.
#[test]
fn the_long_7_5_cm_guns_defeat_medium_fronts_at_500_m_and_only_just_at_1000() {
    for gun in ["7.5 cm L/48", "7.5 cm L/46 anti-tank gun"] {
        for vehicle in ["M4 medium tank", "M4 medium tank, 76 mm", "T-34/85"] {
            assert!(reach(gun, MIDDLE) > front(vehicle), "{gun}, {vehicle}");
            assert!(!marginal(reach(gun, MIDDLE), front(vehicle)), "{gun}, {vehicle}");
            assert!(far(gun) > front(vehicle), "{gun}, {vehicle}");
            assert!(marginal(far(gun), front(vehicle)), "{gun}, {vehicle}");
        }
    }
}

/// German firing tables, 100 and 111 mm at 1000 m (from memory).
#[test]
fn the_8_8_cm_and_the_longest_7_5_cm_defeat_medium_fronts_at_1000_m() {
    for gun in ["8.8 cm L/56", "7.5 cm L/70"] {
        for vehicle in ["M4 medium tank", "M4 medium tank, 76 mm", "T-34/85"] {
            assert!(far(gun) > front(vehicle), "{gun}, {vehicle}");
            assert!(!marginal(far(gun), front(vehicle)), "{gun}, {vehicle}");
        }
    }
}

/// British firing tables, 140 mm at 500 m (from memory); Panther hull front 80 mm at 55 degrees,
/// read. Field reports are less kind than the tables.
#[test]
fn the_17_pounder_defeats_the_panther_on_paper() {
    assert!(reach("17-pounder", MIDDLE) > front("Panther G"));
}

#[test]
fn flank_and_rear_are_easier_than_the_front() {
    for class in armoury().vehicles.iter().filter(|class| class.armour != [0; 3]) {
        let [front, flank, rear] = class.armour;
        assert!(flank < front && rear <= flank, "{}", class.name);
    }
}

#[test]
fn guns_lose_by_range_and_shaped_charges_do_not() {
    for gun in &armoury().guns {
        let [near, middle, far] = gun.penetration;
        let falls = if gun.shaped { near == far } else { near > middle && middle > far };
        assert!(falls, "{}", gun.name);
    }
}

#[test]
fn every_vehicle_names_a_gun_that_exists_and_has_a_crew() {
    for class in &armoury().vehicles {
        assert!((1..=13).contains(&class.crew), "{}", class.name);
        assert!(class.kind.is_vehicle(), "{}", class.name);
        let found = class.gun.as_ref().map(|gun| armoury().gun(gun, false).is_ok());
        assert_eq!(found, (!class.kind.carries()).then_some(true), "{}", class.name);
    }
}
