//! The will to fight: breaking, rallying, recovery, tests.

use ruleshift_game::{BreakCause, GroupId, Side, State, UnitId};

use super::Story;
use super::words::{counted, men};

impl Story<'_> {
    pub(super) fn unit_broke(
        &self,
        unit: UnitId,
        fled: u8,
        cause: BreakCause,
        state: &State,
    ) -> String {
        let why = match cause {
            BreakCause::Pins => "breaks under fire",
            BreakCause::GroupTest => "breaks with its group shaken",
            BreakCause::KnockedOut => "is left by the rest of its crew",
        };
        let leave = if fled == 1 { "leaves" } else { "leave" };
        format!("        {} {why}: {} {leave} the table", self.units(unit, state), men(fled))
    }

    pub(super) fn group_gone(&self, group: GroupId, points: u8) -> String {
        let (group, points) = (self.group(group), counted(points, "point"));
        format!("        Nothing is left of {group}: {points} to the enemy")
    }

    pub(super) fn rallied(&self, unit: UnitId, leader: Option<UnitId>, pins: u8) -> String {
        let by = leader.map(|leader| format!("is rallied by {}", self.unit(leader)));
        let by = by.unwrap_or_else(|| "rallies".to_owned());
        format!("      {} {by}: {} off", self.unit(unit), counted(pins, "pin"))
    }

    pub(super) fn recovered(&self, unit: UnitId, pins: u8) -> String {
        format!("    {} recovers {}", self.unit(unit), counted(pins, "pin"))
    }

    pub(super) fn group_tested(&self, group: GroupId, rolled: u8, needed: u8) -> String {
        let (group, end) = (self.group(group), stands(rolled, needed));
        format!("    {group} is tested: {rolled}, {needed} needed, {end}")
    }

    pub(super) fn side_tested(&self, side: Side, rolled: u8, needed: u8) -> String {
        let end = stands(rolled, needed);
        format!("    The {side} is past his break point: {rolled}, {needed} needed, {end}")
    }
}

fn stands(rolled: u8, needed: u8) -> &'static str {
    if rolled >= needed { "it stands" } else { "it gives way" }
}
