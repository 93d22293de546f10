//! How long do games last when some are cut at the turn limit?
//!
//! A game that was cut is known to last at least that long. The share of games still going is that
//! of Kaplan & Meier (1958, Journal of the American Statistical Association 53:457-481), its variance
//! that of Greenwood (1926, Reports on Public Health and Medical Subjects 33, HMSO, from memory), its
//! intervals on the scale of log(-log), so that they stay within 0 and 1 (Kalbfleisch & Prentice
//! 1980, The Statistical Analysis of Failure Time Data, section 1.3; Klein & Moeschberger 2003,
//! Survival Analysis, 2nd edition, sections 4.2-4.3). The interval of the median holds all lengths at
//! which "half are still going" is not refused (Brookmeyer & Crowley 1982, Biometrics 38:29-41). A
//! game that ends at the limit counts as ended, one cut there as going on.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::{Interval, normal_quantile};

/// The length of one game.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Length {
    /// How long it was played, in turns or minutes.
    pub time: f64,
    /// Whether it ended of itself; else it was cut.
    pub ended: bool,
}

/// The games at one length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The length.
    pub time: f64,
    /// Games that lasted at least so long.
    pub at_risk: f64,
    /// Games that ended then.
    pub ended: f64,
    /// Share of games that last longer.
    pub going: f64,
    /// Greenwood's sum: the variance of that share over its square; infinite when none lasts longer.
    pub greenwood: f64,
}

impl Step {
    /// The standard error of the share that lasts longer (Greenwood 1926); 0 when none does.
    pub fn se(&self) -> f64 {
        if self.going > 0.0 { self.going * self.greenwood.sqrt() } else { 0.0 }
    }

    /// The interval of the share that lasts longer, on the scale of log(-log) (Kalbfleisch & Prentice
    /// 1980, section 1.3); `None` when all or none do.
    pub fn interval(&self, confidence: f64) -> Option<Interval> {
        if self.going <= 0.0 || self.going >= 1.0 {
            return None;
        }
        let z = normal_quantile(0.5 + confidence / 2.0);
        let reach = (z * self.greenwood.sqrt() / self.going.ln()).abs();
        let end = |power: f64| self.going.powf(power.exp());
        Some(Interval { low: end(reach), high: end(-reach) })
    }
}

/// How a share of games is still going as time passes.
#[derive(Clone, Debug, PartialEq)]
pub struct Survival {
    /// The lengths at which games ended, in order.
    pub steps: Vec<Step>,
    /// The longest length seen.
    pub last: f64,
}

/// An interval whose ends may lie beyond the turn limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenInterval {
    /// Lower end; `None` when even it was not reached.
    pub low: Option<f64>,
    /// Upper end; `None` when it was not reached.
    pub high: Option<f64>,
}

/// Rounding alone must not put a share above a half.
const HALF: f64 = 0.5 + 1e-12;

impl Survival {
    /// The share still going (Kaplan & Meier 1958); `None` without games or when a length is not a
    /// number.
    pub fn of(lengths: &[Length]) -> Option<Survival> {
        Survival::counted(&by_length(lengths.iter().copied())?)
    }

    /// The same from games counted by length.
    pub(crate) fn counted(counts: &[Counted]) -> Option<Survival> {
        let mut at_risk: f64 = counts.iter().map(|(_, ended, cut)| ended + cut).sum();
        let (mut going, mut greenwood, mut steps) = (1.0, 0.0, Vec::new());
        for &(time, ended, cut) in counts {
            if ended > 0.0 {
                going *= (at_risk - ended) / at_risk;
                greenwood += ended / (at_risk * (at_risk - ended));
                steps.push(Step { time, at_risk, ended, going, greenwood });
            }
            at_risk -= ended + cut;
        }
        Some(Survival { steps, last: counts.last()?.0 })
    }

    /// The step in force at `time`; `None` before the first game ended.
    pub fn at(&self, time: f64) -> Option<&Step> {
        self.steps[..self.steps.partition_point(|step| step.time <= time)].last()
    }

    /// The first length by which half of the games have ended (Kaplan & Meier 1958); `None` when
    /// fewer have.
    pub fn median(&self) -> Option<f64> {
        self.steps.iter().find(|step| step.going <= HALF).map(|step| step.time)
    }

