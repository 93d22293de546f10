//! Which games an arm has, told as spans: a run plays its games from the first on, so that a million
//! of them are a span or two.

use std::ops::Range;

use crate::GameRow;

/// Games of one scenario whose numbers follow each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// Index into the plan's scenarios.
    pub scenario: usize,
    /// Their numbers.
    pub games: Range<u32>,
}

impl Span {
    /// Puts the next game behind `spans`.
    pub(super) fn note(spans: &mut Vec<Span>, scenario: usize, game: u32) {
        match spans.last_mut() {
            Some(last) if (last.scenario, last.games.end) == (scenario, game) => {
                last.games.end += 1;
            }
            _ => spans.push(Span { scenario, games: game..game + 1 }),
        }
    }

    /// The spans of rows in order.
    pub(super) fn of(rows: &[GameRow]) -> Vec<Span> {
        let mut spans = Vec::new();
        rows.iter().for_each(|row| Span::note(&mut spans, row.scenario, row.game));
        spans
    }

    /// Scenario and number of each of its games.
    pub fn keys(self) -> impl Iterator<Item = (usize, u32)> {
        self.games.map(move |game| (self.scenario, game))
    }
}
