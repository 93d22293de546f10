//! The chance to win, as both players can reckon it at the end of a turn: no game is played out.

use ruleshift_game::{Arena, Rules, Side, State, Table};

/// A chance of 1.
pub const CERTAIN: u32 = 10_000;

// Weights of a logistic regression of who won (a draw is half a win) on the figures at the end of
// each turn but the last: 113,961 turn ends of 16,320 games, all eight shipped scenarios, all 25
// pairings of the five doctrines that play to win, those of steady with itself ten times as many and
// with twice the weight, base rules. Thousandths of a logit.
/// For each point ahead, would the game stop now, with one turn to play; less the more turns there
/// are.
const AHEAD: i64 = 275;
/// For losses at the break point.
const RUIN: i64 = 3_000;
/// For a pin on each man there was.
const PINNED: i64 = 5_150;
/// For the attacker: what the defender holds at first is there to be taken.
const ATTACKER: i64 = 215;

/// The logistic function from 0 by quarters of a logit, in ten-thousandths.
const LOGISTIC: [u32; 33] = [
    5_000, 5_622, 6_225, 6_792, 7_311, 7_773, 8_176, 8_520, 8_808, 9_047, 9_241, 9_399, 9_526,
    9_627, 9_707, 9_770, 9_820, 9_859, 9_890, 9_914, 9_933, 9_948, 9_959, 9_968, 9_975, 9_981,
    9_985, 9_988, 9_991, 9_993, 9_994, 9_996, 9_997,
];
/// Thousandths of a logit from one entry to the next.
const STEP: u64 = 250;

/// The attacker's chance to win in parts of [`CERTAIN`], as it is estimated at the end of a turn from
/// what both players see: points and objectives held, losses against break points, pins, turns left.
///
/// A logistic regression (Cox, J. R. Statist. Soc. B 20, 1958, 215-242; from memory) with fixed
/// weights, in whole numbers. It says who stands better under the rules as they are and how surely
/// that used to decide games under the base rules; a test of calibration holds it to real games.
pub fn attacker_chance(state: &State, table: &Table<'_>) -> u32 {
    let Table { arena, rules, .. } = *table;
    let limit = rules.turn_limit(arena.setup().turn_limit);
    let left = (limit - i32::from(state.turn())).max(0);
    let [attacker, defender] = [Side::Attacker, Side::Defender].map(|side| {
        let points = AHEAD * points(side, state, arena, rules) / i64::from(left + 1);
        points - harm(side, state, arena, rules)
    });
    logistic(ATTACKER + attacker - defender)
}

/// Points of a side, would the game stop now.
fn points(side: Side, state: &State, arena: &Arena, rules: &Rules) -> i64 {
    let objectives = arena.objectives().iter().zip(state.holders());
    let held = objectives.filter(|(_, holder)| **holder == Some(side));
    let final_points =
        held.map(|(objective, _)| rules.final_points(side, objective.at_end[side].min(20)));
    i64::from(state.points()[side]) + i64::from(final_points.sum::<i32>())
}

/// How far losses and pins have brought a side down.
fn harm(side: Side, state: &State, arena: &Arena, rules: &Rules) -> i64 {
    let (lost, first) = state.losses(side);
    let (lost, first) = (i64::from(lost), i64::from(first.max(1)));
    let units = state.on_table().filter(|(_, unit)| unit.side == side);
    let pins: i64 = units.map(|(_, unit)| i64::from(unit.pins.min(unit.men))).sum();
    let point = i64::from(rules.break_point(side, arena.setup().sides[side].break_point).max(1));
    RUIN * 100 * lost / (first * point) + PINNED * pins / first
}

/// The logistic function of thousandths of a logit, to within a thousandth. From a table: the
/// exponential of one machine differs from another's in the last digits.
fn logistic(logit: i64) -> u32 {
    let far = logit.unsigned_abs();
    let entry = (far / STEP) as usize;
    let chance = match LOGISTIC.get(entry..entry + 2) {
        Some(&[low, high]) => low + (high - low) * (far % STEP) as u32 / STEP as u32,
        _ => LOGISTIC[LOGISTIC.len() - 1],
    };
    if logit < 0 { CERTAIN - chance } else { chance }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_follows_the_logistic_function() {
        for logit in -12_000..=12_000 {
            let exact = f64::from(CERTAIN) / (1.0 + (-logit as f64 / 1000.0).exp());
            let off = f64::from(logistic(logit)) - exact;
            assert!(off.abs() <= 10.0, "{logit}: {off}");
            assert_eq!(logistic(logit) + logistic(-logit), CERTAIN);
        }
    }
}
