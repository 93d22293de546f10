//! The player at the bottom of the ladder: any legal choice, each as likely.

use ruleshift_game::{Choice, Player, View};

use crate::weighing::Weighing;

/// Chooses uniformly among the legal choices.
#[derive(Clone, Copy, Debug, Default)]
pub struct Chance;

impl Player for Chance {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        ((u128::from(view.whim()) * choices.len() as u128) >> 64) as usize
    }
}

impl Weighing for Chance {}
