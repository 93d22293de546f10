//! One section fires at another across open ground: cover, range, pins.

use ruleshift_game::{Cell, Choice, Event, Ground, Kind, Observer, Player, Rules, State, View};

use super::surely_above;
use super::table::Row;
use crate::support::stage::{Stage, cell, fill, group, plain, side};
use crate::support::stats::Sample;

const GAMES: u64 = 300;

/// Brings its troops on the table near a square; then fires whenever it may, or never.
struct Marksman {
    near: Cell,
    fires: bool,
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

/// What came of fire: of each shot for each die, and of each hit.
#[derive(Clone, Copy, Default)]
pub(super) struct Shots {
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
                let at = |unit: u8| state.units()[unit as usize].at;
                let band = Rules::base().range_band(Kind::Section, at(unit).range(at(target)));
                if band == self.band {
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
fn range(ground: Ground, range: i32, band: i32) -> Shots {
    let mut setup = plain(3);
    setup.sides.0[0] = side(&[(10, 24)], vec![group(&[(Kind::Section, 10)])]);
    setup.sides.0[1] = side(&[(10 + range, 24)], vec![group(&[(Kind::Section, 12)])]);
    fill(&mut setup, ground, (10 + range - 6, 18), (10 + range + 6, 30));
    fill(&mut setup, Ground::Open, (4, 18), (11, 30));
    let stage = Stage::new(setup, Rules::base());
    let mut shots = Shots { band, ..Shots::default() };
    for seed in 0..GAMES {
        let mut fires = Marksman { near: cell(10, 24), fires: true };
        let mut sits = Marksman { near: cell(10 + range, 24), fires: false };
        stage.play(seed, &mut fires, &mut sits, &mut shots);
    }
    shots
}

/// Row 19: losses fall from open ground to cover to walls (Dupuy's verity 8, S).
#[test]
fn cover_saves_men() {
    let [open, light, hard] = [Ground::Open, Ground::Scrub, Ground::Wall].map(|g| range(g, 14, 1));
    surely_above("losses, open over light cover", &open.losses, &light.losses);
    surely_above("losses, light over hard cover", &light.losses, &hard.losses);
}

/// Row 22: fire pins more men than it hits (Dupuy on suppression, S).
#[test]
fn fire_pins_more_than_it_kills() {
    for ground in [Ground::Open, Ground::Scrub, Ground::Wall] {
        let shots = range(ground, 14, 1);
        surely_above(&format!("pins over losses, {ground}"), &shots.pins, &shots.losses);
    }
}

/// Row 39: the chance to hit falls with range (Hitchman, ORO-T-160: S for the theme, M for figures).
pub(super) fn rows() -> Vec<Row> {
    let [open, light, hard] = [Ground::Open, Ground::Scrub, Ground::Wall].map(|g| range(g, 14, 1));
    let [near, middle, far] =
        [(5, 0), (12, 1), (25, 2)].map(|(inches, band)| range(Ground::Open, inches, band));
    let ratio = |a: &Sample, b: &Sample| a.mean() / b.mean();
    let row = |number, what, value, range, source| Row { number, what, value, range, source };
    vec![
        row(
            "20",
            "losses in light cover / open",
            ratio(&light.losses, &open.losses),
            (0.2, 0.6),
            "S weak, M",
        ),
        row(
            "20",
            "losses in hard cover / open",
            ratio(&hard.losses, &open.losses),
            (0.2, 0.6),
            "S weak, M",
        ),
        row(
            "22",
            "pins for each man lost, open, middle range",
            ratio(&open.pins, &open.losses),
            (1.0, 10.0),
            "S sign",
        ),
        row(
            "39",
            "hit chance, middle / near",
            ratio(&middle.hits, &near.hits),
            (0.2, 0.99),
            "M sign",
        ),
        row(
            "39",
            "hit chance, far / middle",
            ratio(&far.hits, &middle.hits),
            (0.2, 0.99),
            "M sign",
        ),
    ]
}
