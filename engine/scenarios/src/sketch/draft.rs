//! One try at a sketch: everything drawn and put together.

use crate::form::{GroupForm, Point, ScenarioForm, SideForm, StartForm};

use super::board::Board;
use super::draw::Draw;
use super::forces::{Force, forces};
use super::land::{Land, lay};
use super::mission::{Frame, frame};
use super::placing::{FAR_EDGE, NEAR_EDGE, across, around, entries, features};
use super::sites::{Site, sites};
use super::words::{Mission, Terrain};
use super::{names, title};

/// The ground of a try, and who fights over it.
struct Field<'a> {
    frame: &'a Frame,
    sites: &'a [Site],
    land: &'a Land,
    board: &'a Board,
}

/// Draws a scenario.
pub(crate) fn draft(mission: Mission, terrain: Terrain, mut draw: Draw) -> ScenarioForm {
    let draw = &mut draw;
    let (frame, place) = (frame(mission), names::place(draw));
    let (names, sites) = (names::forces(draw), sites(mission, draw));
    let land = lay(&frame, &sites, terrain, draw);
    let board = Board::new(&land.pieces);
    let field = Field { frame: &frame, sites: &sites, land: &land, board: &board };
    let [attacker, defender] = forces(mission, &frame, sites[0].objective.at, draw);
    let about = title::about(mission, terrain, [&attacker, &defender]);
    let attacker = field.attacker(attacker, draw);
    let defender = field.defender(mission, defender, &attacker.spots, draw);
    ScenarioForm {
        title: title::title(mission, &place),
        about,
        turns: draw.within(frame.turns).unsigned_abs() as u8,
        attacker: named(attacker, title::force(mission, names[0])),
        defender: named(defender, title::garrison(mission, names[1])),
        objectives: sites.iter().map(|site| site.objective.clone()).collect(),
        terrain: land.pieces,
    }
}

fn named(side: SideForm, name: String) -> SideForm {
    SideForm { name, ..side }
}

impl Field<'_> {
    fn attacker(&self, force: Force, draw: &mut Draw) -> SideForm {
        let spots = across(self.frame.start, wanted(&force, draw), self.board, draw);
        self.side(force, spots, (0, NEAR_EDGE), draw)
    }

    fn defender(
        &self,
        mission: Mission,
        force: Force,
        enemy: &[Point],
        draw: &mut Draw,
    ) -> SideForm {
        let count = wanted(&force, draw);
        if mission == Mission::Meeting {
            // As far from the middle as the attacker.
            let columns = self.frame.start.map(|x| FAR_EDGE - x);
            let spots = across([columns[1], columns[0]], count, self.board, draw);
            return self.side(force, spots, (1, FAR_EDGE), draw);
        }
        let spots = around(self.frame, self.sites, count, self.board, draw);
        let hidden = force.groups.iter().filter(|g| g.start == StartForm::Feature).count();
        let empty = draw.between(2, 3) as usize;
        let taken: Vec<Point> = spots.iter().chain(enemy).copied().collect();
        let place = (self.board, &taken[..]);
        let features = features(self.frame, &self.land.pieces, hidden + empty, place, draw);
        SideForm { features, ..self.side(force, spots, (1, FAR_EDGE), draw) }
    }

    /// A side with its spots; `edge` is where its reserves come.
    fn side(
        &self,
        force: Force,
        spots: Vec<Point>,
        (side, edge): (usize, i32),
        draw: &mut Draw,
    ) -> SideForm {
        let come = |mut group: GroupForm| {
            if let StartForm::Reserve { entries: squares, .. } = &mut group.start {
                *squares = entries(edge, &self.land.road, self.board);
            }
            group
        };
        SideForm {
            name: String::new(),
            break_point: draw.within(self.frame.break_points[side]).unsigned_abs() as u8,
            dummies: force.dummies,
            points: 0,
            spots,
            features: vec![],
            groups: force.groups.into_iter().map(come).collect(),
            batteries: force.batteries,
        }
    }
}

/// A spot for every marker, and one or two more.
fn wanted(force: &Force, draw: &mut Draw) -> usize {
    let on_spots = force.groups.iter().filter(|group| group.start == StartForm::Spot).count();
    on_spots + usize::from(force.dummies) + draw.between(0, 1) as usize
}
