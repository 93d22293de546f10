//! The ground of a sketch: places, roads, a stream with its crossings, fields, woods, hedges.

use ruleshift_game::cell::{HEIGHT, WIDTH};

use crate::form::{PieceForm, Point};
use crate::names::GroundName::{
    self, Bridge, Building, Crops, Ford, Hedge, Hill, Road, Scrub, Stream, Wood,
};

use super::built::build;
use super::draw::Draw;
use super::mission::Frame;
use super::pieces::{Room, area, column_at, layer, line, row_at};
use super::sites::{Site, Style};
use super::words::Terrain;

/// Tries to find room for one piece; one that finds none is left out.
const TRIES: u32 = 24;

/// The ground, and the road through it.
pub(crate) struct Land {
    /// Pieces in the order in which they are laid.
    pub(crate) pieces: Vec<PieceForm>,
    /// The road from the attacker's edge to the other.
    pub(crate) road: Vec<Point>,
}

/// Lays out the ground.
pub(crate) fn lay(frame: &Frame, sites: &[Site], terrain: Terrain, draw: &mut Draw) -> Land {
    let (mut pieces, mut taken) = (vec![], vec![]);
    for site in sites {
        let (built, room) = build(site, draw);
        pieces.extend(built);
        taken.push(room);
    }
    let road = road(sites, draw);
    let roads: Vec<PieceForm> = std::iter::once(line(Road, road.clone(), 2))
        .chain(cross_road(sites, terrain, draw))
        .collect();
    let verges = roads.iter().flat_map(|road| strips(&road.line)).collect::<Vec<_>>();
    if let Some(stream) = stream(frame, draw) {
        taken.extend(strips(&stream));
        pieces.extend(water(&stream, &road, draw));
    }
    pieces.extend(ridge(&sites[0], draw));
    for (kind, span) in amounts(terrain) {
        for _ in 0..draw.within(span) {
            // Fields and woods are crossed by roads, hedges and houses keep off them.
            let keep_off = if matches!(kind, Hedge | Building) { &verges[..] } else { &[] };
            pieces.extend(scatter(kind, &mut taken, keep_off, draw));
        }
    }
    pieces.extend(roads);
    pieces.sort_by_key(|piece| layer(piece.kind));
    Land { pieces, road }
}

/// How many pieces of each kind there are besides those of places.
fn amounts(terrain: Terrain) -> [(GroundName, [i32; 2]); 6] {
    let [hills, woods, crops, scrub, hedges, houses] = match terrain {
        Terrain::Open => [[0, 1], [2, 3], [1, 2], [1, 2], [1, 2], [0, 1]],
        Terrain::Mixed => [[0, 2], [4, 5], [2, 3], [2, 3], [3, 4], [1, 2]],
        Terrain::Close => [[1, 2], [6, 8], [3, 4], [3, 4], [6, 8], [2, 3]],
    };
    [
        (Hill, hills),
        (Wood, woods),
        (Crops, crops),
        (Scrub, scrub),
        (Hedge, hedges),
        (Building, houses),
    ]
}

/// A road from edge to edge: straight through the first place, with bends on the way.
fn road(sites: &[Site], draw: &mut Draw) -> Vec<Point> {
    let (main, last) = (&sites[0], &sites[sites.len() - 1]);
    let (x, row) = (main.objective.at.0, main.road_row());
    let ends_at_place = last.style == Style::Way;
    let before = row + draw.between(-5, 5);
    let behind = if ends_at_place { row } else { row + draw.between(-5, 5) };
    let mut road = vec![(0, before), (x - 15, row), (x + 8, row), (WIDTH.into(), behind)];
    // A bend that is none would only be another point to read.
    if behind == row {
        road.remove(2);
    }
    if before == row {
        road.remove(1);
    }
    road
}

/// A second road: always at a village or a crossroads, else the more often the closer the land.
fn cross_road(sites: &[Site], terrain: Terrain, draw: &mut Draw) -> Option<PieceForm> {
    let main = &sites[0];
    let always = main.style == Style::Village || main.objective.holder.is_none();
    let chance = if always { 100 } else { 20 * terrain as i32 };
    let x = main.objective.at.0;
    let fits = matches!(main.style, Style::Village | Style::Farm);
    (fits && draw.chance(chance)).then(|| line(Road, vec![(x, 0), (x, HEIGHT.into())], 2))
}

