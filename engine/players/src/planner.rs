//! The planner: plays games out from what may be, and takes what turns out best.
//!
//! Each try draws a state that the side cannot tell from the real one (information-set sampling:
//! Cowling, Powley and Whitehouse, IEEE TCIAIG 4 (2012), 120-143), makes one of the choices in it
//! and plays on with a doctrine for both sides, under the rules and house rules as they are. Every
//! choice is tried in the same states with the same luck, so that they differ by nothing but
//! themselves; the tries are shared out by successive halving (Karnin, Koren and Somekh, ICML 2013):
//! all choices get a few, the better half some more, until two are left, what the doctrine would do
//! and the best of the others; what does not look better than the doctrine's is tried no more. The other is taken when it is better beyond doubt: what looks best of
//! many is partly luck, and a plan made of such luck does not hold together.
//!
//! The planner knows no rule. It thinks in tries, never in time: a game comes back the same.

mod playout;
mod worth;

use std::cmp::Reverse;
use std::ops::Range;

use ruleshift_game::limits::MAX_CHOICES;
use ruleshift_game::{Choice, Digest, EventScript, Player, Rules, View};

use crate::doctrine::Doctrine;
use crate::restrict::Behaviour;
use crate::strategy::restricted;
use crate::weighing::{Score, Weighing};
use playout::Playout;

/// Playouts for each choice that is tried.
const TRIES: u32 = 4;
/// Standard errors, in quarters, by which the gain of another choice over the doctrine's must
/// exceed zero.
const DOUBT: i128 = 8;

/// How a planner thinks.
#[derive(Clone, Debug)]
pub struct Planning {
    /// The doctrine that both sides play games out with.
    pub style: Doctrine,
    /// Games played out for each decision, at most.
    pub playouts: u32,
    /// Turns that a game is played out for, after the one under way.
    pub turns: u16,
}

impl Planning {
    /// Name of the usual doctrine.
    pub const STYLE: &str = "steady";
    /// The usual number of playouts.
    pub const PLAYOUTS: u32 = 48;
    /// The usual number of turns.
    pub const TURNS: u16 = 0;
    /// Rises whenever a planner of the same options plays otherwise.
    const VERSION: u64 = 1;

    /// Adds all that decides its choices.
    pub(crate) fn digest(&self, digest: &mut Digest) {
        digest.word(Self::VERSION);
        digest.word(self.playouts.into());
        digest.word(self.turns.into());
        self.style.digest(digest);
    }
}

/// A player that looks ahead.
pub struct Planner {
    playouts: u32,
    style: Box<dyn Weighing>,
    playout: Playout,
    tried: [Tried; MAX_CHOICES],
    scores: Vec<Score>,
}

/// What became of one choice in the games played out.
#[derive(Clone, Copy, Debug, Default)]
struct Tried {
    /// Its place among the choices.
    place: usize,
    /// What the games were worth, summed.
    worth: i64,
    /// The same, less what they were worth after the doctrine's choice.
    gain: i64,
    /// The squares of that, summed.
    squares: i128,
    tries: u32,
}

impl Planner {
    /// A planner under `rules`, who expects to do without some behaviours; `script` are the event
    /// hooks of the rule stack, if there are any, for the games it plays out.
    pub fn new(
        planning: &Planning,
        without: &[Behaviour],
        rules: &Rules,
        script: Option<Box<dyn EventScript>>,
    ) -> Planner {
        let player = || crate::player(&planning.style, rules);
        let own = restricted(player(), without);
        Planner {
            playouts: planning.playouts,
            style: player(),
            playout: Playout { own, other: player(), script, turns: planning.turns },
            tried: [Tried::default(); MAX_CHOICES],
            scores: Vec::new(),
        }
    }

    /// Lines up the choices to be tried: the doctrine's, then the others as it ranks them.
    fn line_up(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let first = self.style.choose(view, choices).min(choices.len() - 1);
        for (place, tried) in self.tried[..choices.len()].iter_mut().enumerate() {
            *tried = Tried { place, ..Tried::default() };
        }
        let scores = self.style.scores();
        let rank = |tried: &Tried| {
            let score = scores.get(tried.place).map_or(0, |score| score.value);
            (tried.place != first, Reverse(score))
        };
        self.tried[..choices.len()].sort_by_key(rank);
        affordable(choices.len(), self.playouts)
    }

