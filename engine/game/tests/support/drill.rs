//! Troops that come on the table where they are wanted, and then do as they are told.

use ruleshift_game::{Cell, Choice, Player, Side, UnitSetup, View};

use super::{Scene, wish};

impl Scene {
    /// Adds a group of one that [`drill`] places in just this square.
    pub(crate) fn stand(self, side: Side, at: (u8, u8), unit: UnitSetup) -> Scene {
        // The squares offered for placing are an odd number of inches from the marker's.
        self.group(side, (at.0 - 1, at.1), &[unit])
    }
}

/// A player who places his troops in these squares and from the second turn on has these wishes.
pub(crate) fn drill<'a>(
    squares: &'a [(u8, u8)],
    mut wishes: impl FnMut(&View<'_>, Choice) -> Option<i32> + 'a,
) -> impl Player + 'a {
    wish(move |view, choice| match choice {
        Choice::OpenFire => Some(50),
        Choice::PlaceAt(Cell { x, y }) => squares.contains(&(x, y)).then_some(40),
        _ if view.turn() < 2 => None,
        _ => wishes(view, choice),
    })
}