/// The ridge that most trenches are dug on.
fn ridge(main: &Site, draw: &mut Draw) -> Option<PieceForm> {
    let (x, y) = main.objective.at;
    let corners = vec![(x - 2, 2), (64, 4), (65, 44), (x - 1, 46), (x - 4, y)];
    (main.style == Style::Trench && draw.chance(60)).then(|| area(Hill, corners))
}

/// The line of a stream from the near to the far edge, if there is one.
fn stream(frame: &Frame, draw: &mut Draw) -> Option<Vec<Point>> {
    let (chance, columns) = frame.stream;
    let rows = [0, 12, 24, 36, HEIGHT.into()];
    draw.chance(chance).then(|| rows.map(|y| (draw.within(columns), y)).to_vec())
}

/// A stream, the bridge that carries the road over it, and a ford somewhere else.
fn water(stream: &[Point], road: &[Point], draw: &mut Draw) -> Vec<PieceForm> {
    let first = column_at(stream, road[0].1);
    let row = row_at(road, first);
    let x = column_at(stream, row);
    let bridge = vec![(x - 3, row_at(road, x - 3)), (x + 3, row_at(road, x + 3))];
    let away = draw.between(11, 15) * draw.pick(&[1, -1]);
    let ford = if (2..46).contains(&(row + away)) { row + away } else { row - away };
    let middle = column_at(stream, ford);
    vec![
        line(Stream, stream.to_vec(), draw.between(1, 2)),
        line(Bridge, bridge, 2),
        line(Ford, vec![(middle - 3, ford), (middle + 3, ford)], 2),
    ]
}

/// The room of a road or a stream, a rectangle for each of its stretches.
fn strips(line: &[Point]) -> Vec<Room> {
    let strip = |(x1, y1): Point, (x2, y2): Point| Room {
        from: (x1.min(x2) - 1, y1.min(y2) - 1),
        to: (x1.max(x2) + 1, y1.max(y2) + 1),
    };
    line.windows(2).map(|pair| strip(pair[0], pair[1])).collect()
}

/// A piece where there is room for it.
fn scatter(
    kind: GroundName,
    taken: &mut Vec<Room>,
    keep_off: &[Room],
    draw: &mut Draw,
) -> Option<PieceForm> {
    for _ in 0..TRIES {
        let (width, depth) = size(kind, draw);
        let (x, y) = (draw.between(6, 64 - width), draw.between(2, 46 - depth));
        let room = Room::new(x, y, width, depth);
        let free = |others: &[Room]| !others.iter().any(|other| room.touches(*other, 1));
        if room.is_on_table() && free(taken) && free(keep_off) {
            taken.push(room);
            return Some(shape(kind, room, draw));
        }
    }
    None
}

/// Width and depth of a piece in inches; a line has no more than one of them.
fn size(kind: GroundName, draw: &mut Draw) -> (i32, i32) {
    let span = match kind {
        Hill => [8, 12],
        Hedge => [6, 14],
        Building => [2, 4],
        _ => [6, 10],
    };
    let (width, depth) = (draw.within(span), draw.within(span));
    match kind {
        Hedge if draw.chance(50) => (width, 1),
        Hedge => (1, depth),
        _ => (width, depth),
    }
}

fn shape(kind: GroundName, room: Room, draw: &mut Draw) -> PieceForm {
    if kind == Hedge {
        let (from, to) = (room.from, room.to);
        let along = if to.1 - from.1 == 1 { (to.0, from.1) } else { (from.0, to.1) };
        return line(kind, vec![from, along], 1);
    }
    let mut corners = room.corners();
    if kind != Building {
        // Nature draws no right angles: each side leans in by an inch at one end at most.
        for (corner, inward) in corners.iter_mut().zip([(1, 0), (0, 1), (-1, 0), (0, -1)]) {
            if draw.chance(50) {
                *corner = (corner.0 + inward.0, corner.1 + inward.1);
            }
        }
    }
    area(kind, corners)
}
