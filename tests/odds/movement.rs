//! Inches and squares of the first move of a game.

use ruleshift_game::{Choice, Event, Ground, Heading, Kind, Observer, State};

use super::scene::{Drilled, IDLE, find, play, setup};
use super::sheet::{Counts, Under, hold_all};
use crate::support::stage::group;
use crate::support::stats::Sample;

const GAMES: u64 = 3_000;

/// Quick feet and heavy going, and more that no shipped variant changes.
const CHANGED: Under = Under::Script(
    "fn move_dice(now, kind) { if kind == SECTION { 2 } else { now } }
     fn marker_move_dice(now) { 2 }
     fn marker_slowing(now) { 30 }
     fn ground_cost(now, ground) { if now <= 100 { now } else { now + 60 } }
     fn vehicle_cost(now, ground) { if now == 0 { 0 } else { now + 30 } }
     fn bog_number(now, ground) { if now > 0 { now + 1 } else { 0 } }
     fn mine_number(now) { 5 }
     fn pinned_move(now, rolled, pins) { if rolled > 1 { rolled - 1 } else { now } }
    ",
);

/// The first move of each game: inches, and squares from the left.
#[derive(Default)]
struct First {
    from: i32,
    done: bool,
    inches: Counts,
    squares: Counts,
    mean: Sample,
}

impl Observer for First {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::TurnStarted { turn: 1, .. } => {
                self.done = false;
                self.from = state.markers()[0].at.x.into();
            }
            Event::UnitPlaced { unit: 0, at } => self.from = at.x.into(),
            Event::UnitMoved { unit: 0, inches, to, .. }
            | Event::MarkerMoved { marker: 0, inches, to, .. }
                if !self.done =>
            {
                self.done = true;
                *self.inches.entry(inches.into()).or_default() += 1;
                let squares = i32::from(to.x) - self.from;
                *self.squares.entry(squares).or_default() += 1;
                self.mean.add(squares.into());
            }
            _ => {}
        }
    }
}

/// Moves to the right, as a unit or under the marker.
fn first_moves(under: Under, kind: Option<Kind>, ground: Ground) -> First {
    let forces = group(&[(kind.unwrap_or(Kind::Section), 5)]);
    let enemy = group(&[(Kind::Section, 5)]);
    let setup = setup(ground, 1, [(&[(9, 20)], vec![forces]), (&[(70, 46)], vec![enemy])]);
    let walks = Drilled {
        squares: &[(10, 20)],
        opens: kind.is_some(),
        from: 1,
        wish: |_, choices| find(choices, |&c| c == Choice::Move(Heading::Straight(0))),
    };
    let mut first = First::default();
    play(setup, under.rules(), GAMES, [walks, IDLE], &mut first);
    first
}

/// The squares of the rows, whose distribution is not told, are held by their mean: its variance
/// is that of the sample.
#[track_caller]
fn holds(under: Under, kind: Option<Kind>, ground: Ground) {
    let sheet = under.sheet("movement", "");
    let case = kind.map_or("Marker".to_owned(), |kind| {
        let label = kind.label();
        format!("{}{}, without pins", label[..1].to_uppercase(), &label[1..])
    });
    let first = first_moves(under, kind, ground);
    let what = format!("{under:?}: {case} on {ground}");
    hold_all(&what, &first.inches, &sheet.spread(&case, "inches"));
    let mean = sheet.value(&case, &format!("squares of {} entered, mean", ground.label()));
    let off = (first.mean.mean() - mean) / first.mean.error();
    assert!(off.abs() < 4.0, "{what}: {} squares, expected {mean}", first.mean.mean());
    assert!(first.squares.len() > 1, "{what}: {:?}", first.squares);
}

#[test]
fn men_on_foot_go_as_far_as_told() {
    for under in [Under::Base, Under::Shipped("quick-feet+heavy-going"), CHANGED] {
        for ground in [Ground::Open, Ground::Wood, Ground::Crops, Ground::Minefield] {
            holds(under, Some(Kind::Section), ground);
        }
    }
}

#[test]
fn vehicles_go_as_far_as_told_and_stick_as_often() {
    for under in [Under::Base, CHANGED] {
        for ground in [Ground::Road, Ground::Wood, Ground::Wall, Ground::Minefield] {
            holds(under, Some(Kind::Tank), ground);
        }
    }
}

#[test]
fn markers_go_as_far_as_told() {
    for under in [Under::Base, Under::Shipped("heavy-going"), CHANGED] {
        for ground in [Ground::Open, Ground::Wood] {
            holds(under, None, ground);
        }
    }
}
