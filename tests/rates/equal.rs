//! Real shifts that are said to be too small to notice although they are just large enough.

use ruleshift_record::{Metric, Verdict};

use super::planted::{Asked, HEADLINE};
use super::pool::{Pool, handicap, no_late_fire};
use super::rate::Rate;

/// The smallest shift worth noticing is the true one: to say that it is smaller is wrong, whether it
/// is said to be none or one. A comparison has the games that find the shift among the headline, of
/// which an error of 5 % can be made; of fewer nothing would be said at all.
fn missed(pool: &Pool, metric: Metric, looks: bool) -> Rate {
    let asked = Asked { pool, metric, family: HEADLINE, notice: 1.0, looks };
    asked.told(&[Verdict::NoDifference, Verdict::TooSmall], "said to be too small to notice")
}

#[test]
fn a_shift_just_worth_noticing_is_said_to_be_too_small_in_at_most_5_of_100_comparisons() {
    missed(handicap(), Metric::AttackerWins, false).at_most(0.05);
    missed(handicap(), Metric::AttackerLosses, false).at_most(0.05);
    missed(no_late_fire(), Metric::Minutes, false).at_most(0.05);
}

#[test]
fn a_shift_just_worth_noticing_is_said_to_be_too_small_in_at_most_5_of_100_that_are_looked_at() {
    missed(handicap(), Metric::Margin, true).at_most(0.05);
    missed(no_late_fire(), Metric::Minutes, true).at_most(0.05);
}
