//! Twice as many units.

use ruleshift_game::{Arena, Cell, GroupSetup, Kind, Setup, SideSetup};
use ruleshift_hooks::Stack;

use crate::rounds::Rounds;
use crate::row::{Row, verdict};
use crate::setting::{Crew, Setting, reference};

const ROUNDS: usize = 9;
const GAMES: u32 = 60;
/// Most times that a game takes longer with twice the units.
const GOAL: f64 = 2.6;

/// The reference game with so many units a side.
fn sized(units: usize) -> Setting {
    let mut setup: Setup = reference().setup().clone();
    for side in &mut setup.sides.0 {
        resize(side, units);
    }
    let arena = Arena::new(setup).unwrap_or_else(|faults| panic!("{faults:?}"));
    Setting::new(&arena, Stack::default())
}

/// Copies the groups of a side, on spots beside the others, until there are units enough, and takes
/// off what is too much, from the largest group each time.
fn resize(side: &mut SideSetup, units: usize) {
    let (groups, spots) = (side.groups.clone(), side.spots.clone());
    let mut copies = 0;
    while count(side) < units {
        let (dx, dy) = [(0, 2), (2, 0), (2, 2)][copies % 3];
        let beside = |spot: &Cell| spot.step(dx, dy).or_else(|| spot.step(-dx, -dy));
        side.groups.extend(groups.iter().map(without_leader));
        side.spots.extend(spots.iter().filter_map(beside));
        copies += 1;
    }
    while count(side) > units {
        let largest = side.groups.iter_mut().max_by_key(|group| group.units.len());
        largest.map(|group| group.units.pop());
    }
}

/// A game has room for 16 leaders: only the first of each group has one, the others one more of
/// those he leads.
fn without_leader(group: &GroupSetup) -> GroupSetup {
    let mut group = group.clone();
    let led = group.units.iter().find(|unit| unit.kind != Kind::Leader).cloned();
    for unit in group.units.iter_mut().filter(|unit| unit.kind == Kind::Leader) {
        *unit = led.clone().expect("a leader leads somebody");
    }
    group
}

fn count(side: &SideSetup) -> usize {
    side.groups.iter().map(|group| group.units.len()).sum()
}

pub(crate) fn row() -> Row {
    let settings = [10, 20, 40].map(sized);
    let [mut ten, mut twenty, mut forty] = settings.each_ref().map(Crew::new);
    let rounds = Rounds::of(
        ROUNDS,
        &mut [&mut || ten.time(4 * GAMES), &mut || twenty.time(2 * GAMES), &mut || {
            forty.time(GAMES)
        }],
    );
    let (first, second) = (rounds.ratio(1, 0), rounds.ratio(2, 1));
    Row {
        what: "20 to 40 units a side, time",
        goal: "<= 2.6 times",
        measured: format!("{second:.2} times"),
        verdict: verdict(second <= GOAL),
        how: format!(
            "the reference game with its groups copied or cut to 10, 20 and 40 units a side: {:.0}, {:.0} and {:.0} us a game; 10 to 20 units {first:.2} times",
            rounds.least(0) / 1e3,
            rounds.least(1) / 1e3,
            rounds.least(2) / 1e3
        ),
    }
}
