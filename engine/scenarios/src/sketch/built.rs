//! What stands at the places that are worth something: houses, walls, hills, works.

use crate::form::{PieceForm, Point};
use crate::names::GroundName::{Building, Hedge, Hill, Minefield, Rubble, Trench, Wall, Wire};

use super::draw::Draw;
use super::pieces::{Room, area, line};
use super::sites::{Site, Style};

/// The pieces of a place, and the room that nothing else may take.
pub(crate) fn build(site: &Site, draw: &mut Draw) -> (Vec<PieceForm>, Room) {
    let at = site.objective.at;
    match site.style {
        Style::Farm => (farm(at, draw), Room::around(at, 9, 7)),
        Style::House => (houses(at, &[draw.pick(&QUARTERS)], draw), Room::around(at, 6, 6)),
        Style::Village => (village(at, draw), Room::around(at, 13, 10)),
        Style::Hill => (vec![hill(at, draw)], Room::around(at, 6, 6)),
        Style::Trench => (works(at, draw), Room::around((at.0 - 4, at.1), 7, 6)),
        Style::Way => (vec![], Room::around(at, 1, 3)),
    }
}

/// The four sides of a crossroads: right or left, far or near.
const QUARTERS: [Point; 4] = [(1, 1), (1, -1), (-1, 1), (-1, -1)];

/// A house in each of some quarters, clear of the roads through the middle.
fn houses(at: Point, quarters: &[Point], draw: &mut Draw) -> Vec<PieceForm> {
    let house = |&quarter: &Point| area(Building, lot(at, quarter, [2, 2], draw).corners());
    quarters.iter().map(house).collect()
}

/// A lot of 2 to 4 inches that begins so far from the middle.
fn lot((x, y): Point, (right, far): Point, [across, deep]: [i32; 2], draw: &mut Draw) -> Room {
    let (width, depth) = (draw.between(2, 4), draw.between(2, 4));
    let start = |middle: i32, way: i32, off: i32, size: i32| {
        if way > 0 { middle + off } else { middle - off - size }
    };
    Room::new(start(x, right, across, width), start(y, far, deep, depth), width, depth)
}

fn farm(at: Point, draw: &mut Draw) -> Vec<PieceForm> {
    let mut quarters = QUARTERS;
    draw.shuffle(&mut quarters);
    let count = draw.between(2, 3) as usize;
    let mut pieces = houses(at, &quarters[..count], draw);
    let (x, y) = at;
    let kind = draw.pick(&[Wall, Hedge]);
    pieces.push(line(kind, vec![(x - 7, y + 2), (x - 7, y + draw.between(5, 7))], 1));
    pieces.push(line(Wall, vec![(x - 7, y - 2), (x - 7, y - draw.between(5, 7))], 1));
    pieces
}

fn village(at: Point, draw: &mut Draw) -> Vec<PieceForm> {
    let mut pieces = houses(at, &QUARTERS, draw);
    for quarter in QUARTERS {
        let kind = if draw.chance(20) { Rubble } else { Building };
        pieces.push(area(kind, lot(at, quarter, [8, 2], draw).corners()));
    }
    for quarter in [draw.pick(&QUARTERS[..2]), draw.pick(&QUARTERS[2..])] {
        pieces.push(area(Building, lot(at, quarter, [2, 7], draw).corners()));
    }
    let (x, y) = at;
    pieces.push(line(Wall, vec![(x - 13, y + 2), (x - 13, y + 6)], 1));
    pieces.push(line(Wall, vec![(x - 13, y - 2), (x - 13, y - 6)], 1));
    pieces
}

/// Eight corners around a point, so that the hill is round.
fn hill((x, y): Point, draw: &mut Draw) -> PieceForm {
    let (across, deep) = (draw.between(4, 5), draw.between(4, 5));
    let corners = vec![
        (x - across, y - 2),
        (x - 2, y - deep),
        (x + 2, y - deep),
        (x + across, y - 2),
        (x + across, y + 2),
        (x + 2, y + deep),
        (x - 2, y + deep),
        (x - across, y + 2),
    ];
    area(Hill, corners)
}

/// A trench, wire before it, and mines before the wire at most places.
fn works((x, y): Point, draw: &mut Draw) -> Vec<PieceForm> {
    let mut pieces = vec![
        line(Wire, vec![(x - 5, y - 1), (x - draw.between(5, 6), y + 5)], 1),
        line(Trench, vec![(x, y - 2), (x, y + draw.between(2, 3))], 1),
    ];
    if draw.chance(60) {
        let mines = Room::new(x - draw.between(9, 10), y, 3, draw.between(3, 4));
        pieces.push(area(Minefield, mines.corners()));
    }
    pieces
}
