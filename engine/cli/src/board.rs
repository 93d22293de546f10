//! A picture of the board for the terminal: one character for each square of the table, two rows
//! of squares drawn as one, for characters are twice as high as wide.

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Arena, Cell, Ground, Kind, Side, State};

use crate::story::letter;

/// What the signs mean.
pub(crate) const LEGEND: &str = "\
Attacker: S section, G light gun, T tripod gun, M light mortar, L leader; defender the same in lower case,\n\
each after its side's sign: > attacker, < defender. Markers: ?a and so on. Objectives: *.\n\
Ground: . open  = road  , crops  ; scrub  & wood  + hedge  # wall  ~ stream  : ford or bridge  B building  % rubble  ^ hill";

/// Draws the table, far edge on top.
pub(crate) fn draw(arena: &Arena, state: &State) -> String {
    let mut rows = vec![vec![' '; WIDTH as usize]; HEIGHT as usize / 2];
    for cell in Cell::all() {
        let sign = &mut rows[cell.y as usize / 2][cell.x as usize];
        let ground = ground_sign(arena.ground(cell));
        if *sign == ' ' || *sign == '.' {
            *sign = ground;
        }
    }
    let mut put = |cell: Cell, signs: &[char]| {
        for (n, &sign) in signs.iter().enumerate() {
            if let Some(place) = rows[cell.y as usize / 2].get_mut(cell.x as usize + n) {
                *place = sign;
            }
        }
    };
    for objective in arena.objectives() {
        put(objective.at, &['*']);
    }
    for (id, marker) in (0..).zip(state.markers()).filter(|(_, marker)| marker.shows()) {
        put(marker.at, &['?', letter(id)]);
    }
    for (_, unit) in state.on_table() {
        put(unit.at, &unit_signs(unit.side, unit.kind));
    }
    let lines = rows.iter().rev().map(|row| format!("    |{}|", row.iter().collect::<String>()));
    let edge = format!("    +{}+", "-".repeat(WIDTH as usize));
    std::iter::once(edge.clone()).chain(lines).chain([edge]).collect::<Vec<_>>().join("\n")
}

fn unit_signs(side: Side, kind: Kind) -> [char; 2] {
    let sign = match kind {
        Kind::Section => 'S',
        Kind::LightGun => 'G',
        Kind::TripodGun => 'T',
        Kind::LightMortar | Kind::MediumMortar => 'M',
        Kind::Leader => 'L',
        Kind::AssaultSection => 'R',
        Kind::AntiTankTeam => 'P',
        Kind::FlameTeam => 'F',
        Kind::Observer => 'O',
        Kind::AntiTankGun => 'A',
        Kind::Tank => 'V',
        Kind::AssaultGun => 'W',
        Kind::Carrier => 'C',
        Kind::Truck => 'K',
        Kind::Battery => 'B',
    };
    match side {
        Side::Attacker => ['>', sign],
        Side::Defender => ['<', sign.to_ascii_lowercase()],
    }
}

fn ground_sign(ground: Ground) -> char {
    match ground {
        Ground::Open => '.',
        Ground::Road => '=',
        Ground::Crops => ',',
        Ground::Scrub => ';',
        Ground::Wood => '&',
        Ground::Hedge => '+',
        Ground::Wall => '#',
        Ground::Stream => '~',
        Ground::Ford | Ground::Bridge => ':',
        Ground::Building => 'B',
        Ground::Rubble => '%',
        Ground::Hill => '^',
        Ground::Trench => '_',
        Ground::Wire => 'x',
        Ground::Minefield => '!',
    }
}
