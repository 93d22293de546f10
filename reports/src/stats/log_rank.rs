//! Do games end sooner under one arm than under the other, cut games counted for what they are?
//!
//! The log-rank test: at each length, how many of the games that end there are the arm's, against
//! the arm's share of the games still going, with the variance of drawing without replacement
//! (Mantel 1966, Cancer Chemotherapy Reports 50:163-170; Peto & Peto 1972, Journal of the Royal
//! Statistical Society A 135:185-207). Over strata both are added up before they are compared. The
//! two arms are taken as independent: for games that share their luck, which makes the arms alike,
//! it errs on the careful side, and [`restricted_mean_shift`](super::restricted_mean_shift) uses
//! what pairing saves.

use statrs::distribution::{ChiSquared, ContinuousCDF};

use super::Length;
use super::survival::{Counted, by_length};

/// The answer of the test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogRank {
    /// Games of the reference that ended, and games of the arm.
    pub observed: (f64, f64),
    /// How many would have, were both alike.
    pub expected: (f64, f64),
    /// Variance of observed less expected.
    pub variance: f64,
    /// Observed less expected of the reference, squared, over its variance.
    pub chi_squared: f64,
    /// P-value of "alike", by chi-squared with one degree of freedom.
    pub p: f64,
}

/// Tests the games of reference and arm in each stratum (Mantel 1966); `None` when no game ended
/// while games of both were going, or a length is not a number.
pub fn log_rank(strata: &[(Vec<Length>, Vec<Length>)]) -> Option<LogRank> {
    let count = |games: &Vec<Length>| by_length(games.iter().copied());
    let counted =
        |(reference, arm): &(Vec<Length>, Vec<Length>)| Some([count(reference)?, count(arm)?]);
    log_rank_counted(&strata.iter().map(counted).collect::<Option<Vec<_>>>()?)
}

/// The same from games counted by length, of reference and arm.
pub(crate) fn log_rank_counted(strata: &[[Vec<Counted>; 2]]) -> Option<LogRank> {
    let (mut observed, mut expected, mut variance) = ((0.0, 0.0), (0.0, 0.0), 0.0);
    let games = |counts: &[Counted]| counts.iter().map(|(_, ended, cut)| ended + cut).sum::<f64>();
    for [one, other] in strata {
        let mut times: Vec<f64> = one.iter().chain(other).map(|c| c.0).collect();
        times.sort_by(f64::total_cmp);
        times.dedup();
        let (mut going_one, mut going_other) = (games(one), games(other));
        for time in times {
            let (ended_one, gone_one) = at(one, time);
            let (ended_other, gone_other) = at(other, time);
            let (ended, going) = (ended_one + ended_other, going_one + going_other);
            let share = going_one / going;
            observed = (observed.0 + ended_one, observed.1 + ended_other);
            expected = (expected.0 + ended * share, expected.1 + ended * (1.0 - share));
            if going > 1.0 {
                variance += ended * share * (1.0 - share) * (going - ended) / (going - 1.0);
            }
            going_one -= gone_one;
            going_other -= gone_other;
        }
    }
    let chi_squared = (observed.0 - expected.0).powi(2) / variance;
    let p = ChiSquared::new(1.0).ok()?.sf(chi_squared);
    (variance > 0.0).then_some(LogRank { observed, expected, variance, chi_squared, p })
}

/// Games ended at that length, and games gone after it.
fn at(counts: &[Counted], time: f64) -> (f64, f64) {
    match counts.binary_search_by(|c| c.0.total_cmp(&time)) {
        Ok(row) => (counts[row].1, counts[row].1 + counts[row].2),
        Err(_) => (0.0, 0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn games(lengths: &[(f64, bool)]) -> Vec<Length> {
        lengths.iter().map(|&(time, ended)| Length { time, ended }).collect()
    }

    #[test]
    fn nothing_to_compare_gives_no_test() {
        assert_eq!(log_rank(&[]), None);
        assert_eq!(log_rank(&[(games(&[(3.0, true)]), vec![])]), None);
        let cut = games(&[(8.0, false); 4]);
        assert_eq!(log_rank(&[(cut.clone(), cut)]), None);
    }

    #[test]
    fn the_same_games_agree_completely() {
        let same = games(&[(3.0, true), (5.0, true), (8.0, false)]);
        let found = log_rank(&[(same.clone(), same)]).unwrap();
        assert_eq!((found.chi_squared, found.p), (0.0, 1.0));
    }

    /// Two games each: the reference ends at 1 and 2, the arm at 3 and 4. Expected of the reference
    /// 1/2 and 1/3; variance 1/4 and 2/9.
    #[test]
    fn four_games_by_hand() {
        let reference = games(&[(1.0, true), (2.0, true)]);
        let found = log_rank(&[(reference, games(&[(3.0, true), (4.0, true)]))]).unwrap();
        assert!((found.expected.0 - 5.0 / 6.0).abs() < 1e-12);
        assert!((found.variance - 17.0 / 36.0).abs() < 1e-12);
        assert!((found.chi_squared - (7.0 / 6.0_f64).powi(2) / (17.0 / 36.0)).abs() < 1e-12);
    }

    #[test]
    fn what_differs_between_strata_is_no_difference_of_arms() {
        let short = games(&[(1.0, true), (2.0, true), (2.0, true)]);
        let long = games(&[(7.0, true), (8.0, true), (9.0, false)]);
        let strata = [(short.clone(), [short.clone(), short].concat()), (long.clone(), long)];
        let found = log_rank(&strata).unwrap();
        assert!(found.chi_squared < 1e-20, "{found:?}");
    }
}
