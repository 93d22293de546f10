//! The shift of one metric: from pairs to numbers, before the family is known.

use ruleshift_record::{
    Metric, MetricKind, MetricShift, PairingShift, RunRecord, ScenarioShift, Verdict,
};

use super::pairs::{Pair, Pairs};
use super::players::names;
use crate::stats::{
    CONFIDENCE, Evidence, Interval, LEVEL, Moments, POWER, PairTable, further_games, holm,
    mcnemar_mid_p, pairs_for_equivalence, pairs_for_rate_shift, pairs_for_shift, stratified_mean,
    variance_ratio, verdict,
};

/// What pairs say of one metric, whatever its kind.
#[derive(Clone, Copy)]
struct Answer {
    shift: f64,
    interval: Interval,
    p: f64,
    equivalent: bool,
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

/// A shift that waits for the p-values of its family.
pub(super) struct Finding {
    pub(super) shift: MetricShift,
    equivalent: bool,
    spread: Spread,
}

type Strata = Vec<Vec<(f64, f64)>>;

/// The shift of `metric` between the reference and one arm; `None` with fewer than two pairs.
pub(super) fn finding(run: &RunRecord, pairs: &Pairs, metric: Metric) -> Option<Finding> {
    let (spec, strata) = (metric.spec(), pairs.values(metric));
    let notice = run.plan.notice(metric);
    let answer = answer(&strata, (metric, notice), pairs.alike())?;
    let (reference_mean, mean) = means(&strata)?;
    let shift = MetricShift {
        metric: spec.name.to_owned(),
        unit: spec.unit.to_owned(),
        arm: run.plan.arms[pairs.arm].name.clone(),
        headline: run.plan.is_headline(metric),
        pairs: total(&strata),
        reference_mean,
        mean,
        shift: answer.shift,
        low: answer.interval.low,
        high: answer.interval.high,
        p: answer.p,
        p_adjusted: answer.p,
        notice,
        variance_ratio: variance_ratio(&strata),
        verdict: Verdict::Undecided,
        more_games: 0,
        by_scenario: by_scenario(run, pairs, metric, &strata),
        by_pairing: by_pairing(run, pairs, metric, &strata),
    };
    Some(Finding { shift, equivalent: answer.equivalent, spread: answer.spread })
}

/// Gives every finding its adjusted p-value, over headline metrics and over all others, its word,
/// and the games it lacks.
pub(super) fn judge(mut findings: Vec<Finding>) -> Vec<MetricShift> {
    for headline in [true, false] {
        let family: Vec<usize> =
            (0..findings.len()).filter(|&n| findings[n].shift.headline == headline).collect();
        let p: Vec<f64> = family.iter().map(|&n| findings[n].shift.p).collect();
        for (&n, p_adjusted) in family.iter().zip(holm(&p)) {
            findings[n].settle(p_adjusted, family.len());
        }
    }
    findings.into_iter().map(|f| f.shift).collect()
}

impl Finding {
    fn settle(&mut self, p_adjusted: f64, family: usize) {
        let shift = &mut self.shift;
        shift.p_adjusted = p_adjusted;
        shift.verdict = verdict(&Evidence {
            p_adjusted,
            interval: Interval { low: shift.low, high: shift.high },
            equivalent: self.equivalent,
            notice: shift.notice,
        });
        if shift.verdict == Verdict::Undecided {
            let ways = self.spread.ways(shift.shift, shift.notice, LEVEL / family as f64);
            shift.more_games = further_games(shift.pairs, &ways);
        }
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

/// The answer for pairs by stratum, for a metric and the smallest shift of it worth noticing; `alike` when all pairs are the same game in every metric.
fn answer(strata: &Strata, (metric, notice): (Metric, f64), alike: bool) -> Option<Answer> {
    if total(strata) < 2 {
        return None;
    }
    match metric.spec().kind {
        MetricKind::Rate => rate(strata, notice, alike),
        MetricKind::Number => number(strata, notice),
    }
}

fn number(strata: &Strata, notice: f64) -> Option<Answer> {
    let shifts: Vec<Vec<f64>> =
        strata.iter().map(|s| s.iter().map(|(r, a)| a - r).collect()).collect();
    let estimate = stratified_mean(&shifts)?;
    Some(Answer {
        shift: estimate.value,
        interval: estimate.interval(CONFIDENCE),
        p: estimate.p(),
        equivalent: estimate.equivalence_p(notice) < LEVEL,
        spread: Spread::Number(estimate.se * (estimate.count as f64).sqrt()),
    })
}

fn rate(strata: &Strata, notice: f64, alike: bool) -> Option<Answer> {
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
        spread: Spread::Rate {
            gained: table.first_only as f64 / n,
            lost: table.second_only as f64 / n,
        },
    })
}

fn by_scenario(
    run: &RunRecord,
    pairs: &Pairs,
    metric: Metric,
    strata: &Strata,
) -> Vec<ScenarioShift> {
    let per_scenario = strata.chunks(pairs.pairings());
    let shift = |(n, strata): (usize, &[Vec<(f64, f64)>])| {
        let part = part(
            strata.to_vec(),
            (metric, run.plan.notice(metric)),
            pairs.alike_where(|pair| pair.scenario == n),
        )?;
        Some(ScenarioShift {
            scenario: run.plan.scenarios[n].name.clone(),
            pairs: part.pairs,
            reference_mean: part.means.0,
            mean: part.means.1,
            shift: part.answer.shift,
            low: part.answer.interval.low,
            high: part.answer.interval.high,
        })
    };
    per_scenario.enumerate().filter_map(shift).collect()
}

/// None with a single pairing, which would only say everything again.
fn by_pairing(
    run: &RunRecord,
    pairs: &Pairs,
    metric: Metric,
    strata: &Strata,
) -> Vec<PairingShift> {
    let pairings = pairs.pairings();
    let shift = |n: usize| {
        let strata = strata.iter().skip(n).step_by(pairings).cloned().collect();
        let own = |pair: &Pair| pair.game as usize % pairings == n;
        let part = part(strata, (metric, run.plan.notice(metric)), pairs.alike_where(own))?;
        let (attacker, defender) = names(&run.plan, n);
        Some(PairingShift {
            attacker: attacker.to_owned(),
            defender: defender.to_owned(),
            pairs: part.pairs,
            reference_mean: part.means.0,
            mean: part.means.1,
            shift: part.answer.shift,
            low: part.answer.interval.low,
            high: part.answer.interval.high,
        })
    };
    if pairings > 1 { (0..pairings).filter_map(shift).collect() } else { vec![] }
}

/// What some of the strata say by themselves.
struct Part {
    pairs: u32,
    means: (f64, f64),
    answer: Answer,
}

fn part(strata: Strata, metric: (Metric, f64), alike: bool) -> Option<Part> {
    let answer = answer(&strata, metric, alike)?;
    Some(Part { pairs: total(&strata), means: means(&strata)?, answer })
}

fn means(strata: &Strata) -> Option<(f64, f64)> {
    let mean = |of: fn(&(f64, f64)) -> f64| {
        Moments::of(&strata.iter().flatten().map(of).collect::<Vec<f64>>()).map(|m| m.mean)
    };
    Some((mean(|v| v.0)?, mean(|v| v.1)?))
}

fn total(strata: &Strata) -> u32 {
    u32::try_from(strata.iter().map(Vec::len).sum::<usize>()).unwrap_or(u32::MAX)
}