    /// Tries each of the first `count` choices in these states.
    fn try_all(&mut self, view: &View<'_>, choices: &[Choice], count: usize, states: Range<u32>) {
        for nth in states {
            let imagined = view.imagine(nth.into());
            let mut usual = 0;
            for (n, tried) in self.tried[..count].iter_mut().enumerate() {
                let worth = self.playout.play(view, &imagined, choices[tried.place]);
                usual = if n == 0 { worth } else { usual };
                tried.add(worth, worth - usual);
            }
        }
    }
}

/// Rounds of halving until two of so many are left.
fn rounds(count: usize) -> u32 {
    count.next_power_of_two().ilog2().max(1)
}

/// How many of so many choices can be tried with these playouts: at least [`TRIES`] for each, and
/// at least one for each that is left in every round.
fn affordable(choices: usize, playouts: u32) -> usize {
    let most = choices.min((playouts / TRIES).max(2) as usize);
    (2..=most).rev().find(|&count| count as u32 * rounds(count) <= playouts).unwrap_or(2)
}

impl Tried {
    fn add(&mut self, worth: i64, gain: i64) {
        self.worth += worth;
        self.gain += gain;
        self.squares += i128::from(gain) * i128::from(gain);
        self.tries += 1;
    }

    /// Whether it gains more than its standard error times [`DOUBT`] quarters: with n tries, sum g
    /// and sum of squares s, the mean is g/n and its variance (s - g*g/n) / (n * (n - 1)).
    fn better(&self) -> bool {
        let (n, gain) = (i128::from(self.tries), i128::from(self.gain));
        gain > 0 && 16 * gain * gain * (n - 1) > DOUBT * DOUBT * (n * self.squares - gain * gain)
    }
}

impl Player for Planner {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let all = self.line_up(view, choices);
        let rounds = rounds(all);
        let (mut left, mut states) = (all, 0);
        for round in 0..rounds {
            let in_plan = all.div_ceil(1 << round).max(2) as u32;
            let more = (self.playouts / rounds / in_plan).max(1);
            self.try_all(view, choices, left, states..states + more);
            states += more;
            left = self.keep(left, in_plan.div_ceil(2).max(2) as usize);
            if left < 2 {
                break;
            }
        }
        let best = usize::from(left > 1 && self.tried[1].better());
        self.tell(choices.len(), all);
        self.tried[best].place
    }
}

impl Planner {
    /// Keeps, of the first `count`, the doctrine's choice and the best of those that look better so
    /// far, `most` in all: how many are kept.
    fn keep(&mut self, count: usize, most: usize) -> usize {
        // Stable: of equals, what the doctrine prefers stays in front.
        self.tried[1..count].sort_by_key(|tried| Reverse(tried.gain));
        1 + self.tried[1..count.min(most)].iter().take_while(|tried| tried.gain > 0).count()
    }

    /// Notes what was found for those who ask.
    fn tell(&mut self, choices: usize, tried: usize) {
        self.scores.clear();
        self.scores.resize(choices, Score::default());
        for tried in &self.tried[..tried] {
            let value = tried.worth / i64::from(tried.tries.max(1));
            self.scores[tried.place] = Score { value, tries: tried.tries };
        }
    }
}

impl Weighing for Planner {
    fn scores(&mut self) -> &[Score] {
        &self.scores
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_played_out_than_the_budget_allows() {
        for playouts in 2..400 {
            for choices in 2..=MAX_CHOICES {
                let all = affordable(choices, playouts);
                let each = playouts / rounds(all);
                let used = (0..rounds(all)).map(|round| {
                    let left = all.div_ceil(1 << round).max(2) as u32;
                    (each / left).max(1) * left
                });
                assert!(used.sum::<u32>() <= playouts, "{choices} choices, {playouts} playouts");
                assert!(all >= 2 && all <= choices);
            }
        }
    }

    /// Gains of 1, 2, 3: mean 2, standard error 1 / sqrt(3), so 3.46 errors above nothing. With -1
    /// added the mean is 1.25 and the error 0.854: 1.46 errors.
    #[test]
    fn a_gain_counts_when_it_is_two_standard_errors_above_nothing() {
        let mut tried = Tried::default();
        [1, 2, 3].iter().for_each(|&gain| tried.add(0, gain));
        assert!(tried.better());
        tried.add(0, -1);
        assert!(!tried.better());
        assert!(!Tried::default().better());
    }
}
