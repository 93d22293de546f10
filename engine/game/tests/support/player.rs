//! Players for tests.

use ruleshift_game::luck::Stream;
use ruleshift_game::{Choice, Heading, Player, View};

/// Chooses as a function says.
pub(crate) struct By<F>(pub(crate) F);

impl<F: FnMut(&View<'_>, &[Choice]) -> usize> Player for By<F> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        (self.0)(view, choices)
    }
}

/// Takes the choice it wishes for most, the first of equals. What it has no wish about comes after
/// doing nothing.
pub(crate) struct Wish<F>(F);

/// A player with these wishes.
pub(crate) fn wish<F: FnMut(&View<'_>, Choice) -> Option<i32>>(wishes: F) -> Wish<F> {
    Wish(wishes)
}

/// A player who does as little as possible.
pub(crate) fn idle() -> impl Player {
    wish(|_, _| None)
}

/// A player who has its troops open fire and then does as little as possible.
pub(crate) fn opener() -> impl Player {
    wish(|_, choice| (choice == Choice::OpenFire).then_some(1))
}

/// A player who has its troops open fire, and fires whenever it can.
pub(crate) fn shooter() -> impl Player {
    wish(|_, choice| matches!(choice, Choice::OpenFire | Choice::Fire(_)).then_some(1))
}

impl<F: FnMut(&View<'_>, Choice) -> Option<i32>> Player for Wish<F> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let wish = |(n, &choice): (usize, &Choice)| {
            let idle = if choice == Choice::Done { 0 } else { -1 };
            (std::cmp::Reverse((self.0)(view, choice).unwrap_or(idle)), n)
        };
        choices.iter().enumerate().map(wish).min().map_or(0, |(_, n)| n)
    }
}

/// Chooses at random, likelier what brings the sides together.
pub(crate) struct Lively(pub(crate) Stream);

impl Lively {
    pub(crate) fn new(seed: u64) -> Lively {
        Lively(Stream::new(seed))
    }
}

impl Player for Lively {
    fn choose(&mut self, _: &View<'_>, choices: &[Choice]) -> usize {
        let weight = |choice: &Choice| match choice {
            Choice::Fire(_) => 20,
            Choice::OpenFire => 8,
            Choice::Assault(_) | Choice::Search(_) | Choice::FireBattery => 6,
            Choice::Mount(_) => 8,
            Choice::Dismount(_) | Choice::Adjust(_) | Choice::DigIn => 3,
            Choice::Spot(_) | Choice::Move(Heading::Objective(_)) => 6,
            Choice::OrderAction(_) | Choice::OrderRally(_) | Choice::Rally => 6,
            Choice::Stop(steps) => u32::from(*steps),
            _ => 1,
        };
        let all = choices.iter().map(weight).sum();
        let mut left = self.0.below(all);
        choices
            .iter()
            .position(|choice| {
                let here = weight(choice) > left;
                left = left.saturating_sub(weight(choice));
                here
            })
            .unwrap_or(0)
    }
}
