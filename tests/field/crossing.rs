//! How long it takes to cross ground, and how long troops wait for a card.

use ruleshift_game::{Card, Choice, Event, Heading, Kind, Observer, Player, Rules, State, View};

use super::table::{Row, row};
use crate::support::stage::{self, Stage, group, plain, side};
use crate::support::stats::Sample;

const GAMES: u64 = 400;

/// Moves each unit twice in each activation, straight to the right, as far as the dice allow.
pub(super) struct Walker;

impl Player for Walker {
    fn choose(&mut self, view: &View<'_>, choices: &[Choice]) -> usize {
        let place = |wanted: Choice| choices.iter().position(|&choice| choice == wanted);
        match choices[0] {
            Choice::Stop(_) => choices.len() - 1,
            Choice::PlaceAt(_) => choices.len() / 2,
            _ => {
                let unit = view.doing().unit.and_then(|id| view.unit(id));
                let fresh = unit.is_some_and(|unit| unit.actions >= 2);
                let walk = place(Choice::Move(Heading::Straight(0))).filter(|_| fresh);
                place(Choice::OpenFire).or(walk).or(place(Choice::Done)).unwrap_or(0)
            }
        }
    }
}

/// Activations of the first unit until it has gone 48 in.
#[derive(Default)]
struct Walk {
    from: Option<u8>,
    activations: u32,
    arrived: Sample,
}

impl Observer for Walk {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::UnitPlaced { unit: 0, at } => (self.from, self.activations) = (Some(at.x), 0),
            Event::UnitActivated { unit: 0, .. } => self.activations += 1,
            Event::UnitMoved { unit: 0, to, .. } if self.from.is_some_and(|x| to.x >= x + 48) => {
                self.arrived.add(self.activations.into());
                self.from = None;
            }
            _ => {}
        }
    }
}

fn walk() -> Sample {
    let mut setup = plain(30);
    setup.sides.0[0] = side(&[(8, 12)], vec![group(&[(Kind::Section, 10)])]);
    setup.sides.0[1] = side(&[(70, 46)], vec![group(&[(Kind::Section, 10)])]);
    let stage = Stage::new(setup, Rules::base());
    let mut walk = Walk::default();
    for seed in 0..GAMES {
        stage.play(seed, &mut Walker, &mut Still, &mut walk);
    }
    walk.arrived
}

/// Stays under its markers.
pub(super) struct Still;

impl Player for Still {
    fn choose(&mut self, _: &View<'_>, choices: &[Choice]) -> usize {
        choices.iter().position(|&choice| choice == Choice::Done).unwrap_or(0)
    }
}

/// What comes of one end card and a marker card of each side, in games of 8 turns.
#[derive(Default)]
pub(super) struct Waits {
    run: u32,
    longest: u32,
    turn: [bool; 2],
    turns: u32,
    /// Whether the first card comes, how many come, whether none does.
    pub(super) drawn: Sample,
    pub(super) number: Sample,
    pub(super) empty: Sample,
    /// Whether the first card is missing in the first three turns.
    pub(super) three: Sample,
    /// Whether it is missing three turns running somewhere in the game.
    pub(super) long: Sample,
}

impl Waits {
    fn turn_over(&mut self) {
        let came = |yes: bool| f64::from(u8::from(yes));
        let [first, second] = self.turn.map(came);
        self.drawn.add(first);
        self.number.add(first + second);
        self.empty.add(came(self.turn == [false; 2]));
        self.run = if self.turn[0] { 0 } else { self.run + 1 };
        self.longest = self.longest.max(self.run);
        self.turns += 1;
        if self.turns == 3 {
            self.three.add(came(self.longest == 3));
        }
        self.turn = [false; 2];
    }
}

impl Observer for Waits {
    fn event(&mut self, event: &Event, _: &State) {
        match *event {
            Event::CardDrawn { card: Card::Marker(side, _) } => self.turn[side as usize] = true,
            Event::TurnEnded { .. } => self.turn_over(),
            Event::GameEnded { .. } => {
                self.long.add(f64::from(u8::from(self.longest >= 3)));
                (self.run, self.longest, self.turns) = (0, 0, 0);
            }
            _ => {}
        }
    }
}

pub(super) fn waits(rules: Rules) -> Waits {
    let mut setup = plain(8);
    setup.sides.0[0] = side(&[(4, 12)], vec![group(&[(Kind::Section, 10)])]);
    setup.sides.0[1] = side(&[(70, 46)], vec![group(&[(Kind::Section, 10)])]);
    let stage = Stage::new(setup, rules);
    let mut waits = Waits::default();
    for seed in 0..GAMES * 50 {
        stage.play(seed, &mut Still, &mut Still, &mut waits);
    }
    waits
}

/// Row 52: of the 256 ways in which a card may come or not in 8 turns, 107 have it
/// missing three times running; with 2 of 2 turn-end cards the chance is 16 % (C).
#[test]
fn a_card_is_missing_three_times_running_as_often_as_it_must() {
    let exactly = |sample: &Sample, chance: f64| {
        let error = (chance * (1.0 - chance) / sample.count).sqrt();
        assert!((sample.mean() - chance).abs() < 4.0 * error, "{} for {chance}", sample.mean());
    };
    exactly(&waits(Rules::base()).long, 107.0 / 256.0);
    let two = stage::stack("two-turn-end-cards").rules().unwrap();
    exactly(&waits(two).long, missing(8, 1.0 / 3.0));
}

/// Chance of three in a row among `turns`, each missing with chance `q`: by the run so far.
fn missing(turns: u32, q: f64) -> f64 {
    let step = |[none, one, two]: [f64; 3], _| [(none + one + two) * (1.0 - q), none * q, one * q];
    1.0 - (0..turns).fold([1.0, 0.0, 0.0], step).iter().sum::<f64>()
}

pub(super) fn rows() -> Vec<Row> {
    let two = stage::stack("two-turn-end-cards").rules().unwrap();
    vec![
        row(35, "turns to cross 48 in, two dice a turn", walk().mean(), (6.2, 8.0), "C"),
        row(
            52,
            "no card for 3 turns of 8, one end card",
            waits(Rules::base()).long.mean(),
            (0.39, 0.45),
            "C",
        ),
        row(52, "the same, two-turn-end-cards", waits(two).long.mean(), (0.12, 0.18), "C"),
    ]
}
