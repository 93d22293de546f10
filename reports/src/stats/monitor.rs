//! Which metrics of a family are decided when the run is looked at?
//!
//! **Shifts.** Holm's method (1979) at every look: with `n` metrics of the family still open, each
//! is tested by the limits of its own spending function at the level divided by `n`; one that
//! passes its limit leaves, and the rest are tested again at the level over `n - 1`, at this look
//! and those before (Tang & Geller 1999, Biometrics 55:1188-1192; Glimm, Maurer & Bretz 2010,
//! Statistics in Medicine 29:219-228; Ye, Li, Liu & Yao 2013, Statistics in Medicine 32:1112-1124;
//! all from memory). It is the closed test whose part for `n` metrics is Bonferroni's with looks,
//! and that part holds its level whatever the correlation. A limit once passed stays passed, since
//! the part has decided; that more level allows more at every look, which lets the steps stand for
//! the closed test, is tested beside [`bounds`].
//!
//! *Controlled*: the chance that any metric without a shift is ever said to have one, at any look
//! of one run, is at most the level, however many others shift and whenever the run ends.
//!
//! **No difference worth noticing.** Two one-sided tests (Schuirmann 1987) for each metric, each
//! with limits of its own at the level.
//!
//! *Controlled*: for each metric by itself, the chance that a shift as large as the margin is ever
//! said to be smaller is at most the level. Over the family it is not, nor is it without looks.
//!
//! **Intervals.** Repeated confidence intervals: *controlled* for each metric by itself, the chance
//! that the intervals of all looks hold its shift is at least 95 %.
//!
//! All of this holds as far as the p-values do: early looks ask the tail of Student's t far out, so
//! the first look needs some hundred games.

use super::{Bounds, CONFIDENCE, Estimate, Interval, LEVEL, Sides, Spending, bounds};

/// What one look sees of one metric.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// Two-sided p-value of "no shift", not adjusted.
    pub p: f64,
    /// P-value of "a shift as large as the margin": the larger of the two one-sided ones.
    pub equivalence_p: f64,
}

/// The look, from 0, at which a metric was decided; the run may have gone on for others.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Decided {
    /// There is a shift.
    pub shift: Option<usize>,
    /// If there is one, it is smaller than the margin.
    pub equivalent: Option<usize>,
}

impl Decided {
    /// Whether neither is known.
    pub fn is_open(&self) -> bool {
        self.shift.is_none() && self.equivalent.is_none()
    }
}

/// The limits for a family of metrics at the looks of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Monitor {
    /// Limits with one metric open, with two, and so on.
    shift: Vec<Bounds>,
    equivalence: Bounds,
    interval: Bounds,
}

impl Monitor {
    /// The limits for `family` metrics of a run looked at after `games`, the last of which is the
    /// most it may play. `None` unless there are metrics and games, and the games rise. When a run
    /// ends at a number of games that was not planned, put it among them: the limits before it stay
    /// as they were.
    pub fn new(games: &[u32], family: usize, spending: Spending) -> Option<Monitor> {
        let most = f64::from(*games.last()?);
        let shares: Vec<f64> = games.iter().map(|n| f64::from(*n) / most).collect();
        let with = |open: usize| bounds(&shares, spending, LEVEL / open as f64, Sides::Two);
        let shift = (1..=family).map(with).collect::<Option<Vec<_>>>()?;
        let equivalence = bounds(&shares, spending, LEVEL, Sides::One)?;
        let interval = bounds(&shares, spending, 1.0 - CONFIDENCE, Sides::Two)?;
        (family > 0).then_some(Monitor { shift, equivalence, interval })
    }

    /// What is decided, for each metric in the order given, each with what its looks saw so far. As
    /// many metrics as the family has, or fewer.
    pub fn decide(&self, seen: &[Vec<Seen>]) -> Vec<Decided> {
        let looks = seen.iter().map(Vec::len).min().unwrap_or(0).min(self.interval.looks());
        let mut decided = vec![Decided::default(); seen.len()];
        for look in 0..looks {
            for (metric, seen) in decided.iter_mut().zip(seen) {
                let passed = |limit| seen[look].equivalence_p <= limit;
                if metric.equivalent.is_none() && self.equivalence.nominal(look).is_some_and(passed)
                {
                    metric.equivalent = Some(look);
                }
            }
            while let Some(metric) = self.next_shift(seen, &decided, look) {
                decided[metric].shift = Some(look);
            }
        }
        decided
    }

    /// An open metric that has passed the limits for as many as are open, by this look.
    fn next_shift(&self, seen: &[Vec<Seen>], decided: &[Decided], look: usize) -> Option<usize> {
        let open = decided.iter().filter(|d| d.shift.is_none()).count();
        let limits = self.shift.get(open.checked_sub(1)?)?;
        let passed = |seen: &[Seen]| {
            (0..=look).any(|k| limits.nominal(k).is_some_and(|limit| seen[k].p <= limit))
        };
        (0..seen.len()).find(|&m| decided[m].shift.is_none() && passed(&seen[m]))
    }

    /// The interval to print of a metric when the run ends at `look`; `None` when that look may
    /// decide nothing.
    pub fn interval(&self, look: usize, estimate: &Estimate) -> Option<Interval> {
        self.interval.interval(look, estimate)
    }

    /// The confidence of that interval, for a metric whose interval is not Student's, such as a
    /// rate.
    pub fn confidence(&self, look: usize) -> Option<f64> {
        self.interval.confidence(look)
    }

    /// The part of the level of the whole family that is spent by `look`, while all are open.
    pub fn spent(&self, look: usize) -> f64 {
        let all = self.shift.len();
        all as f64 * self.shift[all - 1].spent(look)
    }

