//! Dice against exact chances (field facts 10, rows 1, 2 and 9), in games of the shipped scenarios.
//!
//! Seeds are fixed; a sound program fails each comparison within 3 standard errors with a chance
//! of 3 in 1,000, at the first writing of a seed only.

use ruleshift_game::{Event, Kind, Observer, State};
use ruleshift_scenarios::SHIPPED as SCENARIOS;

use crate::support::stage::Stage;
use crate::support::stats::{Sample, chi_square, chi_square_limit};

const GAMES: u64 = 300;

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

impl Observer for Dice {
    fn event(&mut self, event: &Event, state: &State) {
        match *event {
            Event::MarkerMoved { inches, .. } => {
                self.marker.add(inches.into());
                self.faces[inches as usize - 1] += 1;
            }
            Event::UnitMoved { unit, inches, .. } => {
                let unit = &state.units()[unit as usize];
                if unit.kind == Kind::Leader && unit.pins == 0 {
                    self.leader.add(inches.into());
                }
            }
            Event::SpotTried { rolled, .. } => {
                self.spotting.add(rolled.into());
                self.totals[rolled as usize - 2] += 1;
            }
            Event::Fired { dice, needed, hits, .. } if needed < 7 => {
                let p = f64::from(7 - needed) / 6.0;
                let n = f64::from(dice);
                self.hits.add((f64::from(hits) - n * p) / (n * p * (1.0 - p)).sqrt());
                if (dice, needed) == (5, 5) {
                    self.five[hits as usize] += 1;
                }
            }
            _ => {}
        }
    }
}

fn dice() -> Dice {
    let mut dice = Dice::default();
    for (scenario, _) in SCENARIOS {
        let stage = Stage::shipped(scenario);
        for seed in 0..GAMES {
            stage.doctrines(seed, ["steady", "steady"], &mut dice);
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
