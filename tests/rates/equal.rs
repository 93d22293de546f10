//! Real shifts that are said to be too small to notice although they are just large enough.
//!
//! Most differences of real games are nothing at all while a few are large. Student's t alone errs then
//! in up to 9 of 100, in the attacker's losses of a hundred pairs of `handicap`: what skewness adds is
//! allowed for, and this is the test of it.

use ruleshift_record::{Metric, Verdict};

use super::planted::{Asked, HEADLINE};
use super::pool::{Pool, handicap, no_late_fire};
use super::rate::Rate;

/// The level of both words.
const LEVEL: f64 = 0.05;

/// The smallest shift worth noticing is the true one: to say that it is smaller is wrong, whether it
/// is said to be none or one. A comparison has so many times the games that find the shift among the
/// headline; of few games nothing would be said at all, and so nothing wrong.
fn missed(pool: &Pool, metric: Metric, looks: bool, times: u32) {
    let asked = Asked { pool, metric, family: HEADLINE, notice: 1.0, looks, times };
    let missed: Rate =
        asked.told(&[Verdict::NoDifference, Verdict::TooSmall], "said to be too small to notice");
    missed.at_most(LEVEL);
}

#[test]
fn a_shift_just_worth_noticing_is_seldom_said_to_be_too_small() {
    missed(handicap(), Metric::AttackerWins, false, 1);
    for (pool, metric) in [(handicap(), Metric::AttackerLosses), (no_late_fire(), Metric::Minutes)]
    {
        missed(pool, metric, false, 1);
        missed(pool, metric, false, 4);
    }
}

#[test]
fn a_shift_just_worth_noticing_is_seldom_said_to_be_too_small_at_any_look() {
    missed(handicap(), Metric::Margin, true, 1);
    missed(no_late_fire(), Metric::Minutes, true, 2);
}
