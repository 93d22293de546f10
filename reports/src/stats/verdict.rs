//! Which word does the evidence earn?
//!
//! Our choice, in the spirit of Schuirmann (1987) and of Lakens (2017), Social Psychological and
//! Personality Science 8:355-362: a test against zero and a test against the smallest shift worth
//! noticing are both asked, and only when both are silent is the answer undecided.

use ruleshift_record::Verdict;

use super::{Interval, LEVEL};

/// What is known of one shift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// P-value of "no shift" after adjustment over the family.
    pub p_adjusted: f64,
    /// The 95 % interval of the shift.
    pub interval: Interval,
    /// Whether the equivalence tests hold: the shift is nearer to zero than `notice`.
    pub equivalent: bool,
    /// The smallest shift worth noticing.
    pub notice: f64,
}

/// The word for the evidence.
pub fn verdict(evidence: &Evidence) -> Verdict {
    let significant = evidence.p_adjusted < LEVEL;
    match (significant, evidence.equivalent) {
        // Within by its interval alone, a shift of few and skew differences may yet be larger.
        (true, true) if evidence.interval.within(evidence.notice) => Verdict::TooSmall,
        (true, _) => Verdict::ClearShift,
        (false, true) => Verdict::NoDifference,
        (false, false) => Verdict::Undecided,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn word(p_adjusted: f64, low: f64, high: f64, equivalent: bool) -> Verdict {
        verdict(&Evidence { p_adjusted, interval: Interval { low, high }, equivalent, notice: 1.0 })
    }

    #[test]
    fn each_word_has_its_evidence() {
        assert_eq!(word(1.0, 0.0, 0.0, true), Verdict::NoDifference);
        assert_eq!(word(0.001, 0.2, 0.6, true), Verdict::TooSmall);
        assert_eq!(word(0.001, 0.2, 1.4, false), Verdict::ClearShift);
        assert_eq!(word(0.001, -3.0, -2.0, false), Verdict::ClearShift);
        assert_eq!(word(0.001, 0.2, 0.6, false), Verdict::ClearShift);
        assert_eq!(word(0.4, -0.5, 1.2, false), Verdict::Undecided);
    }

    #[test]
    fn the_edges_go_to_the_more_careful_word() {
        assert_eq!(word(0.05, 0.0, 2.0, false), Verdict::Undecided);
        assert_eq!(word(0.001, 0.5, 1.0, false), Verdict::ClearShift);
    }
}
