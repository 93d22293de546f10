//! One section fires at another across open ground: cover, range, pins.

use std::sync::OnceLock;

use ruleshift_game::{Cell, Choice, Event, Ground, Kind, Observer, Player, Rules, State, View};

use super::surely_above;
use super::table::{Row, row};
use crate::support::stage::{Stage, cell, fill, group, plain, side};
use crate::support::stats::Sample;

const GAMES: u64 = 1_200;

/// Brings its troops on the table near a square; then fires whenever it may, or never.
pub(super) struct Marksman {
    pub(super) near: Cell,
    pub(super) fires: bool,
}

impl Player for Marksman {
    fn choose(&mut self, _: &View<'_>, choices: &[Choice]) -> usize {
        let place = |wanted: fn(&Choice) -> bool| choices.iter().position(wanted);
        if matches!(choices[0], Choice::PlaceAt(_)) {
            let away = |n: &usize| match choices[*n] {
                Choice::PlaceAt(cell) => cell.range(self.near),
                _ => u8::MAX,
            };
            return (0..choices.len()).min_by_key(away).unwrap_or(0);
        }
        let fire = place(|choice| matches!(choice, Choice::Fire(_))).filter(|_| self.fires);
        place(|choice| *choice == Choice::OpenFire)
            .or(fire)
            .or(place(|choice| *choice == Choice::Done))
            .unwrap_or(0)
    }
}

/// What came of each shot, for each of its dice.
#[derive(Clone, Default)]
struct Shots {
    rules: Rules,
    kind: Option<Kind>,
    hits: Sample,
    losses: Sample,
    pins: Sample,
    /// Dice, men and pins of the shot whose effect has not been told in full yet.
    open: Option<(f64, f64, f64)>,
    /// The band of the range that counts; shots over others do not.
    band: i32,
}

impl Shots {
    fn close(&mut self) {
        if let Some((dice, men, pins)) = self.open.take() {
            self.losses.add(men / dice);
            self.pins.add(pins / dice);
        }
    }
}

impl Observer for Shots {
    fn event(&mut self, event: &Event, state: &State) {
        match (*event, &mut self.open) {
            (Event::Fired { unit, target, dice, hits, .. }, _) => {
                self.close();
                let [from, to] = [unit, target].map(|unit| &state.units()[unit as usize]);
                let band = self.rules.range_band(from.kind, from.at.range(to.at));
                if band == self.band && self.kind == Some(from.kind) {
                    self.hits.add(f64::from(hits) / f64::from(dice));
                    self.open = Some((dice.into(), 0.0, 0.0));
                }
            }
            (Event::MenLost { men, .. }, Some(shot)) => shot.1 += f64::from(men),
            (Event::PinsAdded { pins, .. }, Some(shot)) => shot.2 += f64::from(pins),
            (Event::GameEnded { .. }, _) => self.close(),
            _ => {}
        }
    }
}

/// Three turns of fire at a section in `ground`, some inches away: shots over one band of the range.
fn range(kind: Kind, ground: Ground, range: i32, band: i32) -> Shots {
    let mut setup = plain(3);
    let men = if kind == Kind::Section { 10 } else { 5 };
    setup.sides.0[0] = side(&[(10, 24)], vec![group(&[(kind, men)])]);
    setup.sides.0[1] = side(&[(10 + range, 24)], vec![group(&[(Kind::Section, 12)])]);
    fill(&mut setup, ground, (10 + range - 6, 18), (10 + range + 6, 30));
    fill(&mut setup, Ground::Open, (4, 18), (11, 30));
    let stage = Stage::new(setup, Rules::base());
    let mut shots = Shots { band, kind: Some(kind), ..Shots::default() };
    for seed in 0..GAMES {
        let mut fires = Marksman { near: cell(10, 24), fires: true };
        let mut sits = Marksman { near: cell(10 + range, 24), fires: false };
        stage.play(seed, &mut fires, &mut sits, &mut shots);
    }
    shots
}

/// Grounds from none to the best cover, each of which gives a kind of its own.
const GROUNDS: [Ground; 4] = [Ground::Open, Ground::Scrub, Ground::Wall, Ground::Trench];

/// A section's fire at middle range on each of them.
fn covers() -> &'static [Shots; 4] {
    static SHOTS: OnceLock<[Shots; 4]> = OnceLock::new();
    SHOTS.get_or_init(|| GROUNDS.map(|ground| range(Kind::Section, ground, 14, 1)))
}

/// Shells of a medium mortar on each of them.
fn shells() -> &'static [Shots; 4] {
    static SHOTS: OnceLock<[Shots; 4]> = OnceLock::new();
    SHOTS.get_or_init(|| GROUNDS.map(|ground| range(Kind::MediumMortar, ground, 30, 1)))
}

/// Row 19: losses fall from open ground to cover to walls to trenches, to small arms and to shells,
/// for which walls are no better than bushes (Dupuy's verity 8, S).
#[test]
fn each_better_cover_saves_men() {
    let steps = ["open over light cover", "light over hard cover", "hard cover over dug in"];
    for (pair, step) in covers().windows(2).zip(steps) {
        surely_above(step, &pair[0].losses, &pair[1].losses);
    }
    let [open, light, hard, dug_in] = shells().each_ref().map(|shots| shots.losses);
    surely_above("shells, open over light cover", &open, &light);
    surely_above("shells, hard cover over dug in", &hard, &dug_in);
}

/// Row 22: fire pins more men than it hits (Dupuy on suppression, S).
#[test]
fn fire_pins_more_than_it_kills() {
    for (shots, ground) in covers().iter().zip(GROUNDS) {
        surely_above(&format!("pins over losses, {ground}"), &shots.pins, &shots.losses);
    }
}

pub(super) fn rows() -> Vec<Row> {
    let [open, light, hard, dug_in] = covers();
    let [shelled, _, _, in_holes] = shells();
    let [near, middle, far] = [(5, 0), (12, 1), (25, 2)]
        .map(|(inches, band)| range(Kind::Section, Ground::Open, inches, band));
    let ratio = |a: &Sample, b: &Sample| a.mean() / b.mean();
    let falls = (0.0, 0.99);
    let [dupuy, weak, hitchman] = ["Dupuy, S sign", "S weak, M", "Hitchman 1952, M sign"];
    vec![
        row(19, "losses, light cover / open", ratio(&light.losses, &open.losses), falls, dupuy),
        row(19, "losses, hard / light cover", ratio(&hard.losses, &light.losses), falls, dupuy),
        row(19, "losses, dug in / hard cover", ratio(&dug_in.losses, &hard.losses), falls, dupuy),
        row(20, "losses, light cover / open", ratio(&light.losses, &open.losses), (0.2, 0.6), weak),
        row(20, "losses, hard cover / open", ratio(&hard.losses, &open.losses), (0.2, 0.6), weak),
        row(
            21,
            "losses to shells, dug in / open",
            ratio(&in_holes.losses, &shelled.losses),
            (0.05, 0.3),
            "M",
        ),
        row(
            22,
            "pins for each man lost, open, middle range",
            ratio(&open.pins, &open.losses),
            (1.0, 10.0),
            dupuy,
        ),
        // The theme was read, its figures were not.
        row(39, "hit chance, middle / near", ratio(&middle.hits, &near.hits), falls, hitchman),
        row(39, "hit chance, far / middle", ratio(&far.hits, &middle.hits), falls, hitchman),
    ]
}
