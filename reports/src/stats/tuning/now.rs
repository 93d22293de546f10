//! What do the games so far say of each value, and what would more of them?

use ruleshift_record::{TuneAnswer, TuneCrossing, TuneSetting, TuneStanding};

use super::crossing::{crossing, crossings, shaped};
use super::{Tried, TuneFound, TuneTask, Tuning};
use crate::stats::{Interval, needed_for_width};

/// What is known of one value.
pub(super) struct Known {
    /// Its mean.
    pub(super) mean: Option<f64>,
    /// Its interval, without limit where nothing is known.
    pub(super) limits: Interval,
}

/// Everything that is known at one moment.
pub(super) struct Now<'a> {
    tuning: &'a Tuning,
    tried: &'a [Tried],
    known: Vec<Known>,
    /// Limits of each value that also obey the shape.
    limits: Vec<Interval>,
    shape_holds: bool,
}

impl<'a> Now<'a> {
    /// What `tried` tells, which has an entry for each value.
    pub(super) fn of(tuning: &'a Tuning, tried: &'a [Tried]) -> Now<'a> {
        let known: Vec<Known> = tried.iter().map(|tried| tuning.known(tried)).collect();
        let plain: Vec<Interval> = known.iter().map(|known| known.limits).collect();
        let (limits, shape_holds) = shaped(&plain, tuning.task.shape);
        Now { tuning, tried, known, limits, shape_holds }
    }

    fn task(&self) -> &TuneTask {
        &self.tuning.task
    }

    /// Where a mean within `limits` stands.
    fn standing(&self, limits: Interval) -> TuneStanding {
        let (target, notice) = (self.task().target, self.task().notice);
        let off = Interval { low: limits.low - target, high: limits.high - target };
        match off {
            _ if off.within(notice) => TuneStanding::OnTarget,
            Interval { high, .. } if high < 0.0 => TuneStanding::Below,
            Interval { low, .. } if low > 0.0 => TuneStanding::Above,
            _ => TuneStanding::Open,
        }
    }

    /// Which values more games could settle the answer of: those that are open, and those beside a
    /// half that is. None once a value is found, or a half when no value is open.
    fn open(&self) -> Vec<usize> {
        let values: Vec<TuneStanding> =
            self.limits.iter().map(|limits| self.standing(*limits)).collect();
        let halves: Vec<Option<TuneStanding>> =
            (0..values.len()).map(|n| self.half(n).map(|limits| self.standing(limits))).collect();
        let found = values.contains(&TuneStanding::OnTarget);
        let half_found = halves.contains(&Some(TuneStanding::OnTarget));
        if found || (half_found && !values.contains(&TuneStanding::Open)) {
            return vec![];
        }
        let half = |n: usize| halves[n] == Some(TuneStanding::Open);
        let beside = |n: usize| half(n) || n.checked_sub(1).is_some_and(half);
        (0..values.len()).filter(|n| values[*n] == TuneStanding::Open || beside(*n)).collect()
    }

    /// Those of them that get more games now. One that was passed over at a look stays behind: its
    /// games would no longer have the luck of the others.
    pub(super) fn wanted(&self) -> Vec<usize> {
        let most = self.tried.iter().map(|tried| tried.looks).max();
        self.open().into_iter().filter(|n| Some(self.tried[*n].looks) == most).collect()
    }

    /// The limits half way from a value to the next, when that is one more.
    fn half(&self, n: usize) -> Option<Interval> {
        let values = &self.task().values;
        let follows = values.get(n + 1).is_some_and(|next| values[n].checked_add(1) == Some(*next));
        follows.then(|| Interval {
            low: f64::midpoint(self.limits[n].low, self.limits[n + 1].low),
            high: f64::midpoint(self.limits[n].high, self.limits[n + 1].high),
        })
    }

    /// All settings that can be played, rising.
    fn settings(&self) -> Vec<TuneSetting> {
        let games = |n: usize| self.tried[n].strata.iter().map(Vec::len).sum::<usize>();
        let setting = |value: f64, games: usize, mean: Option<f64>, limits: Interval| {
            let known = limits.low.is_finite() && limits.high.is_finite();
            TuneSetting {
                value,
                games: u32::try_from(games).unwrap_or(u32::MAX),
                mean,
                interval: known.then_some((limits.low, limits.high)),
                standing: self.standing(limits),
            }
        };
        let mut settings = Vec::new();
        for (n, value) in self.task().values.iter().enumerate() {
            let (value, mean) = (*value as f64, self.known[n].mean);
            settings.push(setting(value, games(n), mean, self.limits[n]));
            if let Some(limits) = self.half(n) {
                let next = self.known[n + 1].mean;
                let mean = mean.zip(next).map(|(a, b)| f64::midpoint(a, b));
                settings.push(setting(value + 0.5, games(n).min(games(n + 1)), mean, limits));
            }
        }
        settings
    }

    /// The answer when nothing more is played.
    pub(super) fn found(&self) -> TuneFound {
        let settings = self.settings();
        let values: Vec<f64> = self.task().values.iter().map(|value| *value as f64).collect();
        let means: Option<Vec<f64>> = self.known.iter().map(|known| known.mean).collect();
        let target = self.task().target;
        let crossing = crossings(&values, &self.limits, target).map(|within| {
            let seen = means.and_then(|means| crossing(&values, &means, target, &within));
            TuneCrossing { at: seen, low: within.low, high: within.high }
        });
        let answer = self.answer(&settings);
        TuneFound { settings, crossing, shape_holds: self.shape_holds, answer }
    }

    fn answer(&self, settings: &[TuneSetting]) -> TuneAnswer {
        let is_whole = |s: &&&TuneSetting| s.value.fract() == 0.0;
        let on = |s: &&TuneSetting| s.standing == TuneStanding::OnTarget;
        let whole: Vec<&TuneSetting> = settings.iter().filter(|s| is_whole(&s)).collect();
        let of_whole = self.nearest(whole.iter().copied().filter(on));
        if let Some(value) = of_whole.or_else(|| self.nearest(settings.iter().filter(on))) {
            return TuneAnswer::Found { value };
        }
        // There is a value at least, so there is a nearest one.
        let nearest = self.nearest(settings.iter()).unwrap_or(settings[0].value);
        let all = |side| whole.iter().all(|s| s.standing == side);
        match (all(TuneStanding::Below), all(TuneStanding::Above)) {
            (true, _) => TuneAnswer::NoneReaches { below: true, nearest },
            (_, true) => TuneAnswer::NoneReaches { below: false, nearest },
            _ => match self.open() {
                open if open.is_empty() => TuneAnswer::Between { nearest },
                open => TuneAnswer::Undecided { nearest, more_games: self.more_games(&open) },
            },
        }
    }

    /// The setting whose mean is nearest to the target, the lowest of equals.
    fn nearest<'s>(&self, of: impl Iterator<Item = &'s TuneSetting>) -> Option<f64> {
        let off = |s: &TuneSetting| (s.mean.unwrap_or(f64::INFINITY) - self.task().target).abs();
        of.min_by(|a, b| off(a).total_cmp(&off(b))).map(|s| s.value)
    }

    /// Further games that are expected to put these values, or the halves beside them, on one side
    /// of the target or near enough to it, if the means are as seen (Chow & Robbins 1965).
    fn more_games(&self, open: &[usize]) -> u32 {
        let (target, notice) = (self.task().target, self.task().notice);
        let is_open = |limits: &Interval| self.standing(*limits) == TuneStanding::Open;
        let needs = |&n: &usize| {
            let limits = self.known[n].limits;
            let mut halves =
                [n.checked_sub(1), Some(n)].into_iter().flatten().filter_map(|n| self.half(n));
            let middle = match halves.rfind(is_open) {
                Some(half) if !is_open(&self.limits[n]) => f64::midpoint(half.low, half.high),
                _ => self.known[n].mean?,
            };
            let done: usize = self.tried[n].strata.iter().map(Vec::len).sum();
            let done = u32::try_from(done).unwrap_or(u32::MAX);
            let (off, reach) = ((middle - target).abs(), (limits.high - limits.low) / 2.0);
            Some(needed_for_width(done, reach, off.max(notice - off))? - f64::from(done))
        };
        // A float beyond the range becomes the largest count.
        (open.iter().filter_map(needs).sum::<f64>().ceil() as u32).max(1)
    }
}
