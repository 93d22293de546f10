//! How often a tuning is right, on the turn-end cards whose answer is known.
//!
//! With k turn-end cards in the deck and a turn that ends at the j-th, a given card is drawn in a
//! turn with chance j / (k + 1), and of n cards j n / (k + 1) are in the mean: the negative
//! hypergeometric distribution (Johnson, Kemp & Kotz 2005, Univariate Discrete Distributions, 3rd
//! edition, section 6.2.2; from memory).

use crate::looks::{slack, told, trials};
use crate::made::Luck;
use ruleshift_record::{MetricKind, TuneAnswer, TuneShape};
use ruleshift_reports::stats::{Tried, TuneFound, TuneStep, TuneTask, Tuning};

const CARDS: u32 = 10;

/// Whether a given card comes before the first of `ends` turn-end cards: 1 or 0.
fn drawn(luck: &mut Luck, ends: i64) -> f64 {
    let place = (luck.unit() * (ends + 1) as f64) as i64;
    f64::from(u8::from(place < 1))
}

/// How many of ten cards come before the first of `ends` turn-end cards.
fn cards(luck: &mut Luck, ends: i64) -> f64 {
    let ends = ends as f64;
    let stays = |left: &u32| luck.unit() * (f64::from(*left) + ends) < f64::from(*left);
    (1..=CARDS).rev().take_while(stays).count() as f64
}

fn task(kind: MetricKind, target: f64, notice: f64, shape: TuneShape) -> TuneTask {
    let games = (0..7).map(|n| 100 << n).collect();
    TuneTask { values: (1..=6).collect(), target, notice, kind, shape, games }
}

/// Plays a whole tuning; all values have the same seeds. Also the games it took.
fn tuned(tuning: &Tuning, trial: u32, game: fn(&mut Luck, i64) -> f64) -> (TuneFound, usize) {
    let mut tried = vec![Tried { looks: 0, strata: vec![vec![]; 2] }; 6];
    loop {
        match tuning.next(&tried) {
            TuneStep::Done(found) => {
                let games = tried.iter().flat_map(|t| &t.strata).map(Vec::len).sum();
                return (found, games);
            }
            TuneStep::Play(more) => {
                for (value, games) in more {
                    let tried = &mut tried[(value - 1) as usize];
                    tried.looks += 1;
                    let done = tried.strata.iter().map(Vec::len).sum::<usize>() as u32;
                    for n in done..done + games {
                        let seed = (u64::from(trial) << 32) + u64::from(n);
                        tried.strata[(n % 2) as usize].push(game(&mut Luck(seed), value));
                    }
                }
            }
        }
    }
}

/// What came of many tunings.
#[derive(Debug, Default)]
struct Tally {
    /// Found the value that is right.
    found: f64,
    /// Said anything that is not so.
    wrong: f64,
    /// The interval holds the crossing, or there is rightly none.
    held: f64,
    /// Mean games over all values.
    games: f64,
}

/// Tunings whose right answer is `value`, where the crossing is too; `None`: no value reaches it.
fn tally(
    task: &TuneTask,
    value: Option<f64>,
    trials: u32,
    game: fn(&mut Luck, i64) -> f64,
) -> Tally {
    let (tuning, mut tally) = (Tuning::new(task.clone()).unwrap(), Tally::default());
    for trial in 0..trials {
        let (found, games) = tuned(&tuning, trial, game);
        let (right, wrong) = match found.answer {
            TuneAnswer::Found { value: found } => (value == Some(found), value != Some(found)),
            TuneAnswer::NoneReaches { below, .. } => (value.is_none() && below, value.is_some()),
            TuneAnswer::Between { .. } => (false, true),
            TuneAnswer::Undecided { .. } => (false, false),
        };
        let held = match (found.crossing, value) {
            (Some(crossing), Some(value)) => crossing.low <= value && value <= crossing.high,
            // Not to be sure that there is none is no error.
            (_, None) => true,
            (None, Some(_)) => false,
        };
        let share = 1.0 / f64::from(trials);
        tally.found += if right { share } else { 0.0 };
        tally.wrong += if wrong { share } else { 0.0 };
        tally.held += if held { share } else { 0.0 };
        tally.games += games as f64 * share;
    }
    tally
}

#[track_caller]
fn right(about: &str, tally: &Tally, trials: u32, found: f64) {
    told(&format!("{about}: {tally:.4?}"));
    assert!(tally.wrong <= 0.05 + slack(0.05, trials), "{about}: {tally:?}");
    assert!(tally.held >= 0.95 - slack(0.95, trials), "{about}: {tally:?}");
    assert!(tally.found >= found, "{about}: {tally:?}");
}

#[test]
fn three_turn_end_cards_leave_a_quarter_of_the_cards() {
    let trials = trials(400);
    for shape in [TuneShape::Any, TuneShape::Falling] {
        let task = task(MetricKind::Rate, 0.25, 0.03, shape);
        let tally = tally(&task, Some(3.0), trials, drawn);
        right(&format!("a quarter, {shape:?}"), &tally, trials, 0.95);
    }
}

#[test]
fn a_coin_between_two_and_three_is_found() {
    let trials = trials(400);
    // Ten cards: 3 1/3 with two, 2 1/2 with three; the middle of both is 2.9167.
    let task = task(MetricKind::Number, 35.0 / 12.0, 0.2, TuneShape::Falling);
    right("a coin", &tally(&task, Some(2.5), trials, cards), trials, 0.95);
}

#[test]
fn what_no_value_reaches_is_found_out() {
    let trials = trials(400);
    let task = task(MetricKind::Rate, 0.6, 0.03, TuneShape::Any);
    right("out of reach", &tally(&task, None, trials, drawn), trials, 0.95);
}

#[test]
fn what_the_last_value_just_reaches_is_said_to_be_out_of_reach_in_at_most_5_of_100() {
    let trials = trials(400);
    // One turn-end card leaves half of the cards, and no other number as many.
    for shape in [TuneShape::Any, TuneShape::Falling] {
        let task = task(MetricKind::Rate, 0.5, 0.03, shape);
        let tally = tally(&task, Some(1.0), trials, drawn);
        right(&format!("just reached, {shape:?}"), &tally, trials, 0.9);
    }
}

/// Something that happens in two games of a hundred for each value, counted as a number: the worst
/// that Student's interval meets, since a hundred games may show it once or not at all.
fn rare(luck: &mut Luck, value: i64) -> f64 {
    f64::from(u8::from(luck.unit() < 0.02 * value as f64))
}

#[test]
fn rare_events_are_tuned_no_worse() {
    let trials = trials(400);
    let task = task(MetricKind::Number, 0.06, 0.016, TuneShape::Any);
    right("rare events", &tally(&task, Some(3.0), trials, rare), trials, 0.9);
}

#[test]
fn with_too_few_games_it_is_undecided_and_still_not_wrong() {
    let trials = trials(400);
    let mut task = task(MetricKind::Number, 2.5, 0.05, TuneShape::Falling);
    task.games.truncate(2);
    let tally = tally(&task, Some(3.0), trials, cards);
    right("too few", &tally, trials, 0.0);
    assert!(tally.found < 0.01, "{tally:?}");
}
