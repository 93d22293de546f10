//! A scenario with support: a group more, and a spot more where all are taken.

use ruleshift_game::{Cell, Ground};

use crate::form::{Point, ScenarioForm, SideForm, StartForm};
use crate::names::SideName;
use crate::sketch::{Board, point, range};
use crate::support::{Piece, Support, What};

/// Inches between a spot that is added and all other places of its side.
const APART: u8 = 3;

/// Adds support to a scenario.
///
/// # Errors
/// Everything that keeps it from being added.
pub(crate) fn reinforce(form: &mut ScenarioForm, support: &[Support]) -> Result<(), Vec<String>> {
    if support.is_empty() {
        return Ok(());
    }
    let board = Board::new(&form.terrain);
    let mut faults = vec![];
    for support in support {
        let (side, enemy) = match support.side {
            SideName::Attacker => (&mut form.attacker, &form.defender),
            SideName::Defender => (&mut form.defender, &form.attacker),
        };
        let added = match &support.what {
            What::Group(piece) => add(side, enemy, piece, &board),
            What::BreakPoint(percent) => {
                side.break_point = *percent;
                Ok(())
            }
        };
        if let Err(fault) = added {
            let (side, called) = (support.side_word(), support.called());
            faults.push(format!("{side}, support {called}: {fault}"));
        }
        let called = support.called().to_lowercase();
        form.title += &format!("; {} with {called}", support.side_word());
    }
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

fn add(side: &mut SideForm, enemy: &SideForm, piece: &Piece, board: &Board) -> Result<(), String> {
    if side.spots.is_empty() {
        return Err("this side has no `spots` on which it might start".to_owned());
    }
    if piece.is_driven()
        && let Some((x, y)) = housed(&side.spots, board)
    {
        return Err(format!(
            "its vehicles might start on any spot of this side, and ({x}, {y}) is in a building"
        ));
    }
    side.groups.push(piece.group(&side.groups));
    let starting = side.groups.iter().filter(|group| group.start == StartForm::Spot).count();
    // Dummies keep their spots, so that all that has changed is the support.
    if side.spots.len() < starting + usize::from(side.dummies) {
        let spot = further(side, enemy, board);
        side.spots.push(spot.ok_or("there is no room for a further spot near those of this side")?);
    }
    Ok(())
}

/// A spot in a building.
fn housed(spots: &[Point], board: &Board) -> Option<Point> {
    let in_building =
        |&(x, y): &Point| Cell::new(x, y).is_some_and(|at| board.ground(at) == Ground::Building);
    spots.iter().copied().find(in_building)
}

/// The square nearest to the side's first spot that is clear of its other places and no nearer to
/// any of the enemy's spots than the side starts already.
fn further(side: &SideForm, enemy: &SideForm, board: &Board) -> Option<Point> {
    let places =
        || side.spots.iter().copied().chain(side.features.iter().map(|feature| feature.at));
    let away = |from: Point| enemy.spots.iter().map(|&spot| range(from, spot)).min();
    let nearest = side.spots.iter().map(|&spot| away(spot)).min().flatten();
    let fits = |cell: Cell| {
        let at = point(cell);
        board.is_sound_for_vehicles(cell)
            && places().all(|place| range(at, place) >= APART)
            && away(at) >= nearest
    };
    board.nearest(*side.spots.first()?, fits)
}
