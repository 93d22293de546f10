//! Small scenes, and troops that do as they are told.

use ruleshift_game::{Choice, Ground, GroupSetup, Observer, Player, Rules, Setup, View};

use crate::support::stage::{Stage, cell, plain, side};

/// Picks one of the choices.
pub(super) type Wish = fn(&View<'_>, &[Choice]) -> Option<usize>;

/// Places its troops in the squares it is given, and then has a wish.
#[derive(Clone, Copy)]
pub(super) struct Drilled<'a> {
    pub(super) squares: &'a [(i32, i32)],
    /// Whether it puts its troops on the table.
    pub(super) opens: bool,
    /// The first turn in which its wish counts.
    pub(super) from: u16,
    pub(super) wish: Wish,
}

impl Player for Drilled<'_> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let at = |wanted: Choice| choices.iter().position(|&choice| choice == wanted);
        if let Choice::PlaceAt(_) = choices[0] {
            let place = |&(x, y): &(i32, i32)| at(Choice::PlaceAt(cell(x, y)));
            return self.squares.iter().find_map(place).unwrap_or(0);
        }
        if let Choice::Stop(_) = choices[choices.len() - 1] {
            return choices.len() - 1;
        }
        let opens = at(Choice::OpenFire).filter(|_| self.opens);
        let wish = || (self.wish)(view, choices).filter(|_| view.turn() >= self.from);
        opens.or_else(wish).or(at(Choice::Done)).unwrap_or(0)
    }
}

/// Wants nothing.
pub(super) const IDLE: Drilled<'static> =
    Drilled { squares: &[], opens: false, from: 1, wish: |_, _| None };

/// The place of the first choice of a kind.
pub(super) fn find(choices: &[Choice], wanted: fn(&Choice) -> bool) -> Option<usize> {
    choices.iter().position(wanted)
}

/// Where a side starts, and its groups.
type Half<'a> = (&'a [(i32, i32)], Vec<GroupSetup>);

/// A setup of two sides, all of whose ground is of one kind.
pub(super) fn setup(ground: Ground, turns: u8, [ours, theirs]: [Half<'_>; 2]) -> Setup {
    let mut setup = plain(turns);
    setup.ground.fill(ground);
    setup.sides.0 = [side(ours.0, ours.1), side(theirs.0, theirs.1)];
    setup
}

/// Plays games of a setup with the seeds from 0 on.
pub(super) fn play(
    setup: Setup,
    rules: Rules,
    games: u64,
    [attacker, defender]: [Drilled<'_>; 2],
    observer: &mut dyn Observer,
) {
    let stage = Stage::new(setup, rules);
    for seed in 0..games {
        stage.play(seed, &mut { attacker }, &mut { defender }, observer);
    }
}
