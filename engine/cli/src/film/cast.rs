//! What does not change during a game: the table, its places, forces and names.

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Arena, Cell, Ground, Side};
use ruleshift_reports::watch::{Film, GroupCard, Land, Spot, UnitCard};

use crate::board::kind_sign;

/// A film of a game on `arena`, before it is taken.
pub(crate) fn film(arena: &Arena, facts: Vec<String>) -> Film {
    let setup = arena.setup();
    let spot = |name: &String, at: Cell, side| Spot { name: name.clone(), x: at.x, y: at.y, side };
    let features = Side::ALL.iter().flat_map(|&side| {
        let of = &setup.sides[side].features;
        of.iter().map(move |feature| spot(&feature.name, feature.at, Some(side as u8)))
    });
    Film {
        title: setup.title.clone(),
        facts,
        land: land(arena),
        objectives: arena.objectives().iter().map(|o| spot(&o.name, o.at, None)).collect(),
        features: features.collect(),
        groups: groups(arena),
        units: units(arena),
        reels: vec![],
        parting: None,
        outcomes: None,
    }
}

fn land(arena: &Arena) -> Land {
    Land {
        width: WIDTH.into(),
        height: HEIGHT.into(),
        kinds: Ground::ALL.iter().map(ToString::to_string).collect(),
        squares: Cell::all().map(|cell| arena.ground(cell) as u8).collect(),
    }
}

fn groups(arena: &Arena) -> Vec<GroupCard> {
    let of = |&side: &Side| {
        let groups = &arena.setup().sides[side].groups;
        groups.iter().map(move |group| GroupCard { name: group.name.clone(), side: side as u8 })
    };
    Side::ALL.iter().flat_map(of).collect()
}

fn units(arena: &Arena) -> Vec<UnitCard> {
    let groups = Side::ALL
        .iter()
        .flat_map(|&side| arena.setup().sides[side].groups.iter().map(move |group| (side, group)));
    let of = |(n, (side, group)): (u8, (Side, &ruleshift_game::GroupSetup))| {
        let card = |unit: &ruleshift_game::UnitSetup| UnitCard {
            name: unit.name.clone(),
            kind: unit.kind.to_string(),
            sign: kind_sign(unit.kind),
            group: n,
            side: side as u8,
            men: unit.men,
            front: unit.kind.has_facing(),
        };
        group.units.iter().map(card).collect::<Vec<_>>()
    };
    (0..).zip(groups).flat_map(of).collect()
}
