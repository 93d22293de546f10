//! Takes down a game, event by event, with what each event changed on the table.

use ruleshift_game::{Event, Observer, Side, State};
use ruleshift_reports::watch::{MarkerCard, MarkerNow, Step, UnitNow};

use super::seen::{dice, happened, line, marker_now, smoke, unit_now};
use crate::story::{Story, letter};

/// A game that was taken down.
#[derive(Default)]
pub(crate) struct Take {
    /// Its markers.
    pub(crate) markers: Vec<MarkerCard>,
    /// Its events in words and changes.
    pub(crate) steps: Vec<Step>,
}

/// Watches a game that is played. Unlike a player, it sees everything.
pub(crate) struct Camera<'a> {
    story: Story<'a>,
    take: Take,
    now: Now,
}

/// How everything was after the last event.
#[derive(Default)]
struct Now {
    units: Vec<UnitNow>,
    markers: Vec<MarkerNow>,
    points: [i16; 2],
    holders: Vec<u8>,
    smoke: Vec<[u8; 3]>,
    searched: Vec<u8>,
    lost: [u32; 2],
}

impl<'a> Camera<'a> {
    /// A camera that describes what happens in the words of `story`.
    pub(crate) fn new(story: Story<'a>) -> Camera<'a> {
        Camera { story, take: Take::default(), now: Now::default() }
    }

    /// Its words.
    pub(crate) fn story(&self) -> &Story<'a> {
        &self.story
    }

    /// What happened last, in words.
    pub(crate) fn last(&self) -> &str {
        self.take.steps.last().map_or("", |step| &step.text)
    }

    /// What it has taken down.
    pub(crate) fn into_take(self) -> Take {
        self.take
    }

    /// Adds to a step what is not as it was.
    fn compare(&mut self, state: &State, step: &mut Step) {
        let (arena, rules) = (self.story.arena(), self.story.rules());
        let now = &mut self.now;
        let units = state.units().iter().map(|unit| unit_now(unit, rules)).collect();
        step.units = changed(&mut now.units, units);
        step.markers = changed(&mut now.markers, state.markers().iter().map(marker_now).collect());
        step.points = news(&mut now.points, state.points().0);
        let holder = |holder: &Option<Side>| holder.map_or(2, |side| side as u8);
        let count = arena.objectives().len();
        step.holders =
            news(&mut now.holders, state.holders()[..count].iter().map(holder).collect());
        step.smoke = news(&mut now.smoke, smoke(state, rules));
        step.searched = news(&mut now.searched, searched(&self.story, state));
        let lost = [Side::Attacker, Side::Defender].map(|side| state.losses(side).0);
        step.lost = news(&mut now.lost, lost);
    }
}

/// Numbers of features that can hide nobody any more: the attacker's first, as films count them.
fn searched(story: &Story<'_>, state: &State) -> Vec<u8> {
    let sides = &story.arena().setup().sides;
    let all = Side::ALL.iter().flat_map(|&side| {
        (0..sides[side].features.len() as u8).map(move |feature| state.searched(side, feature))
    });
    (0..).zip(all).filter_map(|(n, searched)| searched.then_some(n)).collect()
}

/// The entries that are not as they were, which they are from now on.
fn changed<T: Copy + PartialEq>(was: &mut Vec<T>, is: Vec<T>) -> Vec<(u8, T)> {
    let differs = |(n, now): &(u8, &T)| was.get(*n as usize) != Some(*now);
    let entries = (0..).zip(&is).filter(differs).map(|(n, now)| (n, *now)).collect();
    *was = is;
    entries
}

/// The value when it is not as it was, which it is from now on.
fn news<T: Clone + PartialEq>(was: &mut T, is: T) -> Option<T> {
    (*was != is).then(|| {
        *was = is.clone();
        is
    })
}

impl Observer for Camera<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        let text = match *event {
            Event::TurnEnded { turn } => format!("Turn {turn} is over"),
            _ => self.story.tell(event, state).unwrap_or_default(),
        };
        let told = |(bit, &side): (u8, &Side)| u8::from(event.told(side, state)) << bit;
        let mut step = Step {
            turn: state.turn(),
            text: text.trim().to_owned(),
            kind: happened(event),
            told: (0..).zip(Side::ALL).map(told).sum(),
            line: line(event, state, &self.now.units, &self.now.markers),
            dice: dice(event),
            card: self.story.drawn(event, state),
            ..Step::default()
        };
        self.compare(state, &mut step);
        if self.take.steps.is_empty() {
            let card = |(n, marker): (u8, &ruleshift_game::Marker)| MarkerCard {
                side: marker.side as u8,
                sign: letter(n),
                group: marker.group,
            };
            self.take.markers = (0..).zip(state.markers()).map(card).collect();
        }
        self.take.steps.push(step);
    }

    fn note(&mut self, line: &str) {
        if let Some(step) = self.take.steps.last_mut() {
            step.text = format!("House rule: {line}");
        }
    }
}
