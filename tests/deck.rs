//! Cards drawn in a turn against exact chances.
//!
//! With n cards and m turn-end cards, the turn ending at the k-th of these, the number of cards
//! drawn has the negative hypergeometric distribution (Johnson, Kemp and Kotz, Univariate Discrete
//! Distributions, 2005, section 6.2.2). Its closed forms for the three cases here:
//! 1 of 1: P(j) = 1/(n+1), mean n/2, variance n(n+2)/12;
//! 1 of 2: P(j) = 2(n-j+1)/((n+1)(n+2)), mean n/3, variance n(n+3)/18;
//! 2 of 2: P(j) = 2(j+1)/((n+1)(n+2)), mean 2n/3, variance n(n+3)/18.
//! A given card is drawn with chance k/(m+1), whatever n is.
//!
//! Seeds are fixed. Each comparison within 4 standard errors fails a sound program with a chance
//! of 6 in 100,000, each chi-square with 1 in 1,000, at the first writing of a seed only.

use ruleshift_game::{Card, Choice, Event, Kind, Observer, Player, Rules, State, View};

use crate::support::stage::{self, Stage, group, plain, side};
use crate::support::stats::{Sample, chi_square, chi_square_limit};

const GAMES: u64 = 400;
const TURNS: u8 = 30;

/// How a turn ends: turn-end cards, the one that ends it, and the script that says so.
struct Ending {
    cards: u32,
    at: u32,
    script: &'static str,
}

const ENDINGS: [Ending; 3] = [
    Ending { cards: 1, at: 1, script: "fn turn_end_cards(now) { 1 }" },
    Ending { cards: 2, at: 1, script: "fn turn_end_cards(now) { 2 }" },
    Ending {
        cards: 2,
        at: 2,
        script: "fn turn_end_cards(now) { 2 } fn turn_ends(now, drawn, in_deck) { drawn == 2 }",
    },
];

impl Ending {
    fn chance_of(&self, drawn: usize, n: usize) -> f64 {
        let (j, n) = (drawn as f64, n as f64);
        match (self.cards, self.at) {
            (1, _) => 1.0 / (n + 1.0),
            (_, 1) => 2.0 * (n - j + 1.0) / ((n + 1.0) * (n + 2.0)),
            _ => 2.0 * (j + 1.0) / ((n + 1.0) * (n + 2.0)),
        }
    }

    fn variance(&self, n: usize) -> f64 {
        let n = n as f64;
        if self.cards == 1 { n * (n + 2.0) / 12.0 } else { n * (n + 3.0) / 18.0 }
    }

    fn chance_drawn(&self) -> f64 {
        f64::from(self.at) / f64::from(self.cards + 1)
    }
}

/// Groups and leaders of each side that give a deck of so many cards.
pub(crate) const DECKS: [(usize, usize, usize); 3] = [(6, 2, 1), (10, 3, 2), (20, 5, 5)];

/// Two sides too far from each other to do anything but draw cards.
fn proving_ground(groups: usize, leaders: usize, rules: Rules) -> Stage {
    let mut setup = plain(TURNS);
    for (n, x) in [2, 69].into_iter().enumerate() {
        let spots: Vec<(i32, i32)> = (0..groups).map(|g| (x, 4 + 9 * g as i32)).collect();
        let units: &[&[(Kind, u8)]] =
            &[&[(Kind::Leader, 2), (Kind::Section, 8)], &[(Kind::Section, 8)]];
        let made = (0..groups).map(|g| group(units[usize::from(g >= leaders)])).collect();
        setup.sides.0[n] = side(&spots, made);
    }
    Stage::new(setup, rules)
}

/// Brings its troops on the table and does nothing else.
struct Settler;

impl Player for Settler {
    fn choose(&mut self, _: &View<'_>, choices: &[Choice]) -> usize {
        let place = |wanted| choices.iter().position(|&choice| choice == wanted);
        place(Choice::OpenFire).or(place(Choice::Done)).unwrap_or(0)
    }
}

