//! Why players chose as they did: each decision of a game, with what its player made of the choices.

mod ranking;
#[cfg(test)]
mod tests;

use std::cell::RefCell;

use ruleshift_game::{Choice, Event, Observer, Player, State, View};
use ruleshift_players::{Score, Weighing};

use crate::story::Story;
use ranking::{MARGIN, Weighed, rows};

/// Choices shown of each decision, when all are told.
const SHOWN: usize = 5;

/// Said once, above the story.
pub(crate) const LEGEND: &str = "Decisions have numbers, as in [12]; `replay TICKET --why 12` tells that one with all its choices. The \
    choice that was made is marked with >. The figures say what the player made of each: more is better, of \
    equals the first is taken, and only those of one decision can be compared. A planner's run from -10000, \
    lost, to 10000, won, with the games played out behind them; it does what its style would do, unless \
    another choice turned out better beyond doubt.";

/// The story of a game with its decisions, or one decision of it.
pub(crate) struct Why<'a>(RefCell<Telling<'a>>);

struct Telling<'a> {
    story: Story<'a>,
    /// The only decision to tell of.
    one: Option<u32>,
    decisions: u32,
    /// Where in the story it begins.
    from: Option<usize>,
    /// Where the next one begins.
    to: Option<usize>,
}

impl<'a> Why<'a> {
    /// Tells a story with all decisions, or only that of a number.
    pub(crate) fn new(story: Story<'a>, one: Option<u32>) -> Why<'a> {
        Why(RefCell::new(Telling { story, one, decisions: 0, from: None, to: None }))
    }

    /// A player whose decisions are told.
    pub(crate) fn ask(&self, player: Box<dyn Weighing>) -> Box<dyn Player + '_> {
        Box::new(Asked { player, why: self })
    }

    /// An observer for whom the story is told.
    pub(crate) fn listen(&self) -> impl Observer + '_ {
        Listener(self)
    }

    /// What was told.
    ///
    /// # Errors
    /// When there was no decision of the number asked for.
    pub(crate) fn into_text(self) -> Result<String, String> {
        let Telling { story, one, decisions, from, to } = self.0.into_inner();
        let text = story.into_text();
        match (one, from) {
            (None, _) => Ok(text),
            (Some(_), Some(from)) => Ok(excerpt(&text, from, to.unwrap_or(text.len()))),
            (Some(one), None) => Err(format!(
                "there is no decision {one}: this game has {decisions}, so N may be 1 to {decisions}"
            )),
        }
    }
}

/// The decision that begins at `from`, under the lines that say when it came, with what came of it
/// before the next decision.
fn excerpt(text: &str, from: usize, to: usize) -> String {
    let before: Vec<&str> = text[..from].lines().collect();
    let last = |starts: &[&str]| {
        before.iter().rposition(|line| starts.iter().any(|start| line.starts_with(start)))
    };
    let turn = last(&["Turn "]);
    let card = last(&["  Card: ", "  Late fire"]).filter(|card| Some(*card) > turn);
    let mut told = String::from("\n");
    for line in [turn, card].into_iter().flatten() {
        told += before[line];
        told.push('\n');
    }
    told + &text[from..to]
}

impl Telling<'_> {
    /// Tells of a decision just made.
    fn tell(&mut self, view: &View<'_>, choices: &[Choice], scores: &[Score], chosen: usize) {
        self.decisions += 1;
        let number = self.decisions;
        let here = self.story.told().len();
        match self.one {
            Some(one) if one == number => self.from = Some(here),
            Some(one) => {
                if one + 1 == number {
                    self.to = Some(here);
                }
                return;
            }
            None => {}
        }
        let shown = if self.one.is_some() { usize::MAX } else { SHOWN };
        self.story.line(&format!("      [{number}] {}", self.story.chooser(view)));
        for row in self.rows(view, choices, scores, chosen, shown) {
            for line in row.lines() {
                self.story.line(&format!("{:MARGIN$}{line}", ""));
            }
        }
    }

    fn rows(
        &self,
        view: &View<'_>,
        choices: &[Choice],
        scores: &[Score],
        chosen: usize,
        shown: usize,
    ) -> Vec<String> {
        let text = |place: usize| self.story.choice(choices[place], view);
        if scores.len() != choices.len() {
            return vec![format!("> {}, by chance, one of {}", text(chosen), choices.len())];
        }
        let weighed = (0..).zip(scores).map(|(place, &score)| Weighed {
            text: text(place),
            score,
            chosen: place == chosen,
        });
        rows(weighed.collect(), shown)
    }
}

/// A player whose decisions are told.
struct Asked<'w, 'a> {
    player: Box<dyn Weighing>,
    why: &'w Why<'a>,
}

impl Player for Asked<'_, '_> {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let place = self.player.choose(view, choices);
        let chosen = place.min(choices.len() - 1);
        self.why.0.borrow_mut().tell(view, choices, self.player.scores(), chosen);
        place
    }
}

/// Hears what happens.
struct Listener<'w, 'a>(&'w Why<'a>);

impl Observer for Listener<'_, '_> {
    fn event(&mut self, event: &Event, state: &State) {
        self.0.0.borrow_mut().story.event(event, state);
    }

    fn note(&mut self, line: &str) {
        self.0.0.borrow_mut().story.note(line);
    }
}
