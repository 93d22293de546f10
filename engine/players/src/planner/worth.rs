//! What the state of a game is worth to a side, by the rules as they are.
//!
//! While a game goes on, its worth is the chance of winning it, foretold from points, losses and
//! pins. The weights are those of a logistic regression of who won on these figures at the start of
//! each turn: 21,479 turns of 400 games in each shipped scenario, steady on both sides, base rules.
//! They weigh what any rules deal in, and know no rule; what is lost counts against the break point
//! that the rules set.

use ruleshift_game::{Game, Side, State, View};

/// A game that is won; what is likely to be won is worth less.
const WON: i64 = 10_000;
/// What a point more is worth in a game that is over.
const MARGIN: i64 = 10;

// Thousandths of a logit.
/// For each point.
const POINT: i64 = 66;
/// For each point to come for objectives that are held, would nothing change.
const TO_COME: i64 = 8;
/// For losses at the break point.
const RUIN: i64 = 3_000;
/// For a pin on each man there was.
const PINNED: i64 = 4_600;

/// What a game that was played out is worth to the side of `view`.
pub(super) fn worth(game: &Game<'_>, view: &View<'_>) -> i64 {
    let side = view.side();
    if let Some((winner, margin)) = game.result() {
        let sign = |good: bool| if good { 1 } else { -1 };
        let won = winner.map_or(0, |winner| WON * sign(winner == side));
        return won + MARGIN * i64::from(margin) * sign(side == Side::Attacker);
    }
    let state = game.state();
    chance(standing(state, view, side) - standing(state, view, side.other()))
}

/// Twice the chance of winning less one, times [`WON`], from thousandths of a logit: the logistic
/// curve, to within a twentieth of a chance, in whole numbers.
fn chance(logit: i64) -> i64 {
    WON * logit / (4_000_000 + logit * logit).isqrt()
}

/// How a side stands while the game goes on.
fn standing(state: &State, view: &View<'_>, side: Side) -> i64 {
    let points = POINT * i64::from(state.points()[side]);
    points + TO_COME * to_come(state, view, side) - ruin(state, view, side)
}

/// Points that a side would still get for what it holds.
fn to_come(state: &State, view: &View<'_>, side: Side) -> i64 {
    let rules = view.rules();
    let turns = i32::from(view.turn_limit().saturating_sub(state.turn())) + 1;
    let objectives = view.objectives().iter().zip(state.holders());
    let held = objectives.filter(|(_, holder)| **holder == Some(side));
    let points = held.map(|(objective, _)| {
        rules.objective_points(side, objective.each_turn[side]) * turns
            + rules.final_points(side, objective.at_end[side])
    });
    i64::from(points.sum::<i32>())
}

/// How far losses and pins have brought a side down.
fn ruin(state: &State, view: &View<'_>, side: Side) -> i64 {
    let (lost, first) = state.losses(side);
    let (lost, first) = (i64::from(lost), i64::from(first.max(1)));
    let units = state.on_table().filter(|(_, unit)| unit.side == side);
    let pins: i64 = units.map(|(_, unit)| i64::from(unit.pins.min(unit.men))).sum();
    let point = i64::from(view.break_point(side).max(1));
    RUIN * 100 * lost / (first * point) + PINNED * pins / first
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Twice the logistic function less one, tanh(x / 2), from any table of hyperbolic functions.
    #[test]
    fn chances_follow_the_logistic_curve() {
        let table = [(500, 2449), (1_000, 4621), (2_000, 7616), (3_000, 9051), (5_000, 9866)];
        for (logit, exact) in table {
            let off = chance(logit) - exact;
            assert!(off.abs() <= WON * 2 / 20, "{logit}: {off}");
            assert_eq!(chance(-logit), -chance(logit));
        }
        assert_eq!(chance(0), 0);
    }
}
