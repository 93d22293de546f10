//! How long do games last on average, up to the turn limit?
//!
//! The area under the share still going, up to a limit: the restricted mean (Royston & Parmar 2013,
//! BMC Medical Research Methodology 13:152), with the standard error that follows from Greenwood's
//! variance (Klein & Moeschberger 2003, Survival Analysis, 2nd edition, section 4.5), by the normal
//! limit. For pairs that share their luck the difference is taken pair by pair, on pseudo-values: how
//! much each game adds to the restricted mean (Andersen, Hansen & Klein 2004, Lifetime Data Analysis
//! 10:335-350, from memory). When all games are cut at the limit itself, a pseudo-value is the length
//! played, and the shift is the plain paired one.

use statrs::function::erf::erfc;

use super::survival::{Counted, by_length};
use super::{Estimate, Interval, Length, Survival, normal_quantile, stratified_mean};

/// A value with a standard error that is itself as good as known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Normal {
    /// The value.
    pub value: f64,
    /// Its standard error, not negative.
    pub se: f64,
}

impl Normal {
    /// The two-sided interval of that `confidence` by the normal limit (Royston & Parmar 2013).
    pub fn interval(&self, confidence: f64) -> Interval {
        let reach = normal_quantile(0.5 + confidence / 2.0) * self.se;
        Interval { low: self.value - reach, high: self.value + reach }
    }

    /// The two-sided p-value of "it is zero" by the normal limit (Royston & Parmar 2013).
    pub fn p(&self) -> f64 {
        match self.se {
            0.0 => f64::from(u8::from(self.value == 0.0)),
            se => erfc((self.value / se).abs() / 2.0_f64.sqrt()),
        }
    }

    /// This less another from other games: standard errors add as squares (Royston & Parmar 2013).
    pub fn less(&self, other: &Normal) -> Normal {
        Normal { value: self.value - other.value, se: self.se.hypot(other.se) }
    }
}

impl Survival {
    /// The mean length up to `limit` (Royston & Parmar 2013); `None` when games that were cut leave
    /// it unknown what happens before the limit, or the limit is not above 0.
    pub fn restricted_mean(&self, limit: f64) -> Option<Normal> {
        let known = limit <= self.last || self.steps.last().is_some_and(|s| s.going <= 0.0);
        if limit.is_nan() || limit <= 0.0 || !known {
            return None;
        }
        // From the limit back: the area after each step.
        let (mut area, mut variance, mut until) = (0.0, 0.0, limit);
        for step in self.steps.iter().rev().filter(|step| step.time < limit) {
            area += step.going * (until - step.time);
            if step.going > 0.0 {
                let rest = step.at_risk - step.ended;
                variance += area * area * step.ended / (step.at_risk * rest);
            }
            until = step.time;
        }
        Some(Normal { value: area + until, se: variance.sqrt() })
    }
}

/// The shift of the mean length up to `limit`, arm less reference, over `strata` of pairs of games
/// with the same luck (pseudo-values: Andersen, Hansen & Klein 2004; their mean:
/// [`stratified_mean`]). `None` as there, or when a restricted mean is not known.
pub fn restricted_mean_shift(strata: &[Vec<(Length, Length)>], limit: f64) -> Option<Estimate> {
    let played = strata.iter().filter(|pairs| !pairs.is_empty());
    restricted_mean_shift_of(played.map(|pairs| pairs.iter().copied()), limit)
}

/// The same for strata of pairs, none of them empty, that are told one after the other, so that they
/// may be held in less room.
pub(crate) fn restricted_mean_shift_of<S>(
    strata: impl Iterator<Item = S>,
    limit: f64,
) -> Option<Estimate>
where
    S: Iterator<Item = (Length, Length)> + Clone,
{
    let differences = |pairs: S| -> Option<Vec<f64>> {
        let arm = Pseudo::of(pairs.clone().map(|pair| pair.1), limit)?;
        let reference = Pseudo::of(pairs.clone().map(|pair| pair.0), limit)?;
        let mut differences = Vec::with_capacity(pairs.size_hint().0);
        for pair in pairs {
            differences.push(arm.value(&pair.1)? - reference.value(&pair.0)?);
        }
        Some(differences)
    };
    stratified_mean(&strata.map(differences).collect::<Option<Vec<Vec<f64>>>>()?)
}

/// What each game adds to the restricted mean: n times the mean less n - 1 times the mean without it.
struct Pseudo {
    counts: Vec<Counted>,
    /// For each length the value of a game that was cut, and of one that ended: games of one length
    /// and end are alike.
    alike: Vec<[Option<f64>; 2]>,
}

