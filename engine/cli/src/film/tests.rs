//! A film holds what the game was.

use ruleshift_game::{Event, Game, Observer, Side, State};
use ruleshift_players::Chance;
use ruleshift_reports::watch::{MarkerNow, UnitNow};

use super::seen::{marker_now, unit_now};
use super::{Camera, Take};
use crate::story::{HouseNames, Story};
use crate::trial::STAGE;

/// A camera with someone beside it who notes how everything is after each event.
struct Witness<'a> {
    camera: Camera<'a>,
    states: Vec<Seen>,
}

/// Units, markers, points and men lost.
type Seen = (Vec<UnitNow>, Vec<MarkerNow>, [i16; 2], [u32; 2]);

impl Observer for Witness<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.camera.event(event, state);
        self.states.push((
            state.units().iter().map(|unit| unit_now(unit, &STAGE.rules)).collect(),
            state.markers().iter().map(marker_now).collect(),
            state.points().0,
            [Side::Attacker, Side::Defender].map(|side| state.losses(side).0),
        ));
    }

    fn note(&mut self, line: &str) {
        self.camera.note(line);
    }
}

fn taken(seed: u64) -> (Take, Vec<Seen>) {
    let story = Story::new(&STAGE.arena, &STAGE.rules, HouseNames::default(), false);
    let mut witness = Witness { camera: Camera::new(story), states: vec![] };
    let game = Game::new(STAGE.table(), seed, None, &mut witness);
    game.play(&mut Chance, &mut Chance).expect("the game is played out");
    (witness.camera.into_take(), witness.states)
}

/// Whoever applies the changes of a film from the start sees the game as it was, at every event.
#[test]
fn changes_put_together_are_the_game() {
    for seed in 0..20 {
        let (take, states) = taken(seed);
        assert_eq!(take.steps.len(), states.len());
        let (mut units, mut markers) = (states[0].0.clone(), states[0].1.clone());
        let (mut points, mut lost) = ([0; 2], [0; 2]);
        for (step, state) in take.steps.iter().zip(&states) {
            step.units.iter().for_each(|&(id, now)| units[id as usize] = now);
            step.markers.iter().for_each(|&(id, now)| markers[id as usize] = now);
            points = step.points.unwrap_or(points);
            lost = step.lost.unwrap_or(lost);
            assert_eq!((&units, &markers, points, lost), (&state.0, &state.1, state.2, state.3));
        }
        // The first step names everything.
        assert_eq!(take.steps[0].units.len(), states[0].0.len());
        assert_eq!(take.steps[0].markers.len(), take.markers.len());
    }
}

#[test]
fn every_event_has_words_and_someone_who_learns_of_it() {
    let (take, _) = taken(3);
    for step in &take.steps {
        assert!(!step.text.is_empty() && step.text.trim() == step.text, "{step:?}");
        assert!((1..=3).contains(&step.told), "{step:?}");
    }
}
