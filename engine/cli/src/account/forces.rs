//! What each side had, and what it was about.

use std::collections::BTreeMap;

use ruleshift_game::{
    Arena, GroupSetup, Kind, Objective, Rules, Side, SideSetup, Start, UnitSetup,
};

use super::page::{count, listed};
use super::text::Length;
use crate::story::capital;

/// What is at stake: a line for each objective.
pub(super) fn situation(arena: &Arena, rules: &Rules) -> Vec<String> {
    arena.objectives().iter().map(|objective| stake(objective, rules)).collect()
}

fn stake(objective: &Objective, rules: &Rules) -> String {
    let worth = |side: Side| {
        let turn = rules.objective_points(side, objective.each_turn[side].min(20));
        let end = rules.final_points(side, objective.at_end[side].min(20));
        let leaving = i32::from(objective.leaving[side]);
        let parts = [(turn, "each turn"), (end, "at the end"), (leaving, "for each unit led off")];
        let parts = parts.iter().filter(|(points, _)| *points > 0);
        let parts: Vec<String> = parts.map(|(points, when)| format!("{points} {when}")).collect();
        if parts.is_empty() { "nothing".to_owned() } else { parts.join(" and ") }
    };
    let [attacker, defender] = [Side::Attacker, Side::Defender].map(worth);
    let worth = if attacker == defender {
        format!("{attacker} for either side")
    } else {
        format!("attacker {attacker}, defender {defender}")
    };
    let held = objective.holder.map_or_else(String::new, |side| format!("; the {side}'s at first"));
    format!("  {}, in points: {worth}{held}", capital(&objective.name))
}

/// One side's force in a paragraph, or in a line without its groups.
pub(super) fn force(arena: &Arena, side: Side, player: &str, length: Length) -> String {
    let setup = &arena.setup().sides[side];
    let men: u32 = setup.groups.iter().flat_map(|g| &g.units).map(|unit| u32::from(unit.men)).sum();
    let dummies = match setup.dummies {
        0 => String::new(),
        dummies => format!(", {}", many(dummies.into(), "dummy", "dummies")),
    };
    let (side, name, men) = (capital(side), &setup.name, count(men, "man"));
    let line = format!("  {side}: {name} ({player}), {men}{dummies}");
    match length {
        Length::Screen => line,
        Length::Full => format!("{line}: {}", groups(setup).join("; ")),
    }
}

/// A side's groups, then its batteries.
fn groups(setup: &SideSetup) -> Vec<String> {
    let mut parts: Vec<String> = setup.groups.iter().map(group).collect();
    let batteries = setup.batteries.iter();
    parts.extend(batteries.map(|battery| {
        format!("{} off the table, {}", battery.name, count(battery.missions.into(), "mission"))
    }));
    parts
}

/// A group with its units, those of one kind counted.
fn group(group: &GroupSetup) -> String {
    let mut kinds: BTreeMap<Kind, u32> = BTreeMap::new();
    for UnitSetup { kind, .. } in &group.units {
        *kinds.entry(*kind).or_default() += 1;
    }
    let units: Vec<String> = kinds
        .into_iter()
        .map(|(kind, number)| match number {
            1 => kind.to_string(),
            _ => count(number, kind.label()),
        })
        .collect();
    let from = match &group.start {
        Start::Spot => String::new(),
        Start::Feature => ", hidden".to_owned(),
        Start::Reserve { turn, .. } => format!(", reserve from turn {turn}"),
    };
    format!("{} ({}{from})", group.name, listed(&units))
}

fn many(number: u32, one: &str, more: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { more })
}