/// Counts cards in turns with a full deck.
pub(crate) struct Counter {
    deck: usize,
    ends: u32,
    full: bool,
    turn: Vec<Card>,
    /// Turns by number of cards drawn.
    pub(crate) drawn: Vec<u32>,
    numbers: Sample,
    pub(crate) group: Sample,
    leader: Sample,
    /// Turns in a row, in threes, in which group 0 was idle.
    pub(crate) idle: [Sample; 2],
    run: Vec<bool>,
}

impl Counter {
    fn new(deck: usize, ends: u32) -> Counter {
        Counter {
            deck,
            ends,
            full: false,
            turn: vec![],
            drawn: vec![0; deck + 1],
            numbers: Sample::default(),
            group: Sample::default(),
            leader: Sample::default(),
            idle: [Sample::default(); 2],
            run: vec![],
        }
    }

    fn turn_over(&mut self) {
        let cards = self.turn.iter().filter(|card| !matches!(card, Card::TurnEnd(_))).count();
        self.drawn[cards] += 1;
        self.numbers.add(cards as f64);
        let has = |card| f64::from(u8::from(self.turn.contains(&card)));
        self.group.add(has(Card::Group(0, 0)));
        self.leader.add(has(Card::Leader(0, 0)));
        self.run.push(!self.turn.contains(&Card::Group(0, 0)));
        if let [one, two, three] = self.run[..] {
            self.idle[0].add(f64::from(u8::from(one && two)));
            self.idle[1].add(f64::from(u8::from(one && two && three)));
            self.run.clear();
        }
    }
}

impl Observer for Counter {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::TurnStarted { turn, cards } => {
                self.full = usize::from(cards) == self.deck + self.ends as usize;
                self.turn.clear();
                if turn == 1 {
                    self.run.clear();
                }
            }
            Event::CardDrawn { card } => {
                assert!(!self.turn.contains(&card), "{card:?} is drawn twice in a turn");
                self.turn.push(card);
            }
            Event::TurnEnded { .. } if self.full => self.turn_over(),
            _ => {}
        }
    }
}

/// Turns of games under some rules, with so many turn-end cards in the deck.
pub(crate) fn count(
    rules: Rules,
    ends: u32,
    (deck, groups, leaders): (usize, usize, usize),
) -> Counter {
    let stage = proving_ground(groups, leaders, rules);
    let mut counter = Counter::new(deck, ends);
    for seed in 0..GAMES {
        stage.play(seed, &mut Settler, &mut Settler, &mut counter);
    }
    assert!(counter.numbers.count > 8_000.0, "{} turns with a full deck", counter.numbers.count);
    counter
}

/// The sample's mean is the exact one within 4 standard errors, these from the exact variance.
#[track_caller]
fn exactly(what: &str, sample: &Sample, mean: f64, variance: f64) {
    let errors = (sample.mean() - mean) / (variance / sample.count).sqrt();
    assert!(errors.abs() < 4.0, "{what}: {} instead of {mean}, {errors:.1} errors", sample.mean());
}

/// Field facts 10, rows 3 to 6 and 10.
#[test]
fn cards_are_drawn_with_exact_chances() {
    for ending in &ENDINGS {
        for deck in DECKS {
            let counter = count(stage::rules(ending.script), ending.cards, deck);
            let (n, p) = (deck.0, ending.chance_drawn());
            let what = |part: &str| format!("{} of {}, {n} cards, {part}", ending.at, ending.cards);
            exactly(&what("number"), &counter.numbers, n as f64 * p, ending.variance(n));
            exactly(&what("a group"), &counter.group, p, p * (1.0 - p));
            exactly(&what("a leader"), &counter.leader, p, p * (1.0 - p));
            for (sample, turns) in counter.idle.iter().zip([2, 3]) {
                let idle = (1.0 - p).powi(turns);
                exactly(&what("idle turns"), sample, idle, idle * (1.0 - idle));
            }
            let chances: Vec<f64> = (0..=n).map(|drawn| ending.chance_of(drawn, n)).collect();
            let found = chi_square(&counter.drawn, &chances);
            assert!(found < chi_square_limit(n), "{}: chi-square {found}", what("distribution"));
        }
    }
}
