//! Do two yes-or-no results on the same games differ?
//!
//! McNemar's test in its exact conditional form with the mid-p correction (Fagerland, Lydersen &
//! Laake 2013, BMC Medical Research Methodology 13:91): given how many pairs differ, each way is
//! equally likely under "no shift".

use statrs::distribution::{Binomial, Discrete, DiscreteCDF};

/// The two-sided mid-p value for pairs that differ one way and the other way; 1 when none does.
pub fn mcnemar_mid_p(one_way: u64, other_way: u64) -> f64 {
    let fewer = one_way.min(other_way);
    match Binomial::new(0.5, one_way + other_way) {
        // Equal counts are the middle of the distribution, where both tails meet.
        Ok(binomial) if one_way != other_way => {
            (2.0 * binomial.cdf(fewer) - binomial.pmf(fewer)).clamp(0.0, 1.0)
        }
        _ => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_differing_pair_is_no_evidence() {
        assert_eq!(mcnemar_mid_p(0, 0), 1.0);
        assert_eq!(mcnemar_mid_p(40_000, 40_000), 1.0);
    }

    #[test]
    fn a_single_differing_pair_is_a_toss_of_a_coin() {
        // The binomial of the library goes through logarithms of the gamma function.
        assert!((mcnemar_mid_p(1, 0) - 0.5).abs() < 1e-12);
        assert_eq!(mcnemar_mid_p(1, 0), mcnemar_mid_p(0, 1));
    }

    #[test]
    fn a_hundred_thousand_pairs_are_no_burden() {
        // Against the normal limit, whose error at this size is about one part in the pair count.
        let z: f64 = (50_500.0 - 49_500.0) / 100_000.0_f64.sqrt();
        let limit = statrs::function::erf::erfc(z / 2.0_f64.sqrt());
        assert!((mcnemar_mid_p(50_500, 49_500) / limit - 1.0).abs() < 1e-4);
        assert!(mcnemar_mid_p(100_000, 0) < 1e-300);
    }
}
