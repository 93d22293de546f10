//! Which objective a unit goes for, and how strongly.

use ruleshift_game::{Cell, Gait, Kind, Side, View};

use crate::weights::Weights;

/// Distance in inches within which enemies threaten an objective.
const NEAR: u8 = 15;
/// Units that may be expected to leave where leaving earns points.
const UNITS_LEAVING: i32 = 8;
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
    gait: Gait,
    /// Whether the side holds it.
    pub(crate) held: bool,
}

impl Goal {
    /// The goal of a unit of `kind` at `from`: where points are to be won or kept, near things
    /// first. What the side holds and nobody threatens needs no keeper.
    pub(crate) fn choose(view: &View<'_>, weights: &Weights, kind: Kind, from: Cell) -> Goal {
        let gait = Gait::of(kind);
        let value = |n: usize| {
            let idle = held(view, n)
                && !threatened(view, n)
                && view.holders()[..count(view)].iter().any(|h| *h != Some(view.side()));
            let far = if idle { 1000 } else { inches(view, n, from, gait) };
            swing(view, n) * INCHES_A_POINT - far
        };
        let objective = (0..count(view)).rev().max_by_key(|&n| value(n)).unwrap_or(0);
        let share = share(kind, weights);
        let reach = view.rules().holding_distance();
        if held(view, objective) {
            Goal {
                objective,
                pull: weights.hold * share / 10,
                enough: if kind.is_section() { reach } else { 4 * reach },
                gait,
                held: true,
            }
        } else {
            Goal {
                objective,
                pull: weights.advance * share / 10 * urgency(view) / 8,
                enough: reach - 1,
                gait,
                held: false,
            }
        }
    }

    /// Inches from `cell` to where it is near enough.
    pub(crate) fn distance(&self, view: &View<'_>, cell: Cell) -> i32 {
        (inches(view, self.objective, cell, self.gait) - self.enough).max(0)
    }
}

fn count(view: &View<'_>) -> usize {
    view.objectives().len()
}

fn held(view: &View<'_>, objective: usize) -> bool {
    view.holders()[objective] == Some(view.side())
}

/// Tenths of the pull of objectives that a kind feels: sections take ground, tanks help them to,
/// guns stay where they are.
fn share(kind: Kind, weights: &Weights) -> i32 {
    match kind {
        Kind::Section | Kind::AssaultSection => 10,
        Kind::Tank | Kind::AssaultGun | Kind::Carrier => (10 + weights.support) / 2,
        Kind::AntiTankGun => 0,
        _ => weights.support,
    }
}

fn inches(view: &View<'_>, objective: usize, cell: Cell, gait: Gait) -> i32 {
    (view.paths().to_go(objective, cell, gait) / 100).min(200) as i32
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
            + UNITS_LEAVING * rules.leaving_points(side, listed.leaving[side])
    };
    of(Side::Attacker) + of(Side::Defender)
}

/// How pressing it is to reach an objective, in eighths: more as turns run out.
fn urgency(view: &View<'_>) -> i32 {
    8 + 8 * i32::from(view.turn()) / i32::from(view.turn_limit().max(1))
}
