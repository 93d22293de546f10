//! The planner: plays games out from what may be, and takes what turns out best.
//!
//! Each try draws a state that the side cannot tell from the real one (information-set sampling:
//! Cowling, Powley and Whitehouse, IEEE TCIAIG 4 (2012), 120-143), makes one of the choices in it
//! and plays on with a doctrine for both sides, under the rules and house rules as they are. Every
//! choice is tried in the same states with the same luck, so that they differ by nothing but
//! themselves; the tries are shared out by successive halving (Karnin, Koren and Somekh, ICML 2013):
//! all choices get a few, the better half some more, until two are left. The planner knows no rule.
//!
//! What it thinks with is counted in tries, never in time: a game comes back the same.

mod playout;
mod worth;

use ruleshift_game::limits::MAX_CHOICES;
use ruleshift_game::{Choice, EventScript, Player, Rules, View};

use crate::doctrine::Doctrine;
use playout::Playout;

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

/// A player that looks ahead.
pub struct Planner {
    planning: Planning,
    first: Box<dyn Player>,
    playout: Playout,
    tried: [Tried; MAX_CHOICES],
}

/// What became of one choice in the games played out.
#[derive(Clone, Copy, Debug, Default)]
struct Tried {
    /// Its place among the choices.
    place: usize,
    /// What the games were worth, less what they were after the first choice, summed.
    gain: i64,
    /// The same squared, summed.
    squares: i64,
}

impl Planner {
    /// A planner under `rules`; `script` makes the event hooks of the rule stack, if there are any.
    pub fn new(planning: Planning, rules: &Rules, script: Option<Box<dyn EventScript>>) -> Planner {
        let player = || crate::player(&planning.style, rules);
        Planner {
            first: player(),
            playout: Playout::new(player(), script, planning.turns),
            tried: [Tried::default(); MAX_CHOICES],
            planning,
        }
    }

    /// The choices in the order in which they are preferred when they turn out alike: first what the
    /// doctrine would do.
    fn line_up(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let first = self.first.choose(view, choices).min(choices.len() - 1);
        let others = (0..choices.len()).filter(|&place| place != first);
        let most = (self.planning.playouts as usize).clamp(1, MAX_CHOICES);
        let mut count = 0;
        for place in std::iter::once(first).chain(others).take(most) {
            self.tried[count] = Tried { place, ..Tried::default() };
            count += 1;
        }
        count
    }

    /// Tries each of the first `count` choices in the states from `first` to before `end`.
    fn try_all(
        &mut self,
        view: &View<'_>,
        choices: &[Choice],
        count: usize,
        states: std::ops::Range<u32>,
    ) {
        for nth in states {
            let imagined = view.imagine(nth.into());
            let [first, others @ ..] = &mut self.tried[..count] else { return };
            let usual = self.playout.play(view, &imagined, choices[first.place]);
            for tried in others {
                let gain = self.playout.play(view, &imagined, choices[tried.place]) - usual;
                tried.gain += gain;
                tried.squares += gain * gain;
            }
        }
    }
}

impl Player for Planner {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let mut left = self.line_up(view, choices);
        let rounds = left.next_power_of_two().ilog2().max(1);
        let each = (self.planning.playouts / rounds).max(1);
        let mut states = 0;
        while left > 1 {
            let more = (each / left as u32).max(1);
            self.try_all(view, choices, left, states..states + more);
            states += more;
            // Stable: of equals the first stays in front.
            self.tried[1..left].sort_by_key(|tried| std::cmp::Reverse(tried.gain));
            left = if left == 2 { 1 } else { 1 + (left - 1).div_ceil(2) };
        }
        let n = states as f64;
        let t = &self.tried[1];
        let mean = t.gain as f64 / n;
        let var = (t.squares as f64 / n - mean * mean).max(0.0) / (n - 1.0).max(1.0);
        let z: f64 = std::env::var("Z").ok().and_then(|z| z.parse().ok()).unwrap_or(1.0);
        let m: f64 = std::env::var("M").ok().and_then(|z| z.parse().ok()).unwrap_or(0.0);
        if mean > m + z * var.sqrt() && mean > 0.0 { t.place } else { self.tried[0].place }
    }
}