    /// How many times the games of a run without looks the last look must have for the same
    /// `power`, for shifts and for equivalence, whichever is more.
    pub fn inflation(&self, power: f64) -> f64 {
        let all = self.shift.len();
        let shift = self.shift[all - 1].inflation(LEVEL / all as f64, power);
        // Two one-sided tests that must both pass miss half of the power each.
        shift.max(self.equivalence.inflation(LEVEL, (1.0 + power) / 2.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::holm;

    fn seen(p: &[f64]) -> Vec<Seen> {
        p.iter().map(|p| Seen { p: *p, equivalence_p: 1.0 }).collect()
    }

    fn monitor(games: &[u32], family: usize) -> Monitor {
        Monitor::new(games, family, Spending::Late).unwrap()
    }

    fn shifts(decided: &[Decided]) -> Vec<Option<usize>> {
        decided.iter().map(|d| d.shift).collect()
    }

    #[test]
    fn with_one_look_it_is_holms_method() {
        let plain = monitor(&[1000], 4);
        for p in [[0.01, 0.012, 0.04, 0.5], [0.02, 0.001, 0.9, 0.02], [0.013; 4]] {
            let found = plain.decide(&p.map(|p| seen(&[p])));
            let by_holm = holm(&p).into_iter().map(|p| p <= LEVEL);
            let shifts = found.iter().map(|d| d.shift == Some(0));
            assert_eq!(shifts.collect::<Vec<_>>(), by_holm.collect::<Vec<_>>(), "{p:?}");
        }
    }

    #[test]
    fn one_that_leaves_makes_room_for_what_was_seen_before() {
        let two = monitor(&[500, 1000], 2);
        let (wide, narrow) = (two.shift[0].nominal(0).unwrap(), two.shift[1].nominal(0).unwrap());
        let between = (wide + narrow) / 2.0;
        // Too little for two open metrics at the first look; the other leaves at the second.
        let found = two.decide(&[seen(&[between, 0.9]), seen(&[0.9, 1e-9])]);
        assert_eq!(shifts(&found), [Some(1), Some(1)]);
        let found = two.decide(&[seen(&[between, 0.9]), seen(&[0.9, 0.9])]);
        assert_eq!(shifts(&found), [None, None]);
    }

    /// The steps say what the closed test says: a metric shifts when every set of metrics that
    /// holds it has one that passed its limits for as many (Marcus, Peritz & Gabriel 1976).
    #[test]
    fn the_steps_are_the_closed_test() {
        let monitor = monitor(&[250, 500, 1000], 4);
        let mut shifts = 0;
        for draw in 0..400_u32 {
            // Small and large p-values in no order: fractional parts of multiples.
            let p = |metric: usize, look: usize| {
                let part = f64::from(draw * 13 + (metric * 5 + look * 3) as u32 + 1) * 0.618_034;
                part.fract().powi(4) * 0.2
            };
            let all: Vec<Vec<Seen>> =
                (0..4).map(|metric| seen(&[0, 1, 2].map(|look| p(metric, look)))).collect();
            let passed = |metric: usize, of: usize| {
                (0..3).any(|k| {
                    monitor.shift[of - 1].nominal(k).is_some_and(|limit| p(metric, k) <= limit)
                })
            };
            let rejected = |set: u32| {
                (0..4).any(|m| set & (1 << m) != 0 && passed(m, set.count_ones() as usize))
            };
            for (metric, found) in monitor.decide(&all).iter().enumerate() {
                let closed = (1..16).filter(|set| set & (1 << metric) != 0).all(rejected);
                assert_eq!(found.shift.is_some(), closed, "draw {draw}, metric {metric}");
                shifts += u32::from(closed);
            }
        }
        assert!((200..1400).contains(&shifts), "both answers are tried: {shifts}");
    }

    #[test]
    fn a_metric_may_shift_and_be_too_small_to_notice() {
        let one = monitor(&[500, 1000], 1);
        let both =
            vec![Seen { p: 1e-9, equivalence_p: 0.5 }, Seen { p: 1e-9, equivalence_p: 0.01 }];
        let decided = one.decide(&[both])[0];
        assert_eq!(decided, Decided { shift: Some(0), equivalent: Some(1) });
        assert!(!decided.is_open() && Decided::default().is_open());
    }

    #[test]
    fn a_look_without_level_decides_nothing() {
        let many = monitor(&[10, 100_000], 1);
        let sure = vec![Seen { p: 0.0, equivalence_p: 0.0 }];
        assert_eq!(many.decide(&[sure]), [Decided::default()]);
        assert_eq!(many.spent(0), 0.0);
        assert!((many.spent(1) - LEVEL).abs() < 1e-12);
    }

    #[test]
    fn a_look_that_was_not_planned_leaves_those_before_it() {
        let planned = monitor(&[500, 1000, 2000], 3);
        let ended = monitor(&[500, 1000, 1300, 2000], 3);
        for look in 0..2 {
            assert_eq!(planned.confidence(look), ended.confidence(look));
        }
        assert!(ended.confidence(2) > planned.confidence(2));
    }

    #[test]
    fn nothing_to_look_at_has_no_limits() {
        assert_eq!(Monitor::new(&[], 8, Spending::Late), None);
        assert_eq!(Monitor::new(&[100, 100], 8, Spending::Late), None);
        assert_eq!(Monitor::new(&[100], 0, Spending::Late), None);
        assert_eq!(monitor(&[100], 2).decide(&[]), []);
    }

    #[test]
    fn looks_that_spend_late_cost_few_games() {
        let eight = monitor(&[6250, 12_500, 25_000, 50_000, 100_000], 8);
        let inflation = eight.inflation(0.8);
        assert!((1.0..1.03).contains(&inflation), "{inflation}");
    }
}
