//! What a side brings to a scenario: units, groups, guns, batteries, and where they start.

use crate::cell::Cell;
use crate::kinds::{Face, Kind, Quality};

/// A gun or a hand-held weapon that goes through armour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gun {
    /// Name for a reader.
    pub name: String,
    /// Plate it goes through, in millimetres, at 100, 500 and 1000 m. For shot, plate that leans
    /// back by 30 degrees, as the published tables have it; for a shaped charge, plate as it lies.
    pub penetration: [u16; 3],
    /// Whether it fires shaped charges.
    pub shaped: bool,
}

impl Gun {
    /// Armour along the line of fire that it goes through at `range` inches, in millimetres:
    /// straight lines between the table's ranges, an inch being ten yards (RULES 13.6).
    pub fn reach(&self, range: u8) -> u16 {
        let metres = u32::from(range) * 9144 / 1000;
        let [near, middle, far] = self.penetration.map(u32::from);
        let between = |from: u32, to: u32, start: u32, length: u32| {
            let gone = metres - start;
            (from * (length - gone) + to * gone) / length
        };
        let plate = match metres {
            0..=100 => near,
            101..=500 => between(near, middle, 100, 400),
            501..=1000 => between(middle, far, 500, 500),
            _ => far,
        };
        // A plate at 30 degrees is thicker along the line of fire by 1 / cos 30.
        (if self.shaped { plate } else { plate * 1155 / 1000 }) as u16
    }
}

/// One unit of a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnitSetup {
    /// Name for a reader.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// How well trained it is.
    pub quality: Quality,
    /// Men, 1 to 13.
    pub men: u8,
    /// Grade of a leader, 1 to 3; 0 for other units.
    pub grade: u8,
    /// Armour along the line of fire in millimetres, by [`Face`]; 0 everywhere for none.
    pub armour: [u8; Face::ALL.len()],
    /// Its gun, by place in [`crate::Setup::guns`].
    pub gun: Option<u8>,
}

/// Where a group starts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Start {
    /// Under a marker on one of the side's spots.
    #[default]
    Spot,
    /// Secretly in one of the side's features.
    Feature,
    /// Off the table: it comes from that turn's end on, at one of these squares.
    Reserve {
        /// The first turn at whose end it may come.
        turn: u8,
        /// Squares where it may come.
        entries: Vec<Cell>,
    },
}

/// One group: its units start under one marker and act on one card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupSetup {
    /// Name for a reader.
    pub name: String,
    /// Its units.
    pub units: Vec<UnitSetup>,
    /// Where it starts.
    pub start: Start,
}

/// A place that may hide troops; both sides know of it, one knows what is in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Feature {
    /// Name for a reader.
    pub name: String,
    /// Its square.
    pub at: Cell,
}

/// Guns off the table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatterySetup {
    /// Name for a reader.
    pub name: String,
    /// Turn ends from the call until it can fire.
    pub response: u8,
    /// Times it may fire.
    pub missions: u8,
    /// Whether it may fire smoke.
    pub smoke: bool,
    /// Squares it has been laid on before the game.
    pub registered: Vec<Cell>,
}

/// One side.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SideSetup {
    /// Name of the force for a reader.
    pub name: String,
    /// Its groups.
    pub groups: Vec<GroupSetup>,
    /// Dummy markers.
    pub dummies: u8,
    /// Squares where markers may start: at least one for each group that starts on a spot.
    pub spots: Vec<Cell>,
    /// Places that may hide its troops: at least one for each group that starts in one.
    pub features: Vec<Feature>,
    /// Its batteries.
    pub batteries: Vec<BatterySetup>,
    /// Men lost or fled, in percent, from which the side must test.
    pub break_point: u8,
    /// Points at the start, a handicap.
    pub points: i16,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gun(penetration: [u16; 3], shaped: bool) -> Gun {
        Gun { name: String::new(), penetration, shaped }
    }

    /// RULES 13.6: 33 in are 301 m, 55 in 502 m, 82 in 749 m; parts are left off.
    #[test]
    fn penetration_falls_in_straight_lines() {
        let gun = gun([100, 80, 60], true);
        assert_eq!(
            [0, 10, 11, 33, 55, 82].map(|range| gun.reach(range)),
            [100, 100, 100, 89, 79, 70]
        );
    }

    /// 66 mm at 30 degrees are 76 mm along the line of fire: 66 / cos 30 = 76.2, by trigonometry.
    #[test]
    fn plate_at_thirty_degrees_is_thicker_along_the_line_of_fire() {
        assert_eq!(gun([66; 3], false).reach(30), 76);
        assert_eq!(gun([66; 3], true).reach(30), 66);
    }
}
