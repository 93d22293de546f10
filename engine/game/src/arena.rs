//! What a game is played on and with: map, forces, objectives, checked once and shared by all
//! games of a scenario.

use std::fmt;
use std::sync::Arc;

use crate::cell::{CELLS, Cell};
use crate::checks::check;
use crate::forces::{BatterySetup, GroupSetup, Gun, SideSetup};
use crate::kinds::{BySide, Cover, Ground, Side};
use crate::limits::MAX_RANGE;
use crate::sight::Sight;

/// One objective.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Objective {
    /// Name for a reader.
    pub name: String,
    /// Its square.
    pub at: Cell,
    /// Points for holding it at a turn's end, by side.
    pub each_turn: BySide<u8>,
    /// Points for holding it at the end of the game, by side.
    pub at_end: BySide<u8>,
    /// Points for each unit that leaves the table here, by side; 0 where it may not.
    pub leaving: BySide<u8>,
    /// Who holds it at the start.
    pub holder: Option<Side>,
}

/// Everything a scenario says, before it is checked.
#[derive(Clone, Debug)]
pub struct Setup {
    /// Title for a reader.
    pub title: String,
    /// The ground of every square, in row order.
    pub ground: Vec<Ground>,
    /// The sides.
    pub sides: BySide<SideSetup>,
    /// The guns of units, attacker's and defender's.
    pub guns: Vec<Gun>,
    /// The objectives.
    pub objectives: Vec<Objective>,
    /// Turns after which the game ends.
    pub turn_limit: u8,
}

/// One thing that keeps a setup from being played.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetupFault {
    /// What it concerns: `attacker, group 2 (Second platoon), unit 1`.
    pub place: String,
    /// What is wrong and what is expected.
    pub message: String,
}

impl fmt::Display for SetupFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.message)
    }
}

/// A checked scenario with its lines of sight. Copies share what they hold.
#[derive(Clone)]
pub struct Arena(Arc<Checked>);

struct Checked {
    setup: Setup,
    ground: [Ground; CELLS],
    cover: [Cover; CELLS],
    sight: Sight,
    /// Armour each gun goes through, by range in inches.
    reach: Vec<[u16; MAX_RANGE as usize + 1]>,
}

impl Arena {
    /// Checks a setup and works out what does not change from game to game.
    ///
    /// # Errors
    /// Every fault of the setup.
    pub fn new(setup: Setup) -> Result<Arena, Vec<SetupFault>> {
        let faults = check(&setup);
        if !faults.is_empty() {
            return Err(faults);
        }
        let mut ground = [Ground::Open; CELLS];
        ground.copy_from_slice(&setup.ground);
        let reach = |gun: &Gun| std::array::from_fn(|range| gun.reach(range as u8));
        Ok(Arena(Arc::new(Checked {
            cover: ground.map(Ground::cover),
            sight: Sight::new(&ground),
            reach: setup.guns.iter().map(reach).collect(),
            ground,
            setup,
        })))
    }

    /// What the scenario says.
    pub fn setup(&self) -> &Setup {
        &self.0.setup
    }

    /// The ground of a square.
    #[inline]
    pub fn ground(&self, cell: Cell) -> Ground {
        self.0.ground[cell.index()]
    }

    /// The cover a square gives.
    #[inline]
    pub fn cover(&self, cell: Cell) -> Cover {
        self.0.cover[cell.index()]
    }

    /// The lines of sight.
    #[inline]
    pub fn sight(&self) -> &Sight {
        &self.0.sight
    }

    /// The objectives.
    pub fn objectives(&self) -> &[Objective] {
        &self.0.setup.objectives
    }

    /// Armour along the line of fire that a gun goes through at `range` inches, in millimetres.
    #[inline]
    pub fn penetration(&self, gun: u8, range: u8) -> i32 {
        self.0.reach[gun as usize][range as usize].into()
    }

    /// The batteries with their sides, attacker's first: their order numbers them.
    pub fn batteries(&self) -> impl Iterator<Item = (Side, &BatterySetup)> {
        let of = |&side: &Side| self.0.setup.sides[side].batteries.iter().map(move |b| (side, b));
        Side::ALL.iter().flat_map(of)
    }

    /// A unit's name and its group's, by number.
    pub fn unit_name(&self, unit: u8) -> Option<(&str, &str)> {
        let groups = self.0.setup.sides.0.iter().flat_map(|side| &side.groups);
        let mut units =
            groups.flat_map(|g| g.units.iter().map(|u| (u.name.as_str(), g.name.as_str())));
        units.nth(unit.into())
    }

    /// A group, by number.
    pub fn group(&self, group: u8) -> Option<&GroupSetup> {
        self.0.setup.sides.0.iter().flat_map(|side| &side.groups).nth(group.into())
    }

    /// A group's name, by number.
    pub fn group_name(&self, group: u8) -> Option<&str> {
        self.group(group).map(|group| group.name.as_str())
    }
}
