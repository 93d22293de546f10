//! Which objective a unit goes for, and how strongly.

use ruleshift_game::{Cell, Kind, Side, View};

use crate::doctrine::Weights;

/// Distance in inches within which enemies threaten an objective.
const NEAR: u8 = 15;
/// Inches of way that a point of difference is worth.
const INCHES_A_POINT: i32 = 3;

/// The objective a unit goes for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Goal {
    objective: usize,
    /// Points lost for each inch away from it.
    pub(crate) pull: i32,
    /// Inches within which being nearer is of no use.
    enough: i32,
}

impl Goal {
    /// The goal of a unit of `kind` at `from`: where points are to be won or kept, near things
    /// first. What the side holds and nobody threatens needs no keeper.
    pub(crate) fn choose(view: &View<'_>, weights: &Weights, kind: Kind, from: Cell) -> Goal {
        let value = |n: usize| {
            let idle = held(view, n)
                && !threatened(view, n)
                && view.holders()[..count(view)].iter().any(|h| *h != Some(view.side()));
            let far = if idle { 1000 } else { inches(view, n, from) };
            swing(view, n) * INCHES_A_POINT - far
        };
        let objective = (0..count(view)).rev().max_by_key(|&n| value(n)).unwrap_or(0);
        let share = if kind == Kind::Section { 10 } else { weights.support };
        let reach = view.rules().holding_distance();
        if held(view, objective) {
            Goal {
                objective,
                pull: weights.hold * share / 10,
                enough: if kind == Kind::Section { reach } else { 4 * reach },
            }
        } else {
            Goal {
                objective,
                pull: weights.advance * share / 10 * urgency(view) / 8,
                enough: reach - 1,
            }
        }
    }

    /// Inches from `cell` to where it is near enough.
    pub(crate) fn distance(&self, view: &View<'_>, cell: Cell) -> i32 {
        (inches(view, self.objective, cell) - self.enough).max(0)
    }
}

fn count(view: &View<'_>) -> usize {
    view.objectives().len()
}

fn held(view: &View<'_>, objective: usize) -> bool {
    view.holders()[objective] == Some(view.side())
}

fn inches(view: &View<'_>, objective: usize, cell: Cell) -> i32 {
    (view.paths().to_go(objective, cell) / 100).min(200) as i32
}

fn threatened(view: &View<'_>, objective: usize) -> bool {
    let at = view.objectives()[objective].at;
    view.enemy_units().any(|(_, unit)| unit.at.range(at) <= NEAR)
        || view.enemy_markers().any(|m| m.at.range(at) <= NEAR)
}

/// Points between holding an objective from now on and leaving it to the enemy, by the rules as
/// they are.
fn swing(view: &View<'_>, objective: usize) -> i32 {
    let (listed, rules) = (&view.objectives()[objective], view.rules());
    let turns = i32::from(view.turn_limit().saturating_sub(view.turn())) + 1;
    let of = |side: Side| {
        rules.objective_points(side, listed.each_turn[side]) * turns
            + rules.final_points(side, listed.at_end[side])
    };
    of(Side::Attacker) + of(Side::Defender)
}

/// How pressing it is to reach an objective, in eighths: more as turns run out.
fn urgency(view: &View<'_>) -> i32 {
    8 + 8 * i32::from(view.turn()) / i32::from(view.turn_limit().max(1))
}
