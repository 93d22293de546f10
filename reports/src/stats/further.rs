//! How many games would settle an undecided answer?
//!
//! Normal approximations, taking the shift and spread seen so far for the true ones: a shift by the
//! usual rule for a mean and, for rates, by Connor (1987), Biometrics 43:207-211; equivalence by
//! Chow, Shao & Wang (2008), Sample Size Calculations in Clinical Research, section 3.1.

use super::normal_quantile;

/// Chance that the computed number of games does settle the answer, when shift and spread hold.
pub const POWER: f64 = 0.8;

/// Pairs that show a mean `shift` of differences with standard deviation `sd` as not zero, tested
/// two-sided at `level` with chance `power`; `None` for no shift at all.
pub fn pairs_for_shift(shift: f64, sd: f64, level: f64, power: f64) -> Option<f64> {
    let z = normal_quantile(1.0 - level / 2.0) + normal_quantile(power);
    (shift != 0.0).then(|| (z * sd / shift).powi(2))
}

/// Pairs that show a shift between two paired rates, given the shares of pairs that change to yes
/// (`gained`) and to no (`lost`), as [`pairs_for_shift`]; `None` when the two are equal.
pub fn pairs_for_rate_shift(gained: f64, lost: f64, level: f64, power: f64) -> Option<f64> {
    let (differing, shift) = (gained + lost, gained - lost);
    let null = normal_quantile(1.0 - level / 2.0) * differing.sqrt();
    let real = normal_quantile(power) * (differing - shift * shift).max(0.0).sqrt();
    (shift != 0.0).then(|| ((null + real) / shift).powi(2))
}

/// Pairs that show a shift to be nearer to zero than `margin`, both one-sided tests at `level`;
/// `None` when it is not.
pub fn pairs_for_equivalence(
    shift: f64,
    sd: f64,
    margin: f64,
    level: f64,
    power: f64,
) -> Option<f64> {
    let room = margin - shift.abs();
    let z = normal_quantile(1.0 - level) + normal_quantile((1.0 + power) / 2.0);
    (room > 0.0).then(|| (z * sd / room).powi(2))
}

/// Games to add to `done`, at least 1: the cheaper of the ways to an answer, capped at the largest
/// count; 0 when no way is known.
pub fn further_games(done: u32, ways: &[Option<f64>]) -> u32 {
    match ways.iter().flatten().copied().filter(|n| !n.is_nan()).min_by(f64::total_cmp) {
        // A float beyond the range becomes the largest count.
        Some(needed) => (needed.ceil() as u32).saturating_sub(done).max(1),
        None => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_shift_is_never_shown_to_be_one() {
        assert_eq!(pairs_for_shift(0.0, 1.0, 0.05, 0.8), None);
        assert_eq!(pairs_for_rate_shift(0.1, 0.1, 0.05, 0.8), None);
    }

    #[test]
    fn a_shift_beyond_the_margin_is_never_shown_to_be_within() {
        assert_eq!(pairs_for_equivalence(-0.5, 1.0, 0.5, 0.05, 0.8), None);
    }

    #[test]
    fn half_the_room_costs_four_times_the_pairs() {
        let far = pairs_for_equivalence(0.0, 1.0, 1.0, 0.05, 0.8).unwrap();
        let near = pairs_for_equivalence(-0.5, 1.0, 1.0, 0.05, 0.8).unwrap();
        assert!((near / far - 4.0).abs() < 1e-12);
    }

    #[test]
    fn the_cheaper_way_counts_and_what_is_played_is_taken_off() {
        assert_eq!(further_games(100, &[Some(250.2), None, Some(900.0)]), 151);
        assert_eq!(further_games(100, &[Some(90.0)]), 1);
        assert_eq!(further_games(100, &[Some(f64::INFINITY)]), u32::MAX - 100);
        assert_eq!(further_games(100, &[None, None]), 0);
    }
}
