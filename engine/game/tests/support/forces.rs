//! Armour, guns, batteries, features and reserves for scenes.

use ruleshift_game::{
    BatterySetup, Cell, Feature, GroupSetup, Gun, Kind, Quality, Side, Start, UnitSetup,
};

use super::{Scene, unit};

/// Plate of a tank for trials, in millimetres: front, flank, rear.
pub(crate) const PLATE: [u8; 3] = [80, 45, 30];

/// A vehicle with that armour and the scene's first gun.
pub(crate) fn vehicle(kind: Kind, men: u8, armour: [u8; 3]) -> UnitSetup {
    let gun = matches!(kind, Kind::Tank | Kind::AssaultGun).then_some(0);
    UnitSetup { armour, gun, ..unit(kind, men) }
}

/// A tank of five with the scene's first gun.
pub(crate) fn tank() -> UnitSetup {
    vehicle(Kind::Tank, 5, PLATE)
}

/// A unit with a gun of the scene.
pub(crate) fn with_gun(gun: u8, unit: UnitSetup) -> UnitSetup {
    UnitSetup { gun: Some(gun), ..unit }
}

/// A unit of another quality.
pub(crate) fn of(quality: Quality, unit: UnitSetup) -> UnitSetup {
    UnitSetup { quality, ..unit }
}

fn cell((x, y): (u8, u8)) -> Cell {
    Cell { x, y }
}

impl Scene {
    /// Adds a gun that goes through so many millimetres at 100, 500 and 1000 m.
    pub(crate) fn gun(mut self, penetration: [u16; 3], shaped: bool) -> Scene {
        self.setup.guns.push(Gun { name: "a gun".to_owned(), penetration, shaped });
        self
    }

    /// Adds a feature, a place that may hide troops.
    pub(crate) fn feature(mut self, side: Side, at: (u8, u8)) -> Scene {
        self.setup.sides[side].features.push(Feature { name: "a barn".to_owned(), at: cell(at) });
        self
    }

    /// Adds a group that starts hidden in one of the side's features.
    pub(crate) fn hidden(self, side: Side, units: &[UnitSetup]) -> Scene {
        self.starting(side, units, Start::Feature)
    }

    /// Adds a reserve that may come from that turn's end on.
    pub(crate) fn reserve(
        self,
        side: Side,
        turn: u8,
        entries: &[(u8, u8)],
        units: &[UnitSetup],
    ) -> Scene {
        let entries = entries.iter().map(|&at| cell(at)).collect();
        self.starting(side, units, Start::Reserve { turn, entries })
    }

    fn starting(mut self, side: Side, units: &[UnitSetup], start: Start) -> Scene {
        let groups = &mut self.setup.sides[side].groups;
        let name = format!("Group {}", groups.len() + 1);
        groups.push(GroupSetup { name, units: units.to_vec(), start });
        self
    }

    /// Adds a battery that answers after so many turn ends, fires so often, and may lay smoke.
    pub(crate) fn battery(
        mut self,
        side: Side,
        response: u8,
        missions: u8,
        smoke: bool,
        laid: &[(u8, u8)],
    ) -> Scene {
        let registered = laid.iter().map(|&at| cell(at)).collect();
        let name = "the guns".to_owned();
        let setup = BatterySetup { name, response, missions, smoke, registered };
        self.setup.sides[side].batteries.push(setup);
        self
    }

    /// Lets units leave the table at the objective added last, for these points by side.
    pub(crate) fn leaving(mut self, points: [u8; 2]) -> Scene {
        let last = self.setup.objectives.last_mut().expect("an objective was added");
        last.leaving.0 = points;
        self
    }
}