    /// The interval of the median (Brookmeyer & Crowley 1982; with the log(-log) scale: Klein &
    /// Moeschberger 2003, section 4.5).
    pub fn median_interval(&self, confidence: f64) -> OpenInterval {
        let first = |below: &dyn Fn(&Step) -> bool| {
            self.steps.iter().find(|step| below(step)).map(|step| step.time)
        };
        let ends = |step: &Step| step.interval(confidence);
        OpenInterval {
            low: first(&|s| ends(s).map_or(s.going <= HALF, |i| i.low <= HALF)),
            high: first(&|s| ends(s).is_some_and(|i| i.high <= HALF)),
        }
    }
}

/// Games of one length: the length, games ended, games cut.
pub(crate) type Counted = (f64, f64, f64);

/// Games by length, in order; `None` when a length is not a number.
pub(crate) fn by_length(lengths: impl Iterator<Item = Length>) -> Option<Vec<Counted>> {
    let mut counts: BTreeMap<Ordered, [u32; 2]> = BTreeMap::new();
    for length in lengths {
        let known = length.time.is_finite().then_some(Ordered(length.time))?;
        counts.entry(known).or_default()[usize::from(!length.ended)] += 1;
    }
    let told =
        |(Ordered(time), [ended, cut]): (_, [u32; 2])| (time, f64::from(ended), f64::from(cut));
    Some(counts.into_iter().map(told).collect())
}

/// A number with its place in the order of numbers.
struct Ordered(f64);

impl Ord for Ordered {
    fn cmp(&self, other: &Ordered) -> Ordering {
        // Both zeros are one length.
        (self.0 + 0.0).total_cmp(&(other.0 + 0.0))
    }
}

impl PartialOrd for Ordered {
    fn partial_cmp(&self, other: &Ordered) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Ordered {
    fn eq(&self, other: &Ordered) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Ordered {}

#[cfg(test)]
mod tests {
    use super::*;

    fn ended(times: &[f64]) -> Vec<Length> {
        times.iter().map(|&time| Length { time, ended: true }).collect()
    }

    fn cut(games: usize, time: f64) -> Vec<Length> {
        vec![Length { time, ended: false }; games]
    }

    #[test]
    fn no_game_has_no_length() {
        assert_eq!(Survival::of(&[]), None);
        assert_eq!(Survival::of(&ended(&[f64::NAN])), None);
    }

    #[test]
    fn nothing_that_ended_has_no_median() {
        let all_cut = Survival::of(&cut(3, 8.0)).unwrap();
        assert_eq!((all_cut.median(), all_cut.at(8.0), all_cut.last), (None, None, 8.0));
        assert_eq!(all_cut.median_interval(0.95), OpenInterval { low: None, high: None });
    }

    #[test]
    fn without_a_cut_it_is_the_share_of_longer_games() {
        let survival = Survival::of(&ended(&[4.0, 2.0, 3.0, 3.0, 1.0])).unwrap();
        let going: Vec<f64> = survival.steps.iter().map(|s| s.going).collect();
        let expected = [0.8, 0.6, 0.2, 0.0];
        assert!(going.iter().zip(expected).all(|(g, e)| (g - e).abs() < 1e-12), "{going:?}");
        assert_eq!(survival.median(), Some(3.0));
        // Greenwood's variance is then p (1 - p) / n.
        assert!((survival.steps[1].se() - (0.6 * 0.4 / 5.0_f64).sqrt()).abs() < 1e-12);
        assert_eq!((survival.steps[3].se(), survival.steps[3].interval(0.95)), (0.0, None));
        assert_eq!(survival.at(3.5), Some(&survival.steps[2]));
    }

    #[test]
    fn a_game_that_ends_at_the_limit_has_ended() {
        let games = [ended(&[8.0]), cut(1, 8.0)].concat();
        let survival = Survival::of(&games).unwrap();
        assert_eq!((survival.steps[0].at_risk, survival.steps[0].going), (2.0, 0.5));
        assert_eq!(survival.median(), Some(8.0));
    }

    #[test]
    fn the_limit_may_hide_an_end_of_the_interval() {
        let games = [ended(&[5.0; 52]), cut(48, 8.0)].concat();
        let interval = Survival::of(&games).unwrap().median_interval(0.95);
        assert_eq!(interval, OpenInterval { low: Some(5.0), high: None });
    }
}
