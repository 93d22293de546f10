//! Cards: how many, and how long a side sees the other's.

use ruleshift_game::{BySide, Side};
use ruleshift_record::Metric;

use super::sheet::{End, Sheet};

/// Cards acted on.
///
/// - Cards in a turn: the mean of those on which somebody has actions; from 0.
/// - Longest wait of a player: the longest run of such cards, all of the other side, across turn
///   ends; from 0.
///
/// Ruleshift's own, no published measure.
#[derive(Clone, Default)]
pub(super) struct Cards {
    drawn: u32,
    runs: BySide<u32>,
    longest: u32,
}

impl Cards {
    /// A card was drawn on which `side` acts.
    pub(super) fn drawn(&mut self, side: Side) {
        self.drawn += 1;
        self.runs[side] = 0;
        self.runs[side.other()] += 1;
        self.longest = self.longest.max(self.runs[side.other()]);
    }

    pub(super) fn count(&self) -> u32 {
        self.drawn
    }

    pub(super) fn report(&self, end: &End, to: &mut Sheet) {
        to.ratio(Metric::CardsPerTurn, self.drawn, end.turns.into());
        to.count(Metric::PlayerWait, self.longest);
    }
}
