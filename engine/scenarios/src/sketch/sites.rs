//! The places that are worth something, with their points.

use crate::form::{ObjectiveForm, Point, PointsForm};
use crate::names::SideName;

use super::draw::Draw;
use super::words::Mission;

/// How a place is built up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Style {
    /// Two or three houses around a road.
    Farm,
    /// One house.
    House,
    /// Houses on all sides, and more behind them.
    Village,
    /// A low hill.
    Hill,
    /// A trench behind wire.
    Trench,
    /// Nothing but the road.
    Way,
}

/// A place that is worth something.
#[derive(Clone, Debug)]
pub(crate) struct Site {
    pub(crate) style: Style,
    pub(crate) objective: ObjectiveForm,
}

impl Site {
    /// A place worth `each_turn` and `at_end` to attacker and defender.
    fn new(style: Style, name: &str, at: Point, each_turn: [u8; 2], at_end: [u8; 2]) -> Site {
        let points = |[attacker, defender]: [u8; 2]| PointsForm { attacker, defender };
        let objective = ObjectiveForm {
            name: name.to_owned(),
            at,
            each_turn: points(each_turn),
            at_end: points(at_end),
            leaving: PointsForm::default(),
            holder: None,
        };
        Site { style, objective }
    }

    /// The end of the road, where each of the attacker's units that leaves is worth two points.
    fn way_out(name: &str, y: i32) -> Site {
        let mut site = Site::new(Style::Way, name, (71, y), [0, 0], [0, 0]);
        site.objective.leaving = PointsForm { attacker: 2, defender: 0 };
        site
    }

    fn held(mut self) -> Site {
        self.objective.holder = Some(SideName::Defender);
        self
    }

    /// The row in which a road passes the place: behind a trench, not through it.
    pub(crate) fn road_row(&self) -> i32 {
        let y = self.objective.at.1;
        if self.style == Style::Trench { y - 4 } else { y }
    }
}

/// The places of a mission, the most important first: the road goes there.
pub(crate) fn sites(mission: Mission, draw: &mut Draw) -> Vec<Site> {
    let row = draw.between(21, 27);
    match mission {
        Mission::Attack => attack(row, draw),
        Mission::Meeting => meeting(row, draw),
        Mission::Prepared => prepared(row, draw),
        Mission::Delay => vec![
            Site::new(Style::Farm, "the bridge", (46, row), [2, 2], [4, 4]).held(),
            Site::new(Style::House, "the last houses", (60, row), [3, 1], [6, 2]).held(),
            Site::way_out("the road out", row),
        ],
        Mission::Probe => {
            let at = (draw.between(46, 49), row);
            vec![
                Site::new(Style::House, "the cottage", at, [2, 1], [2, 2]).held(),
                Site::way_out("the lane out", row),
            ]
        }
        Mission::Village => village(row, draw),
    }
}

fn attack(row: i32, draw: &mut Draw) -> Vec<Site> {
    let name = draw.pick(&["the farm", "the hamlet", "the mill"]);
    let (main, before) =
        ((draw.between(51, 55), row), (draw.between(38, 40), draw.pick(&[11, 14, 34, 37])));
    vec![
        Site::new(Style::Farm, name, main, [3, 1], [6, 4]).held(),
        Site::new(Style::House, "the barn", before, [2, 1], [2, 2]).held(),
    ]
}

/// Everything lies as far from one side as from the other.
fn meeting(row: i32, draw: &mut Draw) -> Vec<Site> {
    let (near, far) = ((draw.between(35, 37), 9), (draw.between(35, 37), 39));
    vec![
        Site::new(Style::Farm, "the crossroads", (36, row), [2, 2], [4, 4]),
        Site::new(Style::Hill, "the near hill", near, [1, 1], [2, 2]),
        Site::new(Style::Hill, "the far hill", far, [1, 1], [2, 2]),
    ]
}

fn prepared(row: i32, draw: &mut Draw) -> Vec<Site> {
    let mut trench = |name, row, each_turn, at_end| {
        Site::new(Style::Trench, name, (draw.between(52, 55), row), each_turn, at_end).held()
    };
    vec![
        trench("the trench by the road", row, [3, 1], [5, 4]),
        trench("the near trench", row - 13, [2, 1], [3, 2]),
        trench("the far trench", row + 13, [2, 1], [3, 2]),
    ]
}

fn village(row: i32, draw: &mut Draw) -> Vec<Site> {
    let centre = draw.between(48, 51);
    let beside = |name, row| Site::new(Style::House, name, (centre, row), [1, 1], [2, 2]).held();
    let (near, far) = (beside("the school", row - 14), beside("the inn", row + 14));
    let main = Site::new(Style::Village, "the church", (centre, row), [3, 1], [5, 4]).held();
    vec![main, near, far]
}
