//! Restricted play: a player to whom some behaviours are forbidden, so that what he loses by it
//! tells what they are worth. (The idea: Jaffe, Miller, Andersen, Liu, Karlin and Popović, AIIDE
//! 2012.)

use ruleshift_game::limits::MAX_CHOICES;
use ruleshift_game::{Choice, Doing, Player, View};

use crate::nearest::unknown;
use crate::weighing::{Score, Weighing};

/// Something a side may do or leave, and that may be forbidden to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Behaviour {
    /// Units that take pins off themselves.
    Rally,
    /// Looking for markers and into features.
    Spotting,
    /// Going for the enemy hand to hand.
    Assault,
    /// Moving with markers.
    MarkerMoves,
    /// Giving up a marker to open fire.
    OpeningFire,
    /// Calling, correcting and firing batteries.
    Batteries,
    /// Leaders' orders to other units.
    Orders,
}

impl Behaviour {
    /// All of them.
    pub const ALL: [Behaviour; 7] = [
        Behaviour::Rally,
        Behaviour::Spotting,
        Behaviour::Assault,
        Behaviour::MarkerMoves,
        Behaviour::OpeningFire,
        Behaviour::Batteries,
        Behaviour::Orders,
    ];

    /// The word that a user types.
    pub const fn word(self) -> &'static str {
        match self {
            Behaviour::Rally => "rally",
            Behaviour::Spotting => "spotting",
            Behaviour::Assault => "assault",
            Behaviour::MarkerMoves => "marker-moves",
            Behaviour::OpeningFire => "opening-fire",
            Behaviour::Batteries => "batteries",
            Behaviour::Orders => "orders",
        }
    }

    /// What a side does with it, in one sentence.
    pub const fn about(self) -> &'static str {
        match self {
            Behaviour::Rally => {
                "Units take pins off themselves; what a leader's order takes off is of the orders."
            }
            Behaviour::Spotting => "Units and markers look for enemy markers and into features.",
            Behaviour::Assault => "Units go for the enemy hand to hand.",
            Behaviour::MarkerMoves => "Markers move; units that are on the table still do.",
            Behaviour::OpeningFire => "A marker is given up for its troops to open fire.",
            Behaviour::Batteries => "Fire from off the table is called, corrected and fired.",
            Behaviour::Orders => "Leaders order other units to rally or to act once more.",
        }
    }

    /// The behaviour of that word.
    ///
    /// # Errors
    /// The nearest word, and all there are.
    pub fn by_word(word: &str) -> Result<Behaviour, String> {
        let found = Behaviour::ALL.into_iter().find(|behaviour| behaviour.word() == word);
        found.ok_or_else(|| unknown("behaviour", word, &Behaviour::ALL.map(Behaviour::word)))
    }

    /// The behaviour that a choice belongs to, if any does.
    fn of(choice: Choice, doing: &Doing) -> Option<Behaviour> {
        // A unit or a leader who acts comes before the marker under whose card he does.
        let marker_acts = doing.unit.is_none() && doing.leader.is_none();
        match choice {
            Choice::Rally => Some(Behaviour::Rally),
            Choice::Spot(_) | Choice::Search(_) => Some(Behaviour::Spotting),
            Choice::Assault(_) => Some(Behaviour::Assault),
            Choice::Move(_) if marker_acts => Some(Behaviour::MarkerMoves),
            Choice::OpenFire => Some(Behaviour::OpeningFire),
            Choice::Call { .. } | Choice::FireBattery | Choice::Adjust(_) => {
                Some(Behaviour::Batteries)
            }
            Choice::OrderRally(_) | Choice::OrderAction(_) => Some(Behaviour::Orders),
            _ => None,
        }
    }
}

/// A player to whom some behaviours are forbidden: it is asked about the choices that are left.
///
/// The answers to a card's question are never thinned out, for what they bring about is known by
/// their place. Would nothing be left of a list, it stays whole; with the lists that the rules make
/// this does not happen, for what can be forbidden is only offered beside doing no more.
pub struct Restricted {
    inner: Box<dyn Weighing>,
    forbidden: [bool; Behaviour::ALL.len()],
    left: [Choice; MAX_CHOICES],
    /// Where each choice that is left stands in the whole list.
    places: [usize; MAX_CHOICES],
    /// Choices of the last decision, and how many of them were left.
    last: (usize, usize),
    scores: Vec<Score>,
}

impl Restricted {
    /// `inner`, to whom `forbidden` is forbidden.
    pub fn new(inner: Box<dyn Weighing>, forbidden: &[Behaviour]) -> Restricted {
        Restricted {
            inner,
            forbidden: Behaviour::ALL.map(|behaviour| forbidden.contains(&behaviour)),
            left: [Choice::Done; MAX_CHOICES],
            places: [0; MAX_CHOICES],
            last: (0, 0),
            scores: Vec::new(),
        }
    }

    /// Whether a choice is forbidden.
    fn forbids(&self, choice: Choice, doing: &Doing) -> bool {
        Behaviour::of(choice, doing).is_some_and(|behaviour| self.forbidden[behaviour as usize])
    }

    /// Keeps the choices that are left: how many.
    fn thin(&mut self, doing: &Doing, choices: &[Choice]) -> usize {
        let mut count = 0;
        for (place, &choice) in choices.iter().enumerate().take(MAX_CHOICES) {
            if !self.forbids(choice, doing) {
                (self.left[count], self.places[count]) = (choice, place);
                count += 1;
            }
        }
        count
    }
}

impl Player for Restricted {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let doing = view.doing();
        let question = doing.asked.is_some() && doing.placing == 0;
        let count = if question { choices.len() } else { self.thin(doing, choices) };
        let whole = count == choices.len() || count == 0;
        self.last = (choices.len(), if whole { choices.len() } else { count });
        if whole {
            return self.inner.choose(view, choices);
        }
        // What is left of a choice between one thing is no choice.
        let chosen = if count == 1 { 0 } else { self.inner.choose(view, &self.left[..count]) };
        self.places[chosen.min(count - 1)]
    }
}

impl Weighing for Restricted {
    /// The scores of the choices that were left, in their places among all of them.
    fn scores(&mut self) -> &[Score] {
        let (all, count) = self.last;
        if count == all {
            return self.inner.scores();
        }
        let single = [Score::default()];
        let left = if count == 1 { &single } else { self.inner.scores() };
        self.scores.clear();
        if !left.is_empty() {
            self.scores.resize(all, Score::FORBIDDEN);
            for (place, score) in self.places[..count].iter().zip(left) {
                self.scores[*place] = *score;
            }
        }
        &self.scores
    }
}
