//! Where troops start: spots, features that may hide some, and squares where reserves come.

use ruleshift_game::cell::{HEIGHT, WIDTH};
use ruleshift_game::{Cell, Cover, Ground};

use crate::form::{FeatureForm, PieceForm, Point};
use crate::names::GroundName;
use crate::shape::{along, inside};

use super::board::{Board, point, range};
use super::draw::Draw;
use super::mission::Frame;
use super::sites::{Site, Style};

/// The last column of the defender's ground.
const REAR: i32 = 65;
/// Inches between two spots of a side, if there is room.
const APART: u8 = 4;

/// Spots in a line across the table, in some columns.
pub(crate) fn across(
    columns: [i32; 2],
    count: usize,
    board: &Board,
    draw: &mut Draw,
) -> Vec<Point> {
    let mut spots: Vec<Point> = vec![];
    let gaps = count.saturating_sub(1).max(1) as i32;
    for n in 0..count as i32 {
        let wanted = (draw.within(columns), 5 + 38 * n / gaps + draw.between(-1, 1));
        let fits = |cell| board.is_sound_for_vehicles(cell) && !spots.contains(&point(cell));
        spots.extend(board.nearest(wanted, fits));
    }
    spots
}

/// Spots of a defender around the places that are worth something, in cover where there is any.
pub(crate) fn around(
    frame: &Frame,
    sites: &[Site],
    count: usize,
    board: &Board,
    draw: &mut Draw,
) -> Vec<Point> {
    let places = sites.iter().filter(|site| site.style != Style::Way);
    let places: Vec<Point> = places.map(|site| site.objective.at).collect();
    let near = |at: Point| places.iter().any(|&place| range(at, place) <= frame.spread);
    let held = |cell: &Cell| {
        let at = point(*cell);
        (frame.line..=REAR).contains(&at.0) && near(at) && board.is_sound(*cell)
    };
    let mut cells: Vec<Cell> = Cell::all().filter(held).collect();
    draw.shuffle(&mut cells);
    cells.sort_by_key(|&cell| worth(board.ground(cell)));
    let mut spots: Vec<Point> = vec![];
    for apart in [APART + 2, APART, 2] {
        for at in cells.iter().map(|&cell| point(cell)) {
            if spots.len() < count && spots.iter().all(|&spot| range(at, spot) >= apart) {
                spots.push(at);
            }
        }
    }
    spots
}

/// How soon a defender thinks of a square: the best cover first.
fn worth(ground: Ground) -> u8 {
    match ground.cover() {
        Cover::DugIn => 0,
        Cover::Hard => 1,
        Cover::Light => 2,
        Cover::None => 3,
    }
}

/// Places on the defender's ground that may hide troops: the near edges of woods, hedges, houses,
/// and gun pits where there are too few of them.
pub(crate) fn features(
    frame: &Frame,
    pieces: &[PieceForm],
    count: usize,
    (board, taken): (&Board, &[Point]),
    draw: &mut Draw,
) -> Vec<FeatureForm> {
    let edge = |piece| edge(piece, frame, board, taken);
    let mut places: Vec<(GroundName, Point)> = pieces.iter().filter_map(edge).collect();
    draw.shuffle(&mut places);
    let columns = [frame.line + 4, frame.line + 12];
    let pit = |draw: &mut Draw| (GroundName::Open, (draw.within(columns), draw.between(8, 40)));
    let pits: Vec<_> = (0..4 * count).map(|_| pit(draw)).collect();
    places.extend(pits.into_iter().filter(|(_, at)| is_pit(*at, board, taken)));
    let mut features: Vec<FeatureForm> = vec![];
    for (kind, at) in places {
        let free = features.iter().all(|other| range(other.at, at) >= 3);
        if features.len() < count && free {
            let name = name(kind, at, &features);
            features.push(FeatureForm { name, at });
        }
    }
    features
}

/// Whether a gun may be dug in there.
fn is_pit(at: Point, board: &Board, taken: &[Point]) -> bool {
    let ground = Cell::new(at.0, at.1).map(|cell| board.ground(cell));
    matches!(ground, Some(Ground::Open | Ground::Hill | Ground::Crops)) && !taken.contains(&at)
}

/// The square of a piece that looks towards the attacker, if it may hide anybody.
fn edge(
    piece: &PieceForm,
    frame: &Frame,
    board: &Board,
    spots: &[Point],
) -> Option<(GroundName, Point)> {
    let kind = Ground::from(piece.kind);
    let hides = [Ground::Wood, Ground::Scrub, Ground::Hedge, Ground::Building, Ground::Rubble];
    if !hides.contains(&kind) {
        return None;
    }
    let covers = |cell| inside(&piece.area, cell) || along(&piece.line, piece.width, cell);
    let held = |cell: &Cell| {
        let at = point(*cell);
        let own = board.ground(*cell) == kind && covers(*cell);
        own && (frame.line..REAR).contains(&at.0) && !spots.contains(&at)
    };
    let cells: Vec<Cell> = Cell::all().filter(held).collect();
    let front = cells.iter().map(|cell| cell.x).min()?;
    let line: Vec<Cell> = cells.into_iter().filter(|cell| cell.x <= front + 1).collect();
    Some((piece.kind, point(line[line.len() / 2])))
}

/// A name by kind and place, with a number where that name is taken.
fn name(kind: GroundName, at: Point, others: &[FeatureForm]) -> String {
    let what = match Ground::from(kind) {
        Ground::Wood => "wood",
        Ground::Scrub => "scrub",
        Ground::Hedge => "hedge",
        Ground::Rubble => "ruin",
        Ground::Building => "house",
        _ => "gun pit",
    };
    let place = match at.1 {
        ..16 => "on the near side",
        16..32 => "in the middle",
        _ => "on the far side",
    };
    let numbers = ["the", "the second", "the third", "the fourth", "the fifth", "the sixth"];
    let names = numbers.iter().map(|number| format!("{number} {what} {place}"));
    let free = names.clone().find(|name| !others.iter().any(|other| other.name == *name));
    free.unwrap_or_else(|| format!("the {what} at {}, {}", at.0, at.1))
}

/// Squares at an edge where a reserve may come: on the road, and to both sides of it.
pub(crate) fn entries(column: i32, road: &[Point], board: &Board) -> Vec<Point> {
    let row = super::pieces::row_at(road, column);
    let mut entries: Vec<Point> = vec![];
    for wanted in [row, row - 12, row + 12] {
        let wanted = (column, wanted.clamp(2, i32::from(HEIGHT) - 3));
        let fits = |cell: Cell| {
            i32::from(cell.x) == column
                && board.is_sound_for_vehicles(cell)
                && !entries.contains(&point(cell))
        };
        entries.extend(board.nearest(wanted, fits));
    }
    entries
}

/// The column at the attacker's edge.
pub(crate) const NEAR_EDGE: i32 = 0;
/// The column at the defender's edge.
pub(crate) const FAR_EDGE: i32 = WIDTH as i32 - 1;
