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
}

/// A player who can tell what it made of its choices.
pub trait Weighing: Player {
    /// What it made of each of the choices it was asked about last, in their order. Nothing when it
    /// does not weigh, as one that leaves all to chance.
    fn scores(&mut self) -> &[Score] {
        &[]
    }
}

/// What the choices of one decision are worth at sight, in fixed room. It is noted at every decision
/// of every game and hardly ever read: so it is kept small, and scores are made of it when asked for.
pub(crate) struct Worth {
    noted: [i32; MAX_CHOICES],
    len: usize,
    scores: Vec<Score>,
}

impl Worth {
    pub(crate) fn new() -> Worth {
        Worth { noted: [0; MAX_CHOICES], len: 0, scores: Vec::new() }
    }

    /// Notes what each choice is worth: the place of the highest, the first of equals.
    pub(crate) fn first_best(&mut self, worth: impl Iterator<Item = i32>) -> usize {
        let (mut best, mut len) = ((i32::MIN, 0), 0);
        for (note, value) in self.noted.iter_mut().zip(worth) {
            *note = value;
            if value > best.0 {
                best = (value, len);
            }
            len += 1;
        }
        self.len = len;
        best.1
    }

    /// The scores of the last decision.
    pub(crate) fn scores(&mut self) -> &[Score] {
        self.scores.clear();
        let at_sight = |&value: &i32| Score { value: value.into(), tries: 0 };
        self.scores.extend(self.noted[..self.len].iter().map(at_sight));
        &self.scores
    }
}
