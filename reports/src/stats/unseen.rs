//! How often may something happen that never did?
//!
//! The exact upper limit for a share after no event in n trials, known in its approximate form as
//! the rule of three (Hanley & Lippman-Hand 1983, Journal of the American Medical Association
//! 249:1743-1745).

/// The largest share that `trials` without an event leave possible; `None` without trials.
pub fn unseen_share(trials: u32, confidence: f64) -> Option<f64> {
    (trials > 0).then(|| 1.0 - (1.0 - confidence).powf(1.0 / f64::from(trials)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_tried_rules_nothing_out() {
        assert_eq!(unseen_share(0, 0.95), None);
        assert!((unseen_share(1, 0.95).unwrap() - 0.95).abs() < 1e-15);
    }

    #[test]
    fn many_trials_leave_three_in_their_number() {
        // -ln 0.05 is 2.9957, the three of the rule.
        assert!((1e6 * unseen_share(1_000_000, 0.95).unwrap() - 2.995_732).abs() < 1e-5);
    }
}
