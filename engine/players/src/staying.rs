//! What digging and riding are worth, and whom to act with first.

use ruleshift_game::{Cell, Choice, Kind};

use crate::goal::Goal;
use crate::utility::Judge;

/// Inches to the goal from which riding is worth while, and to the enemy within which it is not.
const RIDE_FROM: i32 = 20;
const RIDE_CLEAR: u8 = 18;

impl Judge<'_> {
    /// Digging pays where a unit means to stay.
    pub(crate) fn digging(&self, goal: Goal, at: Cell) -> i32 {
        let stays = goal.held && goal.distance(self.view, at) == 0;
        if stays { self.weights.dig } else { 0 }
    }

    /// Riding pays while the way is long and no enemy shows.
    pub(crate) fn mounting(&self, goal: Goal, at: Cell) -> i32 {
        let near = self.view.enemy_units().any(|(_, foe)| foe.at.range(at) <= RIDE_CLEAR);
        let far = goal.distance(self.view, at);
        if near || goal.held || far < RIDE_FROM { -1 } else { goal.pull * far / 4 }
    }

    /// What getting out gives up while riding still pays.
    pub(crate) fn riding_on(&self, goal: Goal, at: Cell) -> i32 {
        let near = self.view.enemy_units().any(|(_, foe)| foe.at.range(at) <= RIDE_CLEAR);
        if near || goal.distance(self.view, at) < RIDE_FROM / 2 { -1000 } else { 1000 }
    }

    /// Whom to act with first: weapons that cover the others, then sections, then leaders; markers
    /// that hide troops before dummies.
    pub(crate) fn pick(&self, choice: Choice) -> i32 {
        match choice {
            Choice::PickUnit(id) => match self.view.unit(id).map(|unit| unit.kind) {
                Some(Kind::Observer) => 9,
                Some(Kind::AntiTankGun | Kind::Tank | Kind::AssaultGun) => 7,
                Some(Kind::TripodGun) => 5,
                Some(Kind::LightMortar | Kind::MediumMortar) => 4,
                Some(Kind::LightGun | Kind::AntiTankTeam) => 3,
                Some(Kind::Section | Kind::AssaultSection | Kind::FlameTeam) => 2,
                _ => 1,
            },
            Choice::PickMarker(id) => {
                6 + i32::from(self.view.own_marker(id).is_some_and(|m| m.group.is_some()))
            }
            _ => 0,
        }
    }
}
