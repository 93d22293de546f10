//! How often something happened, held against what was promised by exact binomial chances.

use ruleshift_reports::stats::clopper_pearson;

/// The chance that a bound refuses a rate which is just as promised: one in a thousand.
const REFUSED: f64 = 0.001;

/// How many times the usual trials there are: what `RULESHIFT_TRIALS` says, or once.
pub(crate) fn times() -> u32 {
    let said = std::env::var("RULESHIFT_TRIALS").ok().and_then(|times| times.parse().ok());
    said.unwrap_or(1).max(1)
}

/// Hits in independent trials.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Rate {
    pub(super) hits: u64,
    pub(super) trials: u64,
}

impl Rate {
    pub(super) fn add(&mut self, hit: bool) {
        self.hits += u64::from(hit);
        self.trials += 1;
    }

    /// The exact interval of that confidence (Clopper & Pearson 1934, Biometrika 26:404-413).
    fn interval(&self, confidence: f64) -> (f64, f64) {
        let interval = clopper_pearson(self.hits, self.trials, confidence);
        let interval = interval.expect("there were trials");
        (interval.low, interval.high)
    }

    /// Prints the rate with its exact 95 % interval.
    pub(super) fn told(self, what: &str) -> Rate {
        let (low, high) = self.interval(0.95);
        let share = 100.0 * self.hits as f64 / self.trials as f64;
        let Rate { hits, trials } = self;
        println!(
            "{what}: {hits} of {trials}, {share:.1} % ({:.1} to {:.1})",
            100.0 * low,
            100.0 * high
        );
        self
    }

    /// Fails when so many hits have a chance below one in a thousand at the promised rate: the lower
    /// end of the exact interval is that limit turned round.
    #[track_caller]
    pub(super) fn at_most(self, promised: f64) {
        let (low, _) = self.interval(1.0 - 2.0 * REFUSED);
        assert!(low <= promised, "{self:?}: more often than {promised}");
    }

    /// Fails when so few hits have a chance below one in a thousand at the promised rate.
    #[track_caller]
    pub(super) fn at_least(self, promised: f64) {
        let (_, high) = self.interval(1.0 - 2.0 * REFUSED);
        assert!(high >= promised, "{self:?}: more seldom than {promised}");
    }
}

impl FromIterator<bool> for Rate {
    fn from_iter<T: IntoIterator<Item = bool>>(hits: T) -> Rate {
        let mut rate = Rate::default();
        hits.into_iter().for_each(|hit| rate.add(hit));
        rate
    }
}

/// The bounds are those of the binomial distribution, summed here: of 40 trials at 5 %, 8 or more
/// hits have a chance of 0.07 % and 7 or more of 0.3 %.
#[test]
fn bounds_refuse_what_is_rarer_than_one_in_a_thousand() {
    let tail = |from: u64| -> f64 {
        let (mut chance, mut sum) = (0.95_f64.powi(40), 0.0);
        for hits in 0..=40_u64 {
            sum += if hits >= from { chance } else { 0.0 };
            chance *= (40 - hits) as f64 / (hits + 1) as f64 * 0.05 / 0.95;
        }
        sum
    };
    let refused = |hits| Rate { hits, trials: 40 }.interval(1.0 - 2.0 * REFUSED).0 > 0.05;
    for hits in 0..=40 {
        assert_eq!(refused(hits), tail(hits) < REFUSED, "{hits}");
    }
    assert!(refused(8) && !refused(7));
}