impl Pseudo {
    fn of(games: impl Iterator<Item = Length>, limit: f64) -> Option<Pseudo> {
        let counts = by_length(games)?;
        let mean = |counts: &[Counted]| Survival::counted(counts)?.restricted_mean(limit);
        let size: f64 = counts.iter().map(|(_, ended, cut)| ended + cut).sum();
        let whole = mean(&counts)?.value;
        let without = |row: usize, ended: bool| -> Option<f64> {
            let mut fewer = counts.clone();
            let cell = if ended { &mut fewer[row].1 } else { &mut fewer[row].2 };
            if *cell < 1.0 {
                return None;
            }
            *cell -= 1.0;
            // A length seen by no other game is still seen: the limit must stay in sight.
            Some(size * whole - (size - 1.0) * mean(&fewer).map_or(0.0, |m| m.value))
        };
        let alike =
            (0..counts.len()).map(|row| [without(row, false), without(row, true)]).collect();
        Some(Pseudo { counts, alike })
    }

    fn value(&self, game: &Length) -> Option<f64> {
        self.alike[self.counts.partition_point(|c| c.0 < game.time)][usize::from(game.ended)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ended(time: f64) -> Length {
        Length { time, ended: true }
    }

    fn cut(time: f64) -> Length {
        Length { time, ended: false }
    }

    #[test]
    fn beyond_what_was_seen_no_mean_is_known() {
        let games = Survival::of(&[ended(3.0), cut(8.0)]).unwrap();
        assert_eq!(games.restricted_mean(9.0), None);
        assert_eq!(games.restricted_mean(0.0), None);
        assert_eq!(games.restricted_mean(8.0).unwrap().value, 5.5);
        let all_ended = Survival::of(&[ended(3.0), ended(8.0)]).unwrap();
        assert_eq!(all_ended.restricted_mean(100.0).unwrap().value, 5.5);
    }

    /// Without a cut before the limit: the mean of the lengths and its plug-in error.
    #[test]
    fn without_early_cuts_it_is_the_plain_mean() {
        let games = [ended(2.0), ended(5.0), ended(5.0), cut(8.0), cut(8.0)];
        let mean = Survival::of(&games).unwrap().restricted_mean(8.0).unwrap();
        let lengths: [f64; 5] = [2.0, 5.0, 5.0, 8.0, 8.0];
        let variance = lengths.iter().map(|l| (l - 5.6).powi(2)).sum::<f64>() / 25.0;
        assert!((mean.value - 5.6).abs() < 1e-12 && (mean.se - variance.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn games_that_all_last_to_the_limit_are_sure() {
        let mean = Survival::of(&[cut(8.0), cut(8.0)]).unwrap().restricted_mean(8.0).unwrap();
        assert_eq!(mean, Normal { value: 8.0, se: 0.0 });
        assert_eq!((mean.p(), mean.less(&mean).p()), (0.0, 1.0));
    }

    #[test]
    fn a_shift_of_pairs_cut_at_the_limit_is_the_plain_paired_one() {
        let pairs = vec![
            (ended(4.0), ended(3.0)),
            (ended(6.0), ended(6.0)),
            (cut(8.0), ended(5.0)),
            (cut(8.0), cut(8.0)),
        ];
        let found = restricted_mean_shift(&[pairs], 8.0).unwrap();
        let plain = stratified_mean(&[vec![-1.0, 0.0, -3.0, 0.0]]).unwrap();
        assert!((found.value - plain.value).abs() < 1e-12, "{found:?}");
        assert!((found.se - plain.se).abs() < 1e-12, "{found:?}");
    }

    /// Pseudo-values add up to the difference of the restricted means.
    #[test]
    fn early_cuts_are_allowed_for() {
        let pairs: Vec<(Length, Length)> = (0..40)
            .map(|n| {
                let time = f64::from(2 + n % 7);
                (if n % 5 == 0 { cut(time) } else { ended(time) }, ended(time.min(6.0)))
            })
            .collect();
        let found = restricted_mean_shift(std::slice::from_ref(&pairs), 7.0).unwrap();
        let side = |of: fn(&(Length, Length)) -> Length| {
            let games: Vec<Length> = pairs.iter().map(of).collect();
            Survival::of(&games).unwrap().restricted_mean(7.0).unwrap()
        };
        let apart = side(|p| p.1).less(&side(|p| p.0));
        assert!((found.value - apart.value).abs() < 0.01, "{found:?} {apart:?}");
        assert!(found.se < apart.se, "pairs share their luck: {found:?} {apart:?}");
    }
}
