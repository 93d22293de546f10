//! What a player made of its choices, for those who want to know why it chose as it did.

use ruleshift_game::Player;
use ruleshift_game::limits::MAX_CHOICES;

/// What a player made of one choice. Scores tell something only beside those of the same decision.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// How good it is; more is better.
    pub value: i64,
    /// Games that were played on from it to find out; none when it was weighed at sight.
    pub tries: u32,
}

impl Score {
    /// Stands for a choice that is forbidden to the player, who has not weighed it.
    pub const FORBIDDEN: Score = Score { value: i64::MIN, tries: 0 };

    /// A score at sight.
    pub(crate) fn at_sight(value: i32) -> Score {
        Score { value: value.into(), tries: 0 }
    }
}

/// A player who can tell what it made of its choices.
pub trait Weighing: Player {
    /// What it made of each of the choices it was asked about last, in their order. Nothing when it
    /// does not weigh, as one that leaves all to chance.
    fn scores(&self) -> &[Score] {
        &[]
    }
}

/// Scores of one decision in fixed room.
pub(crate) struct Scores {
    list: [Score; MAX_CHOICES],
    len: usize,
}

impl Scores {
    pub(crate) fn new() -> Scores {
        Scores { list: [Score::default(); MAX_CHOICES], len: 0 }
    }

    pub(crate) fn clear(&mut self) {
        self.len = 0;
    }

    /// Adds the score of the next choice; a full list takes no more.
    pub(crate) fn add(&mut self, score: Score) {
        if let Some(next) = self.list.get_mut(self.len) {
            *next = score;
            self.len += 1;
        }
    }

    pub(crate) fn as_slice(&self) -> &[Score] {
        &self.list[..self.len]
    }
}
