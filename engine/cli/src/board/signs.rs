//! The signs on the board, and the legend that explains them.

use ruleshift_game::{Ground, Kind, Side, Unit};

/// Widest line of the legend, in characters.
const COLUMNS: usize = 80;

pub(super) const OBJECTIVE: char = '*';
pub(super) const SMOKE: char = 'o';
pub(super) const MARKER: char = '?';
pub(super) const FEATURE: char = '\'';

/// The signs of a unit: its side, or that of a hole it is dug in, and its kind, which is in lower
/// case for the defender.
pub(super) fn unit_signs(unit: &Unit) -> [char; 2] {
    let sign = kind_sign(unit.kind);
    match (unit.side, unit.dug_in) {
        (Side::Attacker, false) => ['>', sign],
        (Side::Attacker, true) => [')', sign],
        (Side::Defender, false) => ['<', sign.to_ascii_lowercase()],
        (Side::Defender, true) => ['(', sign.to_ascii_lowercase()],
    }
}

/// The letter of a kind of unit.
pub(crate) fn kind_sign(kind: Kind) -> char {
    match kind {
        Kind::Section => 'S',
        Kind::AssaultSection => 'R',
        Kind::LightGun => 'G',
        Kind::TripodGun => 'T',
        Kind::LightMortar => 'M',
        Kind::MediumMortar => 'N',
        Kind::AntiTankTeam => 'P',
        Kind::FlameTeam => 'F',
        Kind::Leader => 'L',
        Kind::Observer => 'O',
        Kind::AntiTankGun => 'A',
        Kind::Tank => 'V',
        Kind::AssaultGun => 'W',
        Kind::Carrier => 'C',
        Kind::Truck => 'K',
        Kind::Battery => 'B',
    }
}

pub(super) fn ground_sign(ground: Ground) -> char {
    match ground {
        Ground::Open => '.',
        Ground::Road => '=',
        Ground::Crops => ',',
        Ground::Scrub => ';',
        Ground::Wood => '&',
        Ground::Hedge => '+',
        Ground::Wall => '#',
        Ground::Stream => '~',
        Ground::Ford => ':',
        Ground::Bridge => 'H',
        Ground::Building => 'B',
        Ground::Rubble => '%',
        Ground::Hill => '^',
        Ground::Trench => '_',
        Ground::Wire => 'x',
        Ground::Minefield => '!',
    }
}

/// What the signs mean, in lines of at most eighty characters.
pub(crate) fn legend() -> String {
    // A battery is off the table, so there is nothing to draw.
    let kinds = Kind::ALL.iter().filter(|&&kind| kind != Kind::Battery);
    let kinds = kinds.map(|&kind| format!("{} {kind}", kind_sign(kind)));
    let grounds = Ground::ALL.iter().map(|&ground| format!("{} {ground}", ground_sign(ground)));
    let objects = format!("Objectives: {OBJECTIVE}  Smoke: {SMOKE}  Markers: {MARKER}a and so on");
    let features = format!(
        "Features that may hide troops: {FEATURE}  the same with marker a in it: {FEATURE}a"
    );
    let sides = ["> before an attacker", "< before a defender, in lower case", ") and ( if dug in"];
    [
        paragraph("Sides:", sides.map(str::to_owned)),
        paragraph("Units:", kinds),
        paragraph("Ground:", grounds),
        objects,
        features,
    ]
    .join("\n")
}

/// A heading and its entries, broken between entries, later lines set in.
fn paragraph(heading: &str, entries: impl IntoIterator<Item = String>) -> String {
    let mut lines = vec![heading.to_owned()];
    for entry in entries {
        let last = lines.last_mut().expect("the heading is the first line");
        if last.chars().count() + 2 + entry.chars().count() > COLUMNS {
            lines.push(format!("  {entry}"));
        } else {
            let gap = if last.as_str() == heading { " " } else { "  " };
            last.push_str(gap);
            last.push_str(&entry);
        }
    }
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::trial::{ENEMY_SECTION, SECTION, start};

    #[test]
    fn a_unit_shows_its_side_its_kind_and_whether_it_is_dug_in() {
        let signs = |id: u8, dug_in| {
            let unit = start().units()[id as usize];
            String::from_iter(unit_signs(&Unit { dug_in, ..unit }))
        };
        assert_eq!([signs(SECTION, false), signs(SECTION, true)], [">S", ")S"]);
        assert_eq!([signs(ENEMY_SECTION, false), signs(ENEMY_SECTION, true)], ["<s", "(s"]);
    }

    #[test]
    fn every_kind_and_every_ground_has_its_own_sign() {
        let kinds: BTreeSet<char> = Kind::ALL.iter().map(|&kind| kind_sign(kind)).collect();
        assert_eq!(kinds.len(), Kind::ALL.len());
        // A defender's kinds are in lower case: none may be that already.
        assert!(kinds.iter().all(char::is_ascii_uppercase));
        let others = [OBJECTIVE, SMOKE, MARKER, FEATURE, '>', '<', '(', ')'];
        let grounds = Ground::ALL.iter().map(|&ground| ground_sign(ground));
        let signs: BTreeSet<char> = grounds.chain(others).collect();
        assert_eq!(signs.len(), Ground::ALL.len() + others.len());
    }

    #[test]
    fn the_legend_has_every_sign_and_fits_the_terminal() {
        let legend = legend();
        let words = legend.split_whitespace().collect::<Vec<_>>().join(" ");
        for &kind in Kind::ALL.iter().filter(|&&kind| kind != Kind::Battery) {
            let entry = format!("{} {kind}", kind_sign(kind));
            assert!(words.contains(&entry), "{entry} in:\n{legend}");
        }
        for &ground in Ground::ALL {
            let entry = format!("{} {ground}", ground_sign(ground));
            assert!(words.contains(&entry), "{entry} in:\n{legend}");
        }
        let others = [OBJECTIVE, SMOKE, MARKER, FEATURE, '>', '<', '(', ')'];
        assert!(others.iter().all(|&sign| legend.contains(sign)), "\n{legend}");
        assert!(legend.lines().all(|line| line.chars().count() <= COLUMNS), "\n{legend}");
    }
}
