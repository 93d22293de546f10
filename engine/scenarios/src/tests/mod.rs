//! Tests of the lists, the armoury and the form of scenario files.

mod duels;
mod totals;

use ruleshift_game::{Side, UnitSetup};

use crate::load::{Scenario, ScenarioError};

/// A scenario whose attacker has these groups and, besides, these fields.
fn attack(groups: &str, fields: &str) -> String {
    format!(
        "Scenario(title: \"\", about: \"\", turns: 6, terrain: [],
            objectives: [(name: \"hill\", at: (36, 24))],
            attacker: (name: \"\", break_point: 40, spots: [(5, 5), (5, 9), (5, 13)], {fields}
                groups: [{groups}]),
            defender: (name: \"\", break_point: 40, spots: [(60, 5)], groups: [
                (name: \"Post\", units: [(kind: section, men: 9)])]),
        )"
    )
}

fn read(groups: &str, fields: &str) -> Result<Scenario, ScenarioError> {
    Scenario::from_ron("test", &attack(groups, fields))
}

/// The units of the attacker's groups.
fn units(groups: &str) -> Vec<UnitSetup> {
    let scenario = read(groups, "").unwrap_or_else(|error| panic!("{error}"));
    let groups = &scenario.arena.setup().sides[Side::Attacker].groups;
    groups.iter().flat_map(|group| group.units.clone()).collect()
}
