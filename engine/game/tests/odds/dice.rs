//! Laws of dice, from the keyed streams the game rolls with.

use ruleshift_game::luck::{Purpose, Stream};

const ROLLS: u32 = 60_000;

/// A fresh keyed stream for each roll, as in a game: neighbouring keys must not be alike.
fn rolls(dice: u8) -> impl Iterator<Item = u16> {
    (0..ROLLS).map(move |n| {
        let (turn, who) = ((n / 240) as u16, (n % 240) as u16);
        Stream::keyed(77, Purpose::Move, turn, who, 0).dice(dice)
    })
}

/// Mean and standard deviation.
fn moments(rolls: impl Iterator<Item = u16>) -> (f64, f64) {
    let (mut sum, mut squares) = (0.0, 0.0);
    for roll in rolls {
        sum += f64::from(roll);
        squares += f64::from(roll).powi(2);
    }
    let mean = sum / f64::from(ROLLS);
    (mean, (squares / f64::from(ROLLS) - mean * mean).sqrt())
}

/// One die: chi-square over its faces with 5 degrees of freedom, below 20.52, which chance exceeds
/// once in a thousand (any table of the chi-square distribution).
#[test]
fn a_die_is_even() {
    let mut faces = [0u32; 6];
    rolls(1).for_each(|face| faces[usize::from(face) - 1] += 1);
    let expected = f64::from(ROLLS) / 6.0;
    let chi: f64 = faces.iter().map(|&n| (f64::from(n) - expected).powi(2) / expected).sum();
    assert!(chi < 20.52, "{faces:?}");
}

/// One die: mean 7/2, variance 35/12, fourth central moment 707/48; two: 7, 35/6, 161/2 (exact
/// counts). Within 3 standard errors, which chance exceeds three times in a thousand for each.
#[test]
fn means_and_deviations_are_exact() {
    for (dice, mean, variance, fourth) in
        [(1, 3.5, 35.0 / 12.0, 707.0 / 48.0), (2, 7.0, 35.0 / 6.0, 80.5)]
    {
        let (n, (found_mean, found_sd)) = (f64::from(ROLLS), moments(rolls(dice)));
        let mean_error = f64::sqrt(variance / n);
        let variance_error = f64::sqrt((fourth - variance * variance) / n);
        assert!((found_mean - mean).abs() < 3.0 * mean_error, "{dice}d: mean {found_mean}");
        let off = (found_sd.powi(2) - variance).abs();
        assert!(off < 3.0 * variance_error, "{dice}d: deviation {found_sd}");
    }
}

/// Four dice that hit on 5: binomial, 16, 32, 24, 8, 1 in 81 (exact counts). Chi-square with 4
/// degrees of freedom below 18.47, which chance exceeds once in a thousand.
#[test]
fn hits_are_binomial() {
    let mut counts = [0u32; 5];
    for n in 0..ROLLS {
        let mut roll = Stream::keyed(5, Purpose::Hit, (n / 96) as u16, (n % 96) as u16, 1);
        counts[(0..4).filter(|_| roll.die() >= 5).count()] += 1;
    }
    let chi: f64 = counts
        .iter()
        .zip([16.0, 32.0, 24.0, 8.0, 1.0])
        .map(|(&n, share)| {
            let expected = share / 81.0 * f64::from(ROLLS);
            (f64::from(n) - expected).powi(2) / expected
        })
        .sum();
    assert!(chi < 18.47, "{counts:?}");
}

/// Dice of neighbouring rolls have nothing to do with each other: of pairs of first dice of
/// neighbours in turn, who, count and purpose, 1 in 6 are equal, within 3 standard errors each.
#[test]
fn neighbouring_rolls_are_independent() {
    let die = |purpose, turn, who, nth| Stream::keyed(9, purpose, turn, who, nth).die();
    let mut equal = [0u32; 4];
    for n in 0..ROLLS {
        let (turn, who) = ((n / 240) as u16, (n % 240) as u16);
        let here = die(Purpose::Hit, turn, who, 0);
        let others = [
            die(Purpose::Hit, turn + 1, who, 0),
            die(Purpose::Hit, turn, who + 1, 0),
            die(Purpose::Hit, turn, who, 1),
            die(Purpose::Effect, turn, who, 0),
        ];
        for (equal, other) in equal.iter_mut().zip(others) {
            *equal += u32::from(other == here);
        }
    }
    let (n, p) = (f64::from(ROLLS), 1.0 / 6.0);
    let error = f64::sqrt(n * p * (1.0 - p));
    for equal in equal {
        assert!((f64::from(equal) - n * p).abs() < 3.0 * error, "{equal} of {n}");
    }
}
