//! Real shifts that are said to be too small to notice although they are just large enough.
//!
//! What is promised, 5 %, is that of many pairs: Student's t takes differences for normal, and most of
//! these are nothing at all while a few are large. Then a mean that comes out too near to zero comes
//! with a spread that is too small, and more is said than should be. By how much, skewness tells.

use ruleshift_record::{Metric, MetricKind, Verdict};

use super::planted::{Asked, HEADLINE};
use super::pool::{Pool, handicap, no_late_fire};
use super::rate::Rate;

/// The first look of a run: so many pairs of all strata.
const FIRST_LOOK: u32 = 256;

/// What is promised of so many pairs: 5 % and, of a mean, the first term by which t errs with skew
/// differences, `skew (2 z^2 + 1) density(z) / (6 sqrt(pairs))` (Hall 1992, The Bootstrap and Edgeworth
/// Expansion, section 2.6; from memory), at the 5 % point z of 1.645, where the density is 0.1031.
fn promised(pool: &Pool, metric: Metric, pairs: u32) -> f64 {
    let skew = if metric.spec().kind == MetricKind::Rate { 0.0 } else { pool.skew(metric) };
    let more = skew * (2.0 * 1.645_f64.powi(2) + 1.0) * 0.1031 / (6.0 * f64::from(pairs).sqrt());
    println!("skewness {skew:.2}: {:.1} % promised", 100.0 * (0.05 + more.max(0.0)));
    0.05 + more.max(0.0)
}

/// The smallest shift worth noticing is the true one: to say that it is smaller is wrong, whether it
/// is said to be none or one. A comparison has so many times the games that find the shift among the
/// headline; of few games nothing would be said at all, and so nothing wrong.
fn missed(pool: &Pool, metric: Metric, looks: bool, times: u32) {
    let asked = Asked { pool, metric, family: HEADLINE, notice: 1.0, looks, times };
    let missed: Rate =
        asked.told(&[Verdict::NoDifference, Verdict::TooSmall], "said to be too small to notice");
    let pairs = if looks { FIRST_LOOK } else { asked.pairs() };
    missed.at_most(promised(pool, metric, pairs));
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
