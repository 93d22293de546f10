//! The table of weapons against the base rules.

use ruleshift_game::{Kind, Rules};

use crate::weapons::weapons;

/// Longest range of the table in inches, from corner to corner.
const MOST: u8 = 86;

#[test]
fn every_kind_has_its_row() {
    let kinds: Vec<Kind> = weapons().fire.iter().map(|row| row.kind).collect();
    assert_eq!(kinds, Kind::ALL);
}

#[test]
fn bands_are_those_of_the_base_rules() {
    let rules = Rules::base();
    for row in &weapons().fire {
        for range in 0..=MOST {
            let inches = i32::from(range);
            let band = row.bands.map_or(3, |bands| {
                let beyond = bands.iter().filter(|&&end| inches > end).count() as i32;
                if inches < row.least { 3 } else { beyond }
            });
            assert_eq!(rules.range_band(row.kind, range), band, "{} at {range} in", row.kind);
        }
    }
}

#[test]
fn dice_of_a_full_crew_are_those_of_the_base_rules() {
    let rules = Rules::base();
    for row in &weapons().fire {
        let men = u8::try_from(row.men).unwrap();
        assert_eq!(rules.fire_dice(row.kind, men, 0), row.dice, "{}", row.kind);
    }
}

#[test]
fn plate_in_close_assault_is_that_of_the_base_rules() {
    let rules = Rules::base();
    for &kind in Kind::ALL {
        let row = weapons().assault.iter().find(|row| row.kind == kind);
        let penetration = row.map_or(0, |row| row.penetration);
        assert_eq!(rules.assault_penetration(kind), penetration, "{kind}");
    }
}
