//! What the state of a game is worth to a side, by the rules as they are.

use ruleshift_game::{Game, Side, State, View};

/// A game that is won.
const WON: i64 = 10_000;
/// What a point is worth besides winning.
const POINT: i64 = 150;
/// What being at the break point instead of whole is worth.
const RUIN: i64 = 4_000;
/// What a pin on every man is worth.
const PINNED: i64 = 300;

/// What a game that was played out is worth to the side of `view`.
pub(super) fn worth(game: &Game<'_>, view: &View<'_>) -> i64 {
    let side = view.side();
    if let Some((winner, margin)) = game.result() {
        let sign = |good: bool| if good { 1 } else { -1 };
        let won = winner.map_or(0, |winner| WON * sign(winner == side));
        return won + i64::from(margin) * sign(side == Side::Attacker);
    }
    let state = game.state();
    let of = |side| standing(state, view, side);
    (of(side) - of(side.other())).clamp(-WON * 9 / 10, WON * 9 / 10)
}

/// How a side stands while the game goes on.
fn standing(state: &State, view: &View<'_>, side: Side) -> i64 {
    let rules = view.rules();
    let turns = i32::from(view.turn_limit().saturating_sub(state.turn())) + 1;
    let held =
        view.objectives().iter().zip(state.holders()).filter(|(_, holder)| **holder == Some(side));
    let to_come: i32 = held
        .map(|(objective, _)| {
            rules.objective_points(side, objective.each_turn[side]) * turns
                + rules.final_points(side, objective.at_end[side])
        })
        .sum();
    let points = i64::from(state.points()[side]) + i64::from(to_come);
    points * POINT - ruin(state, view, side)
}

/// How far losses and pins have brought a side down.
fn ruin(state: &State, view: &View<'_>, side: Side) -> i64 {
    let (lost, first) = state.losses(side);
    let point = view.break_point(side).max(1);
    let lost = i64::from(lost) * 100 * RUIN / (i64::from(first.max(1)) * i64::from(point));
    let units = state.on_table().filter(|(_, unit)| unit.side == side);
    let pinned: i64 = units.map(|(_, unit)| i64::from(unit.pins.min(unit.men))).sum();
    lost + pinned * PINNED / 10
}
