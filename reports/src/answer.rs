//! What games with the same luck say of a metric, and the word that earns.

use ruleshift_record::{JudgedShift, Metric, MetricKind, Verdict};

use crate::stats::{
    CONFIDENCE, Estimate, Evidence, Interval, LEVEL, POWER, PairTable, further_games, holm,
    mcnemar_mid_p, pairs_for_equivalence, pairs_for_rate_shift, pairs_for_shift,
    skew_equivalence_p, skewness_of_mean, stratified_mean, verdict,
};

/// Halvings after which a level is known to one part in a million million.
const STEPS: u32 = 40;

/// What pairs say of one metric, whatever its kind.
#[derive(Clone, Copy)]
pub(crate) struct Answer {
    pub(crate) shift: f64,
    pub(crate) interval: Interval,
    pub(crate) p: f64,
    /// P-value of "the shift is as large as players notice": the larger of two one-sided tests.
    pub(crate) equivalence_p: f64,
    /// The smallest shift worth noticing.
    pub(crate) notice: f64,
    basis: Basis,
}

/// What an answer rests on.
#[derive(Clone, Copy)]
enum Basis {
    /// One difference for each pair.
    Number(Estimate),
    /// Yes or no in both games of each pair; whether all pairs are the same game in every metric.
    Rate { table: PairTable, alike: bool },
}

impl Basis {
    fn pairs(self) -> u32 {
        let pairs = match self {
            Basis::Number(estimate) => estimate.count as u64,
            Basis::Rate { table, .. } => table.pairs(),
        };
        u32::try_from(pairs).unwrap_or(u32::MAX)
    }

    fn interval(self, confidence: f64) -> Option<Interval> {
        match self {
            Basis::Number(estimate) => Some(estimate.interval(confidence)),
            // Games that are the same in everything leave nothing for chance to do.
            Basis::Rate { alike: true, .. } => Some(Interval { low: 0.0, high: 0.0 }),
            Basis::Rate { table, .. } => table.interval(confidence),
        }
    }

    /// Pairs that would show the shift, and pairs that would show there is none worth noticing.
    fn ways(self, shift: f64, notice: f64, level: f64) -> [Option<f64>; 2] {
        let equivalence = |sd| pairs_for_equivalence(shift, sd, notice, LEVEL, POWER);
        match self {
            Basis::Number(estimate) => {
                let sd = estimate.se * (estimate.count as f64).sqrt();
                [pairs_for_shift(shift, sd, level, POWER), equivalence(sd)]
            }
            Basis::Rate { table, .. } => {
                let n = table.pairs() as f64;
                let (gained, lost) = (table.first_only as f64 / n, table.second_only as f64 / n);
                let sd = (gained + lost - (gained - lost).powi(2)).max(0.0).sqrt();
                [pairs_for_rate_shift(gained, lost, level, POWER), equivalence(sd)]
            }
        }
    }
}

impl Answer {
    /// The answer of one difference per game.
    pub(crate) fn of(estimate: &Estimate, notice: f64) -> Answer {
        Answer {
            shift: estimate.value,
            interval: estimate.interval(CONFIDENCE),
            p: estimate.p(),
            equivalence_p: estimate.equivalence_p(notice),
            notice,
            basis: Basis::Number(*estimate),
        }
    }

    /// The interval of another confidence.
    pub(crate) fn at(&self, confidence: f64) -> Option<Interval> {
        self.basis.interval(confidence)
    }

    /// Further games that an answer which is undecided in a family of that size is expected to need.
    pub(crate) fn more_games(&self, family: usize) -> u32 {
        let ways = self.basis.ways(self.shift, self.notice, LEVEL / family as f64);
        further_games(self.basis.pairs(), &ways)
    }

    fn judged(&self, p_adjusted: f64, family: usize) -> JudgedShift {
        let equivalent = self.equivalence_p < LEVEL;
        let (interval, notice) = (self.interval, self.notice);
        let verdict = verdict(&Evidence { p_adjusted, interval, equivalent, notice });
        let open = verdict == Verdict::Undecided;
        let more_games = if open { self.more_games(family) } else { 0 };
        let Interval { low, high } = self.interval;
        JudgedShift { value: self.shift, low, high, p: self.p, p_adjusted, verdict, more_games }
    }
}

/// Every answer with its p-value adjusted over all of them, its word, and the games it lacks.
pub(crate) fn judged(answers: &[Answer]) -> Vec<JudgedShift> {
    let p: Vec<f64> = answers.iter().map(|answer| answer.p).collect();
    let judge = |(answer, p): (&Answer, f64)| answer.judged(p, answers.len());
    answers.iter().zip(holm(&p)).map(judge).collect()
}

/// The answer for pairs by stratum, for a metric and the smallest shift of it worth noticing; `alike`
/// when all pairs are the same game in every metric.
/// `None` with fewer than two pairs.
pub(crate) fn answer(
    strata: &[Vec<(f64, f64)>],
    (metric, notice): (Metric, f64),
    alike: bool,
) -> Option<Answer> {
    if total(strata) < 2 {
        return None;
    }
    match metric.spec().kind {
        MetricKind::Rate => rate(strata, notice, alike),
        MetricKind::Number => number(strata, notice),
    }
}

fn number(strata: &[Vec<(f64, f64)>], notice: f64) -> Option<Answer> {
    let shifts: Vec<Vec<f64>> =
        strata.iter().map(|s| s.iter().map(|(r, a)| a - r).collect()).collect();
    let estimate = stratified_mean(&shifts)?;
    let skewness = skewness_of_mean(&shifts, estimate.se);
    let equivalence_p = skew_equivalence_p(&estimate, skewness, notice);
    Some(Answer { equivalence_p, ..Answer::of(&estimate, notice) })
}

fn rate(strata: &[Vec<(f64, f64)>], notice: f64, alike: bool) -> Option<Answer> {
    let yes = |v: f64| v >= 0.5;
    let table = PairTable::count(strata.iter().flatten().map(|&(r, a)| (yes(a), yes(r))));
    let basis = Basis::Rate { table, alike };
    Some(Answer {
        shift: table.difference()?,
        interval: basis.interval(CONFIDENCE)?,
        p: mcnemar_mid_p(table.first_only, table.second_only),
        equivalence_p: equivalence_p(|confidence| basis.interval(confidence), notice),
        notice,
        basis,
    })
}

/// The level at which both one-sided tests hold, by the interval that they are read off: within
/// what nobody notices at a confidence of one less twice the level (Schuirmann 1987).
fn equivalence_p(interval: impl Fn(f64) -> Option<Interval>, notice: f64) -> f64 {
    let within =
        |level: f64| interval(1.0 - 2.0 * level).is_some_and(|interval| interval.within(notice));
    let (mut low, mut high) = (0.0, 0.5);
    if !within(high - f64::EPSILON) {
        return 1.0;
    }
    for _ in 0..STEPS {
        let level = f64::midpoint(low, high);
        if within(level) { high = level } else { low = level }
    }
    high
}

/// All pairs of all strata.
pub(crate) fn total(strata: &[Vec<(f64, f64)>]) -> u32 {
    u32::try_from(strata.iter().map(Vec::len).sum::<usize>()).unwrap_or(u32::MAX)
}
