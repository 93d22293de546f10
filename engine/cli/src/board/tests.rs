//! Pictures of whole games.

use ruleshift_game::{Event, State};

use super::*;
use crate::trial::{STAGE, start, watch};

fn picture(state: &State) -> String {
    draw(&STAGE.arena, state, STAGE.rules.smoke_radius() as u8, false)
}

#[test]
fn colour_tells_nothing_that_the_signs_do_not() {
    let mut seen = [0; 3];
    watch(|event, state| {
        if let Event::TurnEnded { .. } = event {
            let smoke = STAGE.rules.smoke_radius() as u8;
            let mut painted = draw(&STAGE.arena, state, smoke, true);
            for (code, seen) in ["1m", "1;33m", "1;94m"].iter().zip(&mut seen) {
                let code = format!("\u{1b}[{code}");
                *seen += painted.matches(&code).count();
                painted = painted.replace(&code, "");
            }
            assert_eq!(painted.replace("\u{1b}[0m", ""), picture(state));
        }
    });
    assert!(seen.iter().all(|&seen| seen > 60), "{seen:?}");
}

#[test]
fn a_picture_has_the_shape_of_the_table_and_fits_the_terminal() {
    let mut pictures = 0;
    watch(|event, state| {
        if let Event::TurnEnded { .. } = event {
            let picture = picture(state);
            assert_eq!(picture.lines().count(), HEIGHT as usize / 2 + 2);
            let width = WIDTH as usize + 6;
            assert!(picture.lines().all(|line| line.chars().count() == width && width <= 80));
            pictures += 1;
        }
    });
    assert!(pictures > 60);
}

#[test]
fn units_dug_in_and_smoke_are_drawn() {
    let (mut dug_in, mut smoke) = (0, 0);
    watch(|event, state| {
        if let Event::TurnEnded { .. } = event {
            let picture = picture(state);
            let holes = state.on_table().filter(|(_, unit)| unit.dug_in).count();
            let drawn = picture.matches([')', '(']).count();
            // Signs of units side by side lie one upon the other.
            assert!(drawn <= holes, "{holes} holes:\n{picture}");
            dug_in += drawn;
            // One alone may be the sign of an observer.
            let thick = picture.contains("ooo");
            assert_eq!(thick, !state.screens().is_empty(), "\n{picture}");
            smoke += state.screens().len();
        }
    });
    assert!(dug_in > 0 && smoke > 0, "{dug_in} dug in, {smoke} screens");
}

#[test]
fn features_are_drawn_until_they_are_searched_and_tell_who_hides_there() {
    let first = picture(&start());
    let (hidden, features) = (first.matches("'c").count(), first.matches('\'').count());
    assert_eq!((hidden, features), (1, 2), "\n{first}");
    let mut searched = false;
    watch(|event, state| {
        if matches!(event, Event::TurnEnded { .. })
            && [0, 1].iter().all(|&n| state.searched(Side::Defender, n))
        {
            assert!(!picture(state).contains('\''));
            searched = true;
        }
    });
    assert!(searched);
}
