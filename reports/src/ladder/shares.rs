//! Shares of games won: whose, against whom, on which side, in which scenario.

use ruleshift_record::LadderShare;

use super::games::{LadderRow, Sorted};
use crate::stats::{CONFIDENCE, Share, share};

/// Which games count, and for whom.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Question {
    /// The player whose wins are counted; the attacker's, whoever he is, when `None`.
    pub(super) player: Option<usize>,
    /// Only games against that player.
    pub(super) other: Option<usize>,
    /// Only games with the player on that side: `true` for the attacker.
    pub(super) attacking: Option<bool>,
    /// Only games of that scenario.
    pub(super) scenario: Option<usize>,
}

impl Question {
    pub(super) fn of(player: usize) -> Question {
        Question { player: Some(player), ..Question::default() }
    }

    pub(super) fn against(self, other: usize) -> Question {
        Question { other: Some(other), ..self }
    }

    pub(super) fn attacking(self, attacking: bool) -> Question {
        Question { attacking: Some(attacking), ..self }
    }

    pub(super) fn within(self, scenario: usize) -> Question {
        Question { scenario: Some(scenario), ..self }
    }

    /// The result of a game for the player in question; `None` when it does not count. A game
    /// against oneself never does, unless it is asked for.
    fn result(&self, row: &LadderRow) -> Option<f64> {
        let attacking = self.player.is_none_or(|p| p == row.attacker);
        let (me, them) = match attacking {
            true => (row.attacker, row.defender),
            false => (row.defender, row.attacker),
        };
        let counts = self.player.is_none_or(|p| p == me)
            && self.other.map_or(me != them, |o| o == them)
            && self.attacking.is_none_or(|a| a == attacking)
            && self.scenario.is_none_or(|s| s == row.scenario);
        let won = row.outcome.attacker_share();
        counts.then_some(if attacking { won } else { 1.0 - won })
    }

    /// The share and the games it rests on.
    pub(super) fn ask(&self, sorted: &Sorted) -> Option<(Share, u64)> {
        let mut games = 0;
        let mut scenarios = Vec::with_capacity(sorted.scenarios);
        for seeds in sorted.by_luck() {
            let mut values = Vec::with_capacity(seeds.len());
            for rows in seeds {
                let results: Vec<f64> = rows.iter().filter_map(|r| self.result(r)).collect();
                games += results.len();
                if !results.is_empty() {
                    values.push(results.iter().sum::<f64>() / results.len() as f64);
                }
            }
            scenarios.push(values);
        }
        Some((share(&scenarios, games, CONFIDENCE)?, games as u64))
    }

    /// The share as it is written down.
    pub(super) fn answer(&self, sorted: &Sorted) -> Option<LadderShare> {
        self.ask(sorted).map(|(share, games)| LadderShare {
            games,
            share: share.value,
            low: share.interval.low,
            high: share.interval.high,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ladder::{Outcome, sample};

    fn asked(question: Question) -> Option<(f64, u64)> {
        let rows = [
            (0, 1, 0, Outcome::Attacker),
            (1, 0, 0, Outcome::Draw),
            (0, 2, 0, Outcome::Defender),
            (2, 0, 1, Outcome::Attacker),
            (0, 0, 1, Outcome::Attacker),
        ];
        let games = sample::games(&["a", "b", "c"], &rows);
        question.answer(&Sorted::of(&games)).map(|s| (s.share, s.games))
    }

    #[test]
    fn only_what_is_asked_for_counts() {
        // In the first scenario 1, a half and 0; in the second 0.
        assert_eq!(asked(Question::of(0)), Some((0.25, 4)));
        assert_eq!(asked(Question::of(0).attacking(true)), Some((0.5, 2)));
        assert_eq!(asked(Question::of(0).attacking(false)), Some((0.25, 2)));
        assert_eq!(asked(Question::of(0).against(1)), Some((0.75, 2)));
        assert_eq!(asked(Question::of(0).within(1)), Some((0.0, 1)));
        assert_eq!(asked(Question::of(1).against(2)), None);
        assert_eq!(asked(Question::default()), Some((0.75, 4)));
        assert_eq!(asked(Question::of(0).against(0).attacking(true)), Some((1.0, 1)));
    }
}
