//! Who won, and how the game ended.

use ruleshift_game::{EndCause, Side};
use ruleshift_record::Metric;

use super::sheet::{End, Sheet};

/// Puts down the outcome: margin in points, turns played (1 to the turn limit), and yes or no, 1 or
/// 0, for each way to end; exactly one of break, nobody left and turn limit is 1. A game ended by the
/// limit is cut off: of its length is known only that it would have been no shorter (a censored
/// observation, as survival statistics call it: Kaplan and Meier, JASA 53, 1958; from memory).
pub(super) fn report(end: &End, to: &mut Sheet) {
    to.value(Metric::Margin, end.margin.into());
    to.count(Metric::Turns, end.turns.into());
    to.flag(Metric::AttackerWins, end.winner == Some(Side::Attacker));
    to.flag(Metric::Drawn, end.winner.is_none());
    to.flag(Metric::EndedByBreak, end.cause == EndCause::SideBroke);
    to.flag(Metric::EndedByAnnihilation, end.cause == EndCause::NobodyLeft);
    to.flag(Metric::EndedByObjective, end.cause == EndCause::TurnLimit);
}
