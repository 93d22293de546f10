//! Tests of the lists, the armoury and the form of scenario files.

mod digests;
mod duels;
mod form;
mod groups;
mod help;
mod support;
mod totals;
mod weapons;

use ruleshift_game::{Side, UnitSetup};

use crate::library::Library;
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

/// The faults of the attacker's groups.
fn faults(groups: &str) -> Vec<String> {
    read(groups, "").err().map(|error| error.faults).unwrap_or_default()
}

/// The shipped library with one text in its files changed.
fn changed(from: &str, to: &str) -> Library {
    let swap = |text: &str| text.replacen(from, to, 1);
    let (armoury, forces) = crate::library::TEXTS;
    assert!(armoury.contains(from) || forces.iter().any(|text| text.contains(from)), "{from}");
    let forces = forces.map(swap);
    Library::read(&swap(armoury), &forces.each_ref().map(String::as_str)).unwrap()
}
