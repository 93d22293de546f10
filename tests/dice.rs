//! Dice against exact chances (field facts 10, rows 1, 2 and 9), in games of the shipped scenarios.
//!
//! Seeds are fixed; a sound program fails each comparison within 3 standard errors with a chance
//! of 3 in 1,000, at the first writing of a seed only.

use ruleshift_game::luck::game_seed;
use ruleshift_game::{Arena, Cover, Event, Kind, Observer, State};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use crate::support::stage::Stage;
use crate::support::stats::{Sample, chi_square, chi_square_limit};

const GAMES: u32 = 100;

#[derive(Default)]
struct Dice {
    /// Inches of a marker's move: one die.
    marker: Sample,
    faces: [u32; 6],
    /// Inches of an unpinned leader's move: two dice.
    leader: Sample,
    /// Two-dice totals of spotting.
    spotting: Sample,
    totals: [u32; 11],
    /// Hits beyond the mean of the binomial, in its standard deviations, shot by shot.
    hits: Sample,
    /// Hits of five dice that need a 5.
    five: [u32; 6],
}

/// Watches the games of one scenario.
struct Watch<'a> {
    dice: &'a mut Dice,
    arena: &'a Arena,
}

impl Observer for Watch<'_> {
    fn event(&mut self, event: &Event, state: &State) {
        let dice = &mut *self.dice;
        match *event {
            Event::MarkerMoved { inches, .. } => {
                dice.marker.add(inches.into());
                dice.faces[inches as usize - 1] += 1;
            }
            Event::UnitMoved { unit, inches, .. } => {
                let unit = &state.units()[unit as usize];
                if unit.kind == Kind::Leader && unit.pins == 0 {
                    dice.leader.add(inches.into());
                }
            }
            Event::SpotTried { rolled, .. } => {
                dice.spotting.add(rolled.into());
                dice.totals[rolled as usize - 2] += 1;
            }
            // Hard cover and holes keep hits off (RULES 7.7).
            Event::Fired { target, dice: rolled, needed, hits, .. }
                if (1..7).contains(&needed)
                    && state.cover(self.arena, &state.units()[target as usize]) < Cover::Hard =>
            {
                let p = f64::from(7 - needed) / 6.0;
                let n = f64::from(rolled);
                dice.hits.add((f64::from(hits) - n * p) / (n * p * (1.0 - p)).sqrt());
                if (rolled, needed) == (5, 5) {
                    dice.five[hits as usize] += 1;
                }
            }
            _ => {}
        }
    }
}

fn dice() -> Dice {
    let mut dice = Dice::default();
    for (place, (scenario, _)) in SCENARIOS.iter().enumerate() {
        let stage = Stage::shipped(scenario);
        let mut watch = Watch { dice: &mut dice, arena: &stage.arena };
        for game in 0..GAMES {
            // Of one seed the dice would be the same in every scenario.
            let seed = game_seed(1, place as u32, game);
            stage.doctrines(seed, ["steady", "steady"], &mut watch);
        }
    }
    dice
}

#[track_caller]
fn within(what: &str, sample: &Sample, mean: f64, deviation: f64) {
    assert!(sample.count > 1_000.0, "{what}: {} throws", sample.count);
    let errors = (sample.mean() - mean) / (deviation / sample.count.sqrt());
    assert!(errors.abs() < 3.0, "{what}: mean {}, {errors:.1} errors off", sample.mean());
    let ratio = sample.variance().sqrt() / deviation;
    assert!((0.97..1.03).contains(&ratio), "{what}: deviation {ratio} times the exact one");
}

#[test]
fn dice_are_fair_and_hits_are_binomial() {
    let dice = dice();
    within("one die", &dice.marker, 3.5, 1.708);
    within("two dice", &dice.leader, 7.0, 2.415);
    within("two dice for spotting", &dice.spotting, 7.0, 2.415);
    within("hits", &dice.hits, 0.0, 1.0);
    assert!(chi_square(&dice.faces, &[1.0 / 6.0; 6]) < chi_square_limit(5));
    let totals: Vec<f64> = (2..=12).map(|t: i32| f64::from(6 - (t - 7).abs()) / 36.0).collect();
    assert!(chi_square(&dice.totals, &totals) < chi_square_limit(10));
    // Binomial(5, 1/3), in 243rds; 4 and 5 hits together.
    let five =
        [dice.five[0], dice.five[1], dice.five[2], dice.five[3], dice.five[4] + dice.five[5]];
    let chances = [32.0, 80.0, 80.0, 40.0, 11.0].map(|ways| ways / 243.0);
    assert!(chi_square(&five, &chances) < chi_square_limit(4), "{five:?}");
}
