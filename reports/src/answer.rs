//! What games with the same luck say of a metric, and the word that earns.

use ruleshift_record::{JudgedShift, Metric, MetricKind, Verdict};

use crate::stats::{
    CONFIDENCE, Estimate, Evidence, Interval, LEVEL, POWER, PairTable, further_games, holm,
    mcnemar_mid_p, pairs_for_equivalence, pairs_for_rate_shift, pairs_for_shift, stratified_mean,
    verdict,
};

/// What pairs say of one metric, whatever its kind.
#[derive(Clone, Copy)]
pub(crate) struct Answer {
    pub(crate) shift: f64,
    pub(crate) interval: Interval,
    pub(crate) p: f64,
    /// Whether the shift is surely too small to notice.
    pub(crate) equivalent: bool,
    /// The smallest shift worth noticing.
    pub(crate) notice: f64,
    pairs: u32,
    spread: Spread,
}

/// How pairs differ, as the number of further games depends on it.
#[derive(Clone, Copy)]
enum Spread {
    /// Standard deviation of the paired difference.
    Number(f64),
    /// Shares of pairs that change to yes and to no.
    Rate { gained: f64, lost: f64 },
}

impl Answer {
    /// The answer of one difference per game.
    pub(crate) fn of(estimate: &Estimate, notice: f64) -> Answer {
        Answer {
            shift: estimate.value,
            interval: estimate.interval(CONFIDENCE),
            p: estimate.p(),
            equivalent: estimate.equivalence_p(notice) < LEVEL,
            notice,
            pairs: u32::try_from(estimate.count).unwrap_or(u32::MAX),
            spread: Spread::Number(estimate.se * (estimate.count as f64).sqrt()),
        }
    }

    fn judged(&self, p_adjusted: f64, family: usize) -> JudgedShift {
        let notice = self.notice;
        let evidence =
            Evidence { p_adjusted, interval: self.interval, equivalent: self.equivalent, notice };
        let verdict = verdict(&evidence);
        let more_games = if verdict == Verdict::Undecided {
            let ways = self.spread.ways(self.shift, notice, LEVEL / family as f64);
            further_games(self.pairs, &ways)
        } else {
            0
        };
        let Interval { low, high } = self.interval;
        JudgedShift { value: self.shift, low, high, p: self.p, p_adjusted, verdict, more_games }
    }
}

impl Spread {
    /// Pairs that would show the shift, and pairs that would show there is none worth noticing.
    fn ways(self, shift: f64, notice: f64, level: f64) -> [Option<f64>; 2] {
        let equivalence = |sd| pairs_for_equivalence(shift, sd, notice, LEVEL, POWER);
        match self {
            Spread::Number(sd) => [pairs_for_shift(shift, sd, level, POWER), equivalence(sd)],
            Spread::Rate { gained, lost } => {
                let sd = (gained + lost - (gained - lost).powi(2)).max(0.0).sqrt();
                [pairs_for_rate_shift(gained, lost, level, POWER), equivalence(sd)]
            }
        }
    }
}

/// Every answer with its p-value adjusted over all of them, its word, and the games it lacks.
pub(crate) fn judged(answers: &[Answer]) -> Vec<JudgedShift> {
    let p: Vec<f64> = answers.iter().map(|answer| answer.p).collect();
    let judge = |(answer, p): (&Answer, f64)| answer.judged(p, answers.len());
    answers.iter().zip(holm(&p)).map(judge).collect()
}

/// The answer for pairs by stratum, for a metric and the smallest shift of it worth noticing; `alike` when all pairs are the same game in every metric.
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
    Some(Answer::of(&stratified_mean(&shifts)?, notice))
}

fn rate(strata: &[Vec<(f64, f64)>], notice: f64, alike: bool) -> Option<Answer> {
    let yes = |v: f64| v >= 0.5;
    let table = PairTable::count(strata.iter().flatten().map(|&(r, a)| (yes(a), yes(r))));
    let n = table.pairs() as f64;
    // Games that are the same in everything leave nothing for chance to do.
    let interval = |confidence| match alike {
        true => Some(Interval { low: 0.0, high: 0.0 }),
        false => table.interval(confidence),
    };
    Some(Answer {
        shift: table.difference()?,
        interval: interval(CONFIDENCE)?,
        p: mcnemar_mid_p(table.first_only, table.second_only),
        equivalent: interval(1.0 - 2.0 * LEVEL)?.within(notice),
        notice,
        pairs: total(strata),
        spread: Spread::Rate {
            gained: table.first_only as f64 / n,
            lost: table.second_only as f64 / n,
        },
    })
}

/// All pairs of all strata.
pub(crate) fn total(strata: &[Vec<(f64, f64)>]) -> u32 {
    u32::try_from(strata.iter().map(Vec::len).sum::<usize>()).unwrap_or(u32::MAX)
}
